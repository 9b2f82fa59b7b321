import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { loadJob } from '../../src/job/load.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { eyePainter } from './by-eye.ts';
import { type Happening, type PlayedDay, playAtTerminal } from './day-at-terminal.ts';
import { betrayed, isReading, readingsOf } from './hidden.ts';
import { type Kept, keeper } from './kept-screens.ts';
import { inTerminal, type Pty } from './pty.ts';

const program = 'dist/fanwise.js';
const sheet = 'checklists/example/coffee-cart.yaml';

const strikes = (...words: string[]) => words.map(word => ({ strike: word }));

/** The wrong can once, a run and its part set aside, a visitor in the flash wait who turns the cap. */
const happenings: Happening[] = [
	{ when: asked => asked === 'can', tell: 'the wrong can', deeds: strikes('BARS') },
	{
		when: (asked, { status }) => asked === 'spraying' && status.includes('left door/outside'),
		tell: 'a run on the left door',
		deeds: strikes('TROUBLE', 'WET FAULT', 'ALL', 'RUN', 'LEFT DOOR OUTSIDE', 'SET PART ASIDE', 'BACK'),
	},
	{
		when: (asked, { status }) => asked === 'wait' && status.includes('coat 2'),
		tell: 'a visitor, who turns the cap',
		change: ({ world }) => {
			world.horns = world.horns === 'level' ? 'upright' : 'level';
		},
		deeds: [{ hold: true }, { clock_min: 12 }, { strike: 'BACK' }],
	},
];

const sizes = [
	{ columns: 80, rows: 24 },
	{ columns: 40, rows: 12 },
	{
		columns: 120,
		rows: 40,
		few: ['breathing', 'air', 'can', 'set', 'pattern', 'ready', 'spraying', 'hold', 'wait', 'trouble'],
	},
];

let path = '';
let terminal: Pty;
let day: PlayedDay;
let status = -1;
let kept: Kept[];

beforeAll(async () => {
	if (!existsSync(program)) throw new Error(`${program} is not built: npm run build`);
	const loaded = await loadJob(sheet);
	if (!loaded.ok) throw new Error('the example sheet does not load');
	path = join(mkdtempSync(join(tmpdir(), 'fanwise-real-')), 'day.jsonl');
	const rehearse = ['rehearse', sheet, '--day', path, '--start', '2027-03-02T08:00:00Z'];
	terminal = inTerminal([process.execPath, program, ...rehearse]);
	const painter = eyePainter(loaded.job, wanted => Math.min(wanted, 0.3));
	const screens = keeper(terminal, sizes);
	kept = screens.kept;
	day = await playAtTerminal({ terminal, painter, happenings, before: screens.keep });
	status = await terminal.ended;
}, 600_000);

test('the example day goes by in a real terminal, by what stands on its screen and by keys alone', () => {
	expect(status).toBe(0);
	expect(day.told).toEqual(happenings.map(({ tell }) => tell));
	const records = loadDay(path);
	expect(records.at(-1)?.type).toBe('day.closed');
	const types = records.map(({ type }) => type);
	expect(types.filter(type => type === 'face.started').length).toBe(18);
	expect(types).toContain('part.setAside');
	expect(records.filter(record => record.type === 'reading.taken' && !record.matched)).toMatchObject([
		{ feature: 'can', value: 'bars', wanted: 'ring' },
		{ feature: 'pattern', coat: 2 },
	]);
	expect(checkDayFile(readFileSync(path))).toEqual([]);
});

test('from the last done until its key no reading could be had from the screen or from the bytes', () => {
	const { askings } = day;
	const asked = [...askings.keys()].filter(at => isReading(askings[at] as PlayedDay['askings'][number]));
	const readings = readingsOf(loadDay(path));
	expect(asked.length).toBe(readings.length);
	const found: string[] = [];
	const lastOf = new Map<string, unknown>();
	for (const [index, reading] of readings.entries()) {
		const last = lastOf.get(reading.feature);
		found.push(
			...betrayed(askings, asked[index] ?? 0, reading, last, { ...terminal, bytes: terminal.bytes() }),
		);
		lastOf.set(reading.feature, reading.value);
	}
	expect(found).toEqual([]);
	expect(readings.length).toBeGreaterThan(30);
});

test.each(sizes.map((size, index) => ({ ...size, index })))(
	'each question of the day had the screen that is kept here, at $columns by $rows',
	async ({ columns, rows, few, index }) => {
		const sheets = kept[index]?.sheets ?? [];
		expect(sheets.length).toBeGreaterThanOrEqual(few?.length ?? 50);
		await expect(sheets.join('\n')).toMatchFileSnapshot(`kept/${columns}x${rows}.txt`);
	},
);
