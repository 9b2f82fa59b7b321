import { appendFileSync, mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { keptPieces, sumOf, sumOfProgram } from './kept-pieces.ts';

const folder = () => mkdtempSync(join(tmpdir(), 'proof-'));

test('what was done before a proof was stopped is there again', () => {
	const at = folder();
	const first = keptPieces<{ says: string[] }>(at, 'aa');
	expect([...first.done]).toEqual([]);
	first.keep(3, { says: [] });
	first.keep(0, { says: ['falls'] });
	const again = keptPieces<{ says: string[] }>(at, 'aa');
	expect([...again.done]).toEqual([
		[3, { says: [] }],
		[0, { says: ['falls'] }],
	]);
	expect([...keptPieces(at, 'bb').done]).toEqual([]);
});

test('a line in which the program ended is done again, and spoils none behind it', () => {
	const at = folder();
	keptPieces(at, 'aa').keep(0, 'whole');
	appendFileSync(join(at, readdirSync(at)[0] ?? ''), '{"number":1,"res');
	const again = keptPieces(at, 'aa');
	expect([...again.done.keys()]).toEqual([0]);
	again.keep(2, 'whole');
	expect([...keptPieces(at, 'aa').done.keys()]).toEqual([0, 2]);
});

test('the sum is another as soon as a byte, or the name of a file, is', () => {
	const at = folder();
	const file = join(at, 'one.ts');
	writeFileSync(file, 'a');
	const [sum, same] = [sumOf([at]), sumOf([at])];
	expect(same).toBe(sum);
	writeFileSync(file, 'b');
	expect(sumOf([at])).not.toBe(sum);
	writeFileSync(file, 'a');
	expect(sumOf([at])).toBe(sum);
	writeFileSync(join(at, 'two.ts'), '');
	expect(sumOf([at])).not.toBe(sum);
});

test('the sum of a program is another as soon as a file that it reads is, and no other', () => {
	const at = folder();
	const [entry, read, other] = ['entry.ts', 'read.ts', 'other.ts'].map(name => join(at, name));
	writeFileSync(entry ?? '', "import { what } from './read.ts';\nconsole.log(what);\n");
	writeFileSync(read ?? '', "export const what = 'a';\n");
	const sum = () => sumOfProgram(entry ?? '', []);
	const before = sum();
	writeFileSync(other ?? '', 'export {};\n');
	expect(sum()).toBe(before);
	writeFileSync(read ?? '', "export const what = 'b';\n");
	expect(sum()).not.toBe(before);
});
