import { appendFileSync, copyFileSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { type Command, runCommand } from '../../src/cli/command.ts';
import { inspectCommand, walk } from '../../src/cli/inspect.ts';
import { logCommand } from '../../src/cli/log.ts';
import { summaryCommand } from '../../src/cli/summary.ts';
import { traceCommand } from '../../src/cli/trace.ts';
import { loadDay } from '../../src/day/file/days.ts';
import { openDay } from '../../src/day/file/store.ts';
import { beginInspection } from '../../src/trace/inspect.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { writeDays } from '../trace/files.ts';
import { type Case, makeCase } from '../trace/generator/case.ts';

const home = mkdtempSync(join(tmpdir(), 'fanwise-look-'));
const folder = join(home, 'days');
let made: Case;
let path: string;

async function run(command: Command, ...argv: string[]) {
	let stdout = '';
	let stderr = '';
	const io = {
		stdout: {
			write: (text: string) => {
				stdout += text;
			},
		},
		stderr: {
			write: (text: string) => {
				stderr += text;
			},
		},
		env: { FANWISE_HOME: home },
	};
	const status = await runCommand(command, argv, io);
	return { status, stdout, stderr };
}

beforeAll(() => {
	const seeds = Array.from({ length: 60 }, (_, nth) => makeCase(nth + 1));
	const found = seeds.find(one => one.days.length === 2 && one.cause === 'no-hardener');
	if (!found) throw new Error('no such case among the first 60');
	made = found;
	path = writeDays(folder, 'market-coffee-cart', made.days).at(-1) ?? '';
});

const question = () => ['--fault', made.fault, '--face', made.face, '--coat', String(made.coat)];

test('trace --all of a folder that is not there is refused', async () => {
	const { status, stdout, stderr } = await run(traceCommand, '--all', join(home, 'nowhere'));
	expect(status).toBe(2);
	expect(stdout).toBe('');
	expect(stderr).toBe(
		`fanwise trace: ${join(home, 'nowhere')}: there is no such folder: name the one that the days lie in\n`,
	);
	expect((await run(traceCommand, '--all', path)).status).toBe(2);
});

test('trace --all counts no rehearsed day, and says how many it passed over', async () => {
	const mixed = mkdtempSync(join(home, 'mixed-'));
	writeDays(mixed, 'market-coffee-cart', made.days);
	const [opened, ...rest] = made.days[0] ?? [];
	if (opened?.type !== 'day.opened') throw new Error('the day was not opened');
	const [named = ''] = writeDays(mixed, 'rehearsed', [[{ ...opened, clock: 'moved' as const }, ...rest]]);
	copyFileSync(named, join(mixed, 'tuesday.day.jsonl'));
	const { stdout, stderr } = await run(traceCommand, '--all', mixed);
	expect(stdout).toContain(`${made.days.length} days, 1 job.`);
	expect(stderr).toBe('fanwise trace: 2 rehearsed days not counted\n');
	expect((await run(traceCommand, '--all')).stderr).toBe('');
});

test('trace says the likeliest cause, who else, and where to look', async () => {
	const { status, stdout } = await run(traceCommand, ...question());
	expect(status).toBe(0);
	expect(stdout).toMatch(/^(Told|Likely|Perhaps): no hardener in the batch/m);
	expect(stdout).toMatch(/^ +for: /m);
	expect(stdout).toContain('Exposed, in the order sprayed');
	expect(stdout).toMatch(/^(Look at, in this order|Then every other exposed face)/m);
});

test('trace --json gives the keys relied on', async () => {
	const { stdout } = await run(traceCommand, ...question(), '--json');
	const found = JSON.parse(stdout);
	expect(found.candidates[0]).toMatchObject({
		code: 'no-hardener',
		form: null,
		weight: expect.any(Number),
		at: expect.any(String),
		for: expect.any(Array),
		against: expect.any(Array),
		reasons: expect.any(Array),
	});
	expect(found).toMatchObject({
		bracket: { from: expect.any(String), to: expect.any(String) },
		exposed: expect.any(Array),
		inspect: expect.any(Array),
		walk: expect.any(Array),
		faces: expect.any(Array),
		word: expect.any(String),
		isIsNot: expect.any(String),
		missing: expect.any(Array),
	});
});

test('an unknown fault, face or coat is one line and status 2', async () => {
	for (const [argv, says] of [
		[['--fault', 'rain', '--face', made.face, '--coat', '1'], 'fault "rain" is not known'],
		[['--fault', 'run', '--face', 'left dor/edges', '--coat', '1'], 'the nearest is'],
		[['--fault', 'run', '--face', made.face, '--coat', '90'], 'was laid on none of these days'],
		[['--fault', 'run', '--face', made.face, '--coat', 'two'], 'say which coat'],
		[['--fault', 'insect', '--face', made.face, '--coat', '1'], 'nothing to do with the spraying'],
	] as const) {
		const { status, stderr } = await run(traceCommand, ...argv);
		expect(status).toBe(2);
		expect(stderr.trim().split('\n')).toHaveLength(1);
		expect(stderr).toContain(says);
	}
});

test('trace --all counts faults, first readings and breaks over every day', async () => {
	const { stdout } = await run(traceCommand, '--all', '--json');
	const found = JSON.parse(stdout);
	expect(found).toMatchObject({ days: 2, jobs: 1 });
	expect(found.faults.some((one: { fault: string }) => one.fault === made.fault)).toBe(true);
	expect(found.readings.find((one: { feature: string }) => one.feature === 'pattern').first).toBeGreaterThan(
		2,
	);
	expect((await run(traceCommand, '--all')).stdout).toContain('First readings');
});

test('summary speaks in the units of the day, unless others are asked for', async () => {
	const [opened, ...rest] = made.days.at(-1) ?? [];
	if (opened?.type !== 'day.opened') throw new Error('the day was not opened');
	const us = { ...opened, sheet: { ...opened.sheet, units: 'us' as const } };
	const [day = ''] = writeDays(mkdtempSync(join(home, 'us-')), 'us', [[us, ...rest]]);
	expect((await run(summaryCommand, day)).stdout).toMatch(/^Air: \d+ °F/m);
	expect((await run(summaryCommand, day, '--units', 'metric')).stdout).toMatch(/^Air: [\d.]+ °C/m);
});

test('summary of one coat wants its face and its number: one without the other is refused', async () => {
	for (const half of [
		['--face', made.face],
		['--coat', String(made.coat)],
	]) {
		const { status, stdout, stderr } = await run(summaryCommand, ...half);
		expect(status).toBe(2);
		expect(stdout).toBe('');
		expect(stderr).toContain(half[0] === '--face' ? '--coat' : '--face');
	}
});

test('summary speaks of the newest day and of one coat', async () => {
	expect((await run(summaryCommand)).stdout).toMatch(/^Day: market coffee cart, /);
	const { stdout } = await run(summaryCommand, '--face', made.face, '--coat', String(made.coat), '--json');
	expect(JSON.parse(stdout).sentences.length).toBeGreaterThan(2);
});

test('log prints one line a record, and the records themselves as JSON', async () => {
	const lines = (await run(logCommand)).stdout.trimEnd().split('\n');
	const records = (await run(logCommand, path, '--json')).stdout.trimEnd().split('\n');
	expect(lines).toHaveLength(loadDay(path).length);
	expect(records.map(line => JSON.parse(line))).toEqual(loadDay(path));
	expect(lines[0]).toMatch(/^\d\d:\d\d:\d\d {6}1 {2}day\.opened/);
});

test('a day changed in any byte of its first line is damaged, status 1; another file is unusable, status 2', async () => {
	const damaged = join(home, 'first-line.day.jsonl');
	const whole = readFileSync(path);
	for (const at of [0, 7, 8, 9, 10, 40, 90, whole.indexOf('"day.opened"') + 3, whole.indexOf(10) - 1]) {
		const bytes = Buffer.from(whole);
		bytes[at] = (bytes[at] ?? 0) ^ 8;
		writeFileSync(damaged, bytes);
		const { status, stderr } = await run(logCommand, damaged);
		expect(status, `byte ${at}`).toBe(1);
		expect(stderr).toMatch(/first-line\.day\.jsonl:1: the day file is damaged/);
	}
	writeFileSync(damaged, 'job: A cart\n');
	expect((await run(logCommand, damaged)).status).toBe(2);
});

test('log --salvage saves what is whole of a damaged day', async () => {
	const damaged = join(home, 'damaged.day.jsonl');
	writeFileSync(damaged, readFileSync(path));
	appendFileSync(damaged, '00000000 {"broken":true}\n');
	expect((await run(logCommand, damaged)).status).toBe(1);
	const saved = join(home, 'saved.day.jsonl');
	const { status, stdout } = await run(logCommand, damaged, '--salvage', saved);
	expect(status).toBe(1);
	expect(stdout).toContain('1 lines lost');
	expect(loadDay(saved)).toEqual(loadDay(path));
});

test('control signs in a name are shown and not obeyed', async () => {
	const { stderr } = await run(traceCommand, '--fault', 'run', '--face', 'lid\u001b[2J', '--coat', '1');
	expect(stderr).not.toContain('\u001b');
});

test('inspect adds faults, film readings, photos and verdicts to a closed day, and a bad line adds nothing', async () => {
	const copy = join(home, 'copy.day.jsonl');
	writeFileSync(copy, readFileSync(path));
	const before = loadDay(copy).length;
	const file = openDay(copy);
	let said = '';
	const io = {
		stdout: {
			write: (text: string) => {
				said += text;
			},
		},
		stderr: { write: () => {} },
		env: {},
	};
	const lines = [
		'fault rain',
		'fault insect',
		'film dry 2 mil',
		'photo cart/1.jpg',
		'rework',
		'rework soft all over',
		'cleared',
		'done',
	];
	await walk({ positionals: [], options: {} }, io, file, beginInspection(file.records), lines, () =>
		Date.UTC(2029, 0, 1),
	);
	file.close();
	const added = loadDay(copy).slice(before);
	expect(added.map(({ type }) => type)).toEqual([
		'fault.seen',
		'film.read',
		'photo.kept',
		'face.judged',
		'part.setAside',
		'face.judged',
	]);
	expect(said.match(/Not taken/g)).toHaveLength(2);
	expect(said).toMatch(/Not judged yet: \d+ of \d+\./);
});

test('inspect refuses a day that is not closed', async () => {
	const open = join(home, 'open.day.jsonl');
	const day = loadDay(path);
	const closed = day.findIndex(({ type }) => type === 'day.closed');
	const bytes = readFileSync(path, 'utf8').split('\n').slice(0, closed).join('\n');
	writeFileSync(open, `${bytes}\n`);
	const { status, stderr } = await run(inspectCommand, open);
	expect(status).toBe(1);
	expect(stderr).toBe('fanwise inspect: the day is not closed: finish it with fanwise spray\n');
});

test('inspect of a rehearsed day that is not closed says what carries it on', async () => {
	const day = rehearsed();
	day.toState('spraying');
	const open = join(home, 'rehearsed.day.jsonl');
	writeFileSync(open, day.bytes());
	const { stderr } = await run(inspectCommand, open);
	const how = `fanwise rehearse JOB.yaml --day ${open}`;
	expect(stderr).toBe(`fanwise inspect: the day is not closed: finish it with ${how}\n`);
});
