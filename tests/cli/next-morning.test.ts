import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { encodeLine } from '../../src/day/file/line.ts';
import type { DayRecord } from '../../src/day/records.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { folder, run } from './run.ts';
import { playedLines, start, traySheet } from './three-days.ts';

const linesOf = (stdout: string) =>
	stdout
		.split('\n')
		.filter(Boolean)
		.map(line => JSON.parse(line) as Line);

const home = folder();
const rehearse = (sheet: string, input: readonly string[], ...more: string[]) => {
	const begins = more.includes('--start') ? [] : ['--start', start];
	const done = run(['rehearse', sheet, '--json', ...begins, ...more], {
		home,
		input: input.map(line => `${line}\n`).join(''),
	});
	return { ...done, answers: linesOf(done.stdout) };
};

const sheet = traySheet();
let days: string[][] = [];
const day = (number: number): string[] => days[number - 1] ?? [];

beforeAll(async () => {
	days = (await playedLines(sheet)).days;
});

/** The day as a shop would have sprayed it, in a data folder of its own: only its clock is told otherwise. */
function asSprayed(path: string): { home: string; folder: string } {
	const home = folder();
	const into = join(home, 'days');
	mkdirSync(into);
	const records: DayRecord[] = loadDay(path).map(record =>
		record.type === 'day.opened' ? { ...record, clock: 'real' } : record,
	);
	writeFileSync(join(into, '2025-03-04_serving-tray.day.jsonl'), Buffer.concat(records.map(encodeLine)));
	return { home, folder: into };
}

const openedOf = (path: string) => {
	const [opened] = loadDay(path);
	if (opened?.type !== 'day.opened') throw new Error(`${path} opens no day`);
	return opened;
};

test('without --day the job goes on morning by morning, to the last coat, and writes nothing', () => {
	const { status, answers } = rehearse(sheet, [
		...day(1),
		'morning',
		...day(2),
		'morning',
		...day(3),
		'morning',
	]);
	expect(status).toBe(0);
	expect(readdirSync(home)).toEqual([]);
	const mornings = answers.filter((_, index) => index > 0 && answers[index - 1]?.ask === 'closed');
	expect(mornings.map(({ at }) => at).slice(0, 2)).toEqual([
		'2025-03-05T08:00:00.000Z',
		'2025-03-06T08:00:00.000Z',
	]);
	expect(mornings[0]).toMatchObject({ accepted: true, say: 'Tray: sand with 600 grit, 2 faces.' });
	expect(mornings[0]?.events[0]).toBe('day.opened');
	expect(mornings.map(({ faces }) => faces.map(({ coats }) => coats))).toEqual([
		[1, 1],
		[2, 2],
		[3, 3],
	]);
	expect(mornings[2]).toMatchObject({
		accepted: false,
		ask: 'closed',
		corners: {},
		reason: { code: 'nothing-left', text: 'Nothing is left to do on this job.' },
	});
});

test('the closed day offers NEXT MORNING in a corner, and that key begins it as the line does', () => {
	const { answers } = rehearse(sheet, [...day(1), 'bottom-right']);
	expect(answers.at(-2)).toMatchObject({
		ask: 'closed',
		corners: { bottomRight: { code: 'next-morning', text: 'NEXT MORNING' } },
	});
	expect(answers.at(-1)).toMatchObject({
		at: '2025-03-05T08:00:00.000Z',
		accepted: true,
		state: 'prep.sand',
	});
});

test('told in lines of text the closed day says how it goes on, and how it is left', () => {
	const path = join(folder(), 'tray.day.jsonl');
	rehearse(sheet, day(1), '--day', path);
	const plain = (input: string) => run(['rehearse', sheet, '--plain', '--day', path], { input });
	const left = plain('quit\n');
	expect([left.status, left.stdout]).toEqual([0, expect.stringMatching(/: NEXT MORNING\nquit: leave\n$/)]);
	expect(plain('next morning\n').stdout).toContain('Tray: sand with 600 grit, 2 faces.');
	expect(loadDay(path.replace('tray.day', 'tray-2.day')).at(-1)).toMatchObject({ kind: 'hangup' });
});

test('an open day has no morning: it says so, and nothing has changed', () => {
	const [first, ...rest] = day(1);
	const { answers } = rehearse(sheet, [first ?? '', 'morning', 'morning now', ...rest]);
	const [, before, refused, longer] = answers;
	expect(refused).toMatchObject({
		accepted: false,
		events: [],
		reason: { code: 'day-open', text: 'The day is open: close it first.' },
	});
	expect(longer).toMatchObject({ accepted: false, reason: { code: 'unknown-line' } });
	expect({ ...refused, accepted: true, reason: null, events: null }).toEqual({
		...before,
		reason: null,
		events: null,
	});
	expect(answers.at(-1)?.ask).toBe('closed');
});

