import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Line } from '../../src/day/rehearsal.ts';
import { expectSoundDay } from '../model/checker/check.ts';
import { example, folder, run } from './run.ts';

const start = ['--json', '--start', '2027-03-02T08:00:00Z'];
const rehearse = (input: string, ...more: string[]) =>
	run(['rehearse', example, ...start, ...more], { input });
const linesOf = (stdout: string) =>
	stdout
		.split('\n')
		.filter(Boolean)
		.map(line => JSON.parse(line) as Line);

test('each line of input is answered with one line, after one for the first screen', () => {
	const { status, stdout } = rehearse('top-left\nscreen\nbogus\nnumber twelve\nhold\n');
	const lines = linesOf(stdout);
	expect(status).toBe(0);
	expect(lines.map(({ accepted }) => accepted)).toEqual([true, true, true, false, false, true]);
	expect(lines[0]).toMatchObject({ at: '2027-03-02T08:00:00.000Z', ask: 'item' });
	expect(lines[3]?.reason?.code).toBe('unknown-line');
	expect(lines[5]).toMatchObject({ state: 'hold', ask: 'hold', events: ['break.began'] });
});

test('nothing is written without --day; with it the file is the owner’s alone and passes the checker', () => {
	const path = join(folder(), 'cart.day.jsonl');
	rehearse('top-left\ntop-left\n', '--day', path);
	expect(statSync(path).mode & 0o777).toBe(0o600);
	expectSoundDay(readFileSync(path));
	expect(existsSync(`${path}.lock`)).toBe(false);
});

test('the end of the input is a hangup; the day is carried on in hold, its clock not before its last record', () => {
	const path = join(folder(), 'cart.day.jsonl');
	rehearse('top-left\nwait 2 h\n', '--day', path);
	expect(readFileSync(path, 'utf8')).toContain('"kind":"hangup"');
	const again = linesOf(rehearse('screen\n', '--day', path).stdout);
	expect(again[0]).toMatchObject({ at: '2027-03-02T10:00:00.000Z', ask: 'hold' });
	expectSoundDay(readFileSync(path));
});

test('killed, the process dies without warning and the next line finds it started again', () => {
	const path = join(folder(), 'cart.day.jsonl');
	const lines = linesOf(rehearse('top-left\nkill\ntop-left\n', '--day', path).stdout);
	expect(lines[2]).toMatchObject({ ask: 'hold' });
	expect(lines[2]?.events[0]).toBe('break.began');
	expectSoundDay(readFileSync(path));
});

test('the same lines give the same day, byte for byte, whatever the time zone', () => {
	const [one, other] = ['Pacific/Auckland', 'America/St_Johns'].map(TZ => {
		const before = process.env.TZ;
		process.env.TZ = TZ;
		const { stdout } = rehearse('top-left\ntop-left\nwait 3 min\nhold\ntop-left\n');
		if (before === undefined) delete process.env.TZ;
		else process.env.TZ = before;
		return stdout;
	});
	expect(one).toBe(other);
});

const bomb = `a: &a [x,x,x,x,x,x,x,x,x]\n${'bcdefghi'
	.split('')
	.map((key, at) => `${key}: &${key} [${Array(9).fill(`*${'abcdefgh'[at]}`).join(',')}]`)
	.join('\n')}\n`;
const sheetWith = (change: (text: string) => string) => change(readFileSync(example, 'utf8'));

test.each<[string, string | Buffer | null, RegExp]>([
	['no file', null, /no such file|not there|cannot be found|does not exist|no file/i],
	['binary', Buffer.from([0, 1, 2, 255, 254, 0]), /binary|text/i],
	['empty', '', /empty/i],
	['a megabyte of brackets', '['.repeat(1_000_000), /:\d+:\d+: /],
	['an alias bomb', bomb, /:\d+:\d+: /],
	[
		'a key given twice',
		sheetWith(text => `${text}\nname: Another\n`),
		/:\d+:\d+: .*(twice|unique|duplicate)/i,
	],
	['a negative area', sheetWith(text => text.replace('size: 60 in x 5 in', 'area: -2 ft2')), /:\d+:\d+: /],
	['a unit missing', sheetWith(text => text.replace('distance: 6 in', 'distance: 6')), /:\d+:\d+: .*unit/i],
	[
		'an unknown face in after',
		sheetWith(text => text.replace('after: [lip]', 'after: [lap]')),
		/:\d+:\d+: .*lip/,
	],
])('%s: one clear line, exit 2, nothing written', (_, content, says) => {
	const at = folder();
	const path = join(at, 'job.yaml');
	if (content !== null) writeFileSync(path, content);
	const day = join(at, 'x.day.jsonl');
	const { status, stdout, stderr } = run(['rehearse', path, ...start, '--day', day], { input: 'top-left\n' });
	expect(status).toBe(2);
	expect(stdout).toBe('');
	expect(stderr.trim().split('\n')[0]).toMatch(says);
	expect(stderr.trim().split('\n').length).toBe(1);
	expect(readdirSync(at)).toEqual(content === null ? [] : ['job.yaml']);
});

test('a folder, a bad instant, a bad seed, no sheet: one line each, exit 2', () => {
	const at = folder();
	mkdirSync(join(at, 'job.yaml'));
	for (const args of [
		['rehearse', join(at, 'job.yaml'), ...start],
		['rehearse', example, '--json', '--start', 'tomorrow'],
		['rehearse', example, ...start, '--seed', '-1'],
		['rehearse', '--json'],
		['rehearse', example, '--jsn'],
		['rehearse', example, '--json', '--plain'],
	]) {
		const { status, stderr } = run(args);
		expect(status).toBe(2);
		expect(stderr.trim().split('\n').length).toBe(1);
	}
});

test('a day of another job is not carried on', () => {
	const path = join(folder(), 'cart.day.jsonl');
	rehearse('top-left\n', '--day', path);
	const other = join(folder(), 'other.yaml');
	writeFileSync(
		other,
		sheetWith(text => text.replace('name: Market coffee cart', 'name: Ice cart')),
	);
	const { status, stderr } = run(['rehearse', other, ...start, '--day', path]);
	expect(status).toBe(2);
	expect(stderr).toMatch(/another job/);
});

test('a day on the real clock takes no rehearsed records', () => {
	const home = folder();
	run(['spray', example, '--plain'], { input: 'hold\n', home });
	const days = join(home, 'days');
	const path = join(days, readdirSync(days).find(name => name.endsWith('.jsonl')) ?? '');
	const before = readFileSync(path);
	const { status, stdout, stderr } = rehearse('wait 3 h\n', '--day', path);
	expect(status).toBe(2);
	expect(stdout).toBe('');
	expect(stderr).toMatch(/^fanwise rehearse: .*this day was sprayed, not rehearsed/);
	expect(readFileSync(path)).toEqual(before);
});
