import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { wholeFiles } from '../kinds-of-test.ts';

/** What is kept to in all tests. */

const tests = readdirSync('tests', { recursive: true, encoding: 'utf8' })
	.filter(name => name.endsWith('.test.ts'))
	.map(name => join('tests', name));
const textOf = (file: string) => readFileSync(file, 'utf8');

test('a quick test that starts a process fails, and says where it belongs', () => {
	expect(() => spawnSync(process.execPath, ['-e', '0'])).toThrow('tests/kinds-of-test.ts');
});

test('only what is listed for it opens a terminal', () => {
	const opening = tests.filter(file => /\/pty\.ts'/.test(textOf(file)));
	expect(opening.length).toBeGreaterThan(3);
	expect(opening.filter(file => !file.startsWith(join('tests', 'terminal')))).toEqual([]);
});

test('every file that is listed as no quick one is there', () => {
	expect(wholeFiles.filter(name => !existsSync(name))).toEqual([]);
});

test('no test measures how long a thing takes: on a busy machine it would fail for that alone', () => {
	const asks = /\bperformance\.now\(|\bhrtime\(/;
	expect(tests.filter(file => asks.test(textOf(file)))).toEqual([]);
});