test('each day lies in a file of its own beside the one before, marked as rehearsed, and the checker finds nothing in them', () => {
	const at = folder();
	const path = join(at, 'tray.day.jsonl');
	rehearse(sheet, [...day(1), 'morning', ...day(2), 'morning', ...day(3)], '--day', path);
	const names = ['tray-2.day.jsonl', 'tray-3.day.jsonl', 'tray.day.jsonl'];
	expect(readdirSync(at).sort()).toEqual(names);
	const files = ['tray.day.jsonl', 'tray-2.day.jsonl', 'tray-3.day.jsonl'].map(name => join(at, name));
	const bytes = files.map(file => readFileSync(file));
	for (const [index, one] of bytes.entries()) expect(checkDayFile(one, bytes.slice(0, index))).toEqual([]);
	const [first, second, third] = files.map(openedOf);
	expect([first, second, third].map(one => one?.clock)).toEqual(['moved', 'moved', 'moved']);
	expect(first).not.toHaveProperty('after');
	expect(second?.after).toEqual([expect.objectContaining({ day: second?.of })]);
	expect(third?.of).toBe(second?.of);
	expect(third?.after?.[0]?.day).not.toBe(second?.of);
	expect(third?.before.letters).toBe(2);
});

test('killed in the second day it is carried on there, by the name of the first, and a third start goes on with the third', () => {
	const at = folder();
	const path = join(at, 'tray.day.jsonl');
	rehearse(sheet, day(1), '--day', path);
	const closed = rehearse(sheet, ['morning', ...day(2).slice(0, 12), 'kill'], '--day', path).answers;
	expect(closed[0]).toMatchObject({ ask: 'closed' });
	expect(closed[1]).toMatchObject({ at: '2025-03-05T08:00:00.000Z', accepted: true });
	expect(closed.at(-1)).toMatchObject({ ask: 'hold', accepted: true });
	const again = rehearse(sheet, ['screen'], '--day', path).answers;
	expect(again[0]).toMatchObject({ ask: 'hold' });
	expect(again[0]?.at).toContain('2025-03-05T08:');
	expect(loadDay(path).filter(({ type }) => type === 'day.closed')).toHaveLength(1);
	const files = [path, join(at, 'tray-2.day.jsonl')].map(file => readFileSync(file));
	expect(files.flatMap((bytes, index) => checkDayFile(bytes, files.slice(0, index)))).toEqual([]);
});

test('a second day named for itself goes on with the third, not with a second of its own', () => {
	const at = folder();
	rehearse(sheet, [...day(1), 'morning', ...day(2)], '--day', join(at, 'tray.day.jsonl'));
	rehearse(sheet, ['morning'], '--day', join(at, 'tray-2.day.jsonl'));
	expect(readdirSync(at).sort()).toEqual(['tray-2.day.jsonl', 'tray-3.day.jsonl', 'tray.day.jsonl']);
});

test('the second day begins as spray would begin it after the same first one', () => {
	const at = folder();
	const path = join(at, 'tray.day.jsonl');
	const { answers } = rehearse(sheet, [...day(1), 'morning'], '--day', path);
	const shop = asSprayed(path);
	const { stdout, stderr } = run(['spray', sheet, '--plain'], { home: shop.folder.replace(/days$/, '') });
	expect(stderr).toBe('');
	const name =
		readdirSync(shop.folder).find(one => one.endsWith('.day.jsonl') && !one.startsWith('2025-')) ?? '';
	const sprayed = openedOf(join(shop.folder, name));
	const rehearsed = openedOf(join(at, 'tray-2.day.jsonl'));
	expect(rehearsed.before.faces['tray/front']?.coats).toHaveLength(1);
	for (const key of ['job', 'sheet', 'lists', 'cans', 'before', 'v'] as const)
		expect(rehearsed[key]).toEqual(sprayed[key]);
	expect(rehearsed.after?.map(({ upto }) => upto)).toEqual(sprayed.after?.map(({ upto }) => upto));
	expect(stdout).toContain(answers.at(-1)?.say);
});

const slower = (hours: number) => (text: string) =>
	text
		.replaceAll('- wait: 16 h', `- wait: ${hours} h`)
		.replaceAll('wait: 2 h to 16 h', `wait: 2 h to ${hours} h`)
		.replaceAll('from 16 h', `from ${hours} h`)
		.replace('sand after: 16 h', `sand after: ${hours} h`);

