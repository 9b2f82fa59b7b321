import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { nameOnSheet } from '../../src/job/glimpse.ts';

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
