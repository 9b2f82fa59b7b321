import { spawnSync } from 'node:child_process';
import { closeSync, mkdirSync, openSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { makeFolders } from '../../src/day/file/port.ts';
import { saySystemError } from '../../src/day/file/trouble.ts';
import { example, folder, program, run } from './run.ts';

/** A home with a day of the example, and files of later dates that are none. */
function withStrays() {
	const home = folder();
	run(['spray', example, '--plain'], { home, input: 'e\n' });
	const stray = (name: string, text: string) => writeFileSync(join(home, 'days', name), text);
	stray('2999-01-01_list.day.jsonl', 'paper, tape\n');
	stray('2999-01-02_empty.day.jsonl', '');
	return { home, stray };
}

test('a stray file among the days is passed over in one line, and the newest real day taken', () => {
	const { home } = withStrays();
	for (const words of [['now'], ['log'], ['summary'], ['report', '-o', join(home, 'day.json')]]) {
		const { status, stdout, stderr } = run(words, { home });
		expect(status, stderr).toBe(0);
		expect(stdout).not.toBe('');
		expect(stderr.match(/^fanwise: passed over: .*2999-01-0[12].*$/gm)?.length, stderr).toBeGreaterThan(1);
	}
});

test('a damaged newest day is a day all the same: nothing is told past it', () => {
	const { home, stray } = withStrays();
	stray('2999-01-03_cart.day.jsonl', '00000000 {"seq":1,"type":"day.opened"}\n');
	expect(run(['now'], { home })).toMatchObject({ status: 1, stdout: '' });
});

/** A disk that can only be read, where this user may mount one. */
function readOnly(): string | null {
	const place = join(folder(), 'disk');
	mkdirSync(place);
	const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'ro', 'tmpfs', place]).status === 0;
	if (mounted) onTestFinished(() => void spawnSync('umount', ['-l', place]));
	return mounted ? place : null;
}

test('of a disk that can only be read every command says just that', () => {
	const says = /the disk can only be read: choose another folder/;
	expect(saySystemError(Object.assign(new Error('EROFS'), { code: 'EROFS' }))).toMatch(says);
	const place = readOnly();
	if (!place) return;
	expect(() => makeFolders(join(place, 'a', 'b'))).toThrow(/EROFS/);
	const home = join(place, 'home');
	for (const [words, input] of [
		[['spray', example, '--plain'], '\n'],
		[['settings', 'plain', 'true'], ''],
		[['example', join(place, 'cart.yaml')], ''],
	] as const) {
		const { status, stderr } = run([...words], { home, input });
		expect(stderr, words[0]).toMatch(/^[^\n]*the disk can only be read: choose another folder[^\n]*\n$/);
		expect(status).toBe(2);
	}
});

test.runIf(process.platform === 'linux')('output that the disk does not take is said, with status 2', () => {
	const full = openSync('/dev/full', 'w');
	onTestFinished(() => closeSync(full));
	for (const words of [
		['--help'],
		['check', example],
		['demo'],
		['work', 'cup', '--cup', 'din4', '--seconds', '20'],
	]) {
		const { status, stderr } = spawnSync(process.execPath, [program, ...words], {
			stdio: ['ignore', full, 'pipe'],
			encoding: 'utf8',
			env: { ...process.env, FANWISE_HOME: folder() },
		});
		expect(stderr, words[0]).toBe('fanwise: its output was not written (ENOSPC): write it somewhere else\n');
		expect(status).toBe(2);
	}
});
