import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { isMeantAsSheet, nameOnSheet } from '../../src/job/glimpse.ts';

const example = readFileSync('checklists/example/coffee-cart.yaml', 'utf8');

test('a job sheet is told from outside, by its name', () => {
	expect(nameOnSheet(example)).toBe('Market coffee cart');
	expect(nameOnSheet(example.replace(/^name:.*$/m, 'name: "Stools: four" # of them'))).toBe('Stools: four');
});

test('a list, another program’s file and a sheet without a name are no job sheets', () => {
	expect(nameOnSheet(readFileSync('checklists/gun-check.yaml', 'utf8'))).toBeNull();
	expect(nameOnSheet('name: build\njobs:\n  test: {}\n')).toBeNull();
	expect(nameOnSheet(example.replace(/^name:.*$/m, ''))).toBeNull();
});

test('a sheet with a key that is missing or misspelt is meant for one; other files are not', () => {
	const chairs = readFileSync('tests/job/chairs/eight-chairs.yaml', 'utf8');
	for (const text of [example, chairs, chairs.replace('gun:', 'gnu:'), chairs.replace(/^name:.*\n/m, '')])
		expect(isMeantAsSheet(text)).toBe(true);
	const others = ['checklists/gun-check.yaml', 'checklists/faults.yaml', 'tests/job/chairs/shelf/shop.yaml'];
	for (const path of others) expect(isMeantAsSheet(readFileSync(path, 'utf8'))).toBe(false);
	expect(isMeantAsSheet('name: build\njobs:\n  test: {}\norder: 1\n')).toBe(false);
});