test.each<[string, (text: string) => string, string]>([
	['opens after the morning: with the window', slower(30), '2025-03-05T14:'],
	[
		'opens in the evening: the shop is open, where the sheet gives it no hours',
		text => slower(38)(text).replace(', day: 9 h', ''),
		'2025-03-05T22:',
	],
	[
		'opens in the evening: the morning after, where the shop is shut by then',
		slower(38),
		'2025-03-06T08:00:00.000Z',
	],
])('a next day that %s', async (_, change, begins) => {
	const other = traySheet(change);
	const { mornings } = await playedLines(other);
	expect(mornings[0]?.at.slice(0, begins.length)).toBe(begins);
	expect(mornings[0]?.accepted).toBe(true);
});

test('a sheet changed meanwhile: a day left open goes on with the old one and says so, the next has the new one', () => {
	const at = folder();
	const path = join(at, 'tray.day.jsonl');
	const changed = traySheet(text => text.replace('flow: 200 ml/min', 'flow: 220 ml/min'));
	const said = 'Job sheet changed: today goes on with the old one.';
	rehearse(sheet, day(1).slice(0, 5), '--day', path);
	expect(rehearse(changed, [], '--day', path).answers[0]?.lines).toContain(said);
	expect(rehearse(sheet, [], '--day', path).answers[0]?.lines).not.toContain(said);
	const next = join(folder(), 'tray.day.jsonl');
	rehearse(sheet, day(1), '--day', next);
	const { answers } = rehearse(changed, ['morning'], '--day', next);
	expect(answers[1]?.lines).not.toContain(said);
	const flow = openedOf(next.replace('tray.day', 'tray-2.day')).sheet.gun.flow_mL_per_min;
	expect(flow).toBe(220);
});

const refusals: [string, RegExp, 1 | 2, (path: string, next: string) => void][] = [
	[
		'a day that was sprayed',
		/^fanwise rehearse: .*tray\.day\.jsonl: this day was sprayed, not rehearsed/,
		2,
		(path, _next) => {
			const shop = asSprayed(path);
			const [name = ''] = readdirSync(shop.folder);
			writeFileSync(path, readFileSync(join(shop.folder, name)));
		},
	],
	[
		'a damaged first day',
		/tray\.day\.jsonl:3: the day file is damaged/,
		1,
		path => writeFileSync(path, readFileSync(path, 'utf8').replace(/^(.*\n.*\n)./, '$1#')),
	],
	[
		'a damaged second day',
		/tray-2\.day\.jsonl:2: the day file is damaged/,
		1,
		(_path, next) => writeFileSync(next, readFileSync(next, 'utf8').replace(/\n./, '\n#')),
	],
	[
		'a second day that rests on another first one',
		/^fanwise rehearse: .*tray-2\.day\.jsonl: this day does not follow .*tray\.day\.jsonl: move it/,
		2,
		(_path, next) => {
			const elsewhere = join(folder(), 'other.jsonl');
			rehearse(sheet, [...day(1), 'morning'], '--day', elsewhere, '--start', '2025-03-03T08:00:00Z');
			writeFileSync(next, readFileSync(elsewhere.replace('other', 'other-2')));
		},
	],
	[
		'something else in its place',
		/tray-2\.day\.jsonl:1: this is no day file/,
		2,
		(_path, next) => writeFileSync(next, 'shopping list\n'),
	],
];

test.each(refusals)('%s: one clear line, and nothing is written', (_, says, status, spoil) => {
	const at = folder();
	const path = join(at, 'tray.day.jsonl');
	rehearse(sheet, [...day(1), 'morning'], '--day', path);
	spoil(path, join(at, 'tray-2.day.jsonl'));
	const before = readdirSync(at).map(name => [name, readFileSync(join(at, name), 'utf8')]);
	const done = rehearse(sheet, ['morning'], '--day', path);
	expect(done.stderr.trim().split('\n')).toHaveLength(1);
	expect(done.stderr).toMatch(says);
	expect([done.status, done.stdout]).toEqual([status, '']);
	expect(readdirSync(at).map(name => [name, readFileSync(join(at, name), 'utf8')])).toEqual(before);
});

test('where something has come to lie in the next day’s place, the morning is refused and the day stays closed', () => {
	const at = folder();
	const path = join(at, 'tray.day.jsonl');
	writeFileSync(join(at, 'tray-2.day.jsonl'), 'shopping list\n');
	const { status, answers, stderr } = rehearse(sheet, [...day(1), 'morning', 'screen'], '--day', path);
	expect([status, stderr]).toEqual([0, '']);
	const [closed, refused, after] = answers.slice(-3);
	expect(refused).toMatchObject({ accepted: false, ask: 'closed', events: [] });
	expect(refused?.reason?.text).toBe('Next day: a file of its name is there already.');
	expect([refused?.at, after?.at]).toEqual([closed?.at, closed?.at]);
	expect(readFileSync(join(at, 'tray-2.day.jsonl'), 'utf8')).toBe('shopping list\n');
});
