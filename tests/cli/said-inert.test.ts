import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { FaultsError, readFaults } from '../../src/trace/faults.ts';
import { SourceError } from '../../src/trigger/source.ts';
import { example, folder, run } from './run.ts';

const evil = '\u001b]0;pwn\u0007\u001b[2J\u009b31m\u202e';

const withFaults = (text: string) => {
	const home = folder();
	writeFileSync(join(home, 'faults.yaml'), text);
	return home;
};

test.each([
	['a key of a faults file', ['trace', '--all'], '"\\e]0;pwn\\a\\e[2J": 1\n'],
	['a fault of a faults file', ['trace', '--all'], 'faults:\n  "\\e]0;pwn\\a\\e[2J": 1\n'],
	['a name of a recording', ['spray', example, '--plain', '--trigger', example, '--record', `${evil}/y`], ''],
	['a name of a trigger line', ['spray', example, '--plain', '--trigger', `${evil}/y`], ''],
	['a trigger line that is no recording', ['rehearse', example, '--json', '--trigger', `${evil}/y`], ''],
	['a command', [evil], ''],
	['an option', ['now', `--${evil}`], ''],
	['a word too many', ['now', 'one', evil], ''],
	['an instant', ['rehearse', example, '--json', '--start', evil], ''],
	['a seed', ['rehearse', example, '--json', '--seed', evil], ''],
	['a day', ['rehearse', example, '--json', '--day', `${evil}/y`], ''],
	['a setting', ['settings', evil], ''],
	['a fault', ['trace', '--fault', evil], ''],
	['a part of work', ['work', evil], ''],
])('%s that holds codes of a terminal is told, and obeyed by none', (_name, words, faults) => {
	const { status, stderr } = run(words, { home: faults === '' ? folder() : withFaults(faults) });
	expect(status).not.toBe(0);
	expect(stderr).not.toBe('');
	expect(stderr.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
});

test('what is wrong with faults and trigger lines is plain text, whoever tells it', () => {
	expect(new SourceError(`${evil}: is not there`).message).toBe(
		'<U+001B>]0;pwn<U+0007><U+001B>[2J<U+009B>31m<U+202E>: is not there',
	);
	const read = () => readFaults('"\\e[2J": 1', `${evil}.yaml`);
	expect(read).toThrow(FaultsError);
	expect(read).toThrow(/^<U\+001B>\]0;pwn[^\p{Cc}\p{Cf}]*$/u);
});

test('a faults file that is none is refused in one line, and waited for by nobody', () => {
	const home = folder();
	const pipe = join(home, 'pipe');
	const large = join(home, 'large');
	spawnSync('mkfifo', [pipe]);
	writeFileSync(large, `${'#'.repeat(999)}\n`.repeat(4100));
	for (const file of [pipe, large, '/dev/zero', home, join(home, 'none')]) {
		const { status, stdout, stderr } = run(['trace', '--all', '--faults', file], { home });
		expect({ status, stdout }, file).toEqual({ status: 2, stdout: '' });
		expect(stderr, file).toMatch(/^fanwise trace: [^\n]+:1:1: [^\n]+\n$/);
	}
});
