import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import type { Job } from '../../src/job/job.ts';
import { loadJob } from '../../src/job/load.ts';
import { built } from '../built.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { eyePainter } from './by-eye.ts';
import { type Happening, isAcknowledged, type PlayedDay, playAtTerminal } from './day-at-terminal.ts';
import { betrayed, isReading, readingsOf } from './hidden.ts';
import { keeper } from './kept-screens.ts';
import { inTerminal, type Pty } from './pty.ts';

const program = built();
const sheet = 'checklists/example/coffee-cart.yaml';

const strikes = (...words: string[]) => words.map(word => ({ strike: word }));

/** The wrong can once, a run and its part set aside, a visitor in the flash wait who turns the cap. */
const happenings: Happening[] = [
	{ when: asked => asked === 'can', tell: 'the wrong can', deeds: strikes('BARS') },
	{
		when: (asked, { status }) => asked === 'spraying' && status.includes('left door/outside'),
		tell: 'a run on the left door',
		deeds: strikes(
			'TROUBLE',
			'RUN, DIRT, TOUCHED',
			'ALL',
			'RUN',
			'LEFT DOOR OUTSIDE',
			'SET PART ASIDE',
			'GO ON',
		),
	},
	{
		when: (asked, { status }) => asked === 'wait' && status.includes('coat 2'),
		tell: 'a visitor, who turns the cap',
		change: ({ world }) => {
			world.horns = world.horns === 'level' ? 'upright' : 'level';
		},
		deeds: [{ hold: true }, { clock_min: 12 }, { strike: 'GO ON' }],
	},
];

/** The size of an ordinary terminal. */
const sizes = [{ columns: 80, rows: 24 }];
type Run = {
	path: string;
	terminal: Pty;
	day: PlayedDay;
	status: number;
	sheets: string[];
	left: ReadonlySet<string>;
};
let runs: Run[];

async function playedAt(size: { columns: number; rows: number }, job: Job): Promise<Run> {
	const path = join(mkdtempSync(join(tmpdir(), 'fanwise-real-')), 'day.jsonl');
	const rehearse = ['rehearse', sheet, '--day', path, '--start', '2027-03-02T08:00:00Z'];
	const env = { FANWISE_HOME: mkdtempSync(join(tmpdir(), 'fanwise-home-')) };
	execFileSync(process.execPath, [program, 'settings', 'by', 'face'], { env: { ...process.env, ...env } });
	const terminal = inTerminal([process.execPath, program, ...rehearse], { ...size, env });
	const painter = eyePainter(job, wanted => Math.min(wanted, 0.3));
	const { sheets, keep, left } = keeper(terminal.screen);
	const records = () => (existsSync(path) ? readFileSync(path, 'utf8').split('\n').length - 1 : 0);
	const day = await playAtTerminal({ terminal, painter, happenings, before: keep, records });
	return { path, terminal, day, status: await terminal.ended, sheets, left };
}

beforeAll(async () => {
	const loaded = await loadJob(sheet);
	if (!loaded.ok) throw new Error('the example sheet does not load');
	runs = await Promise.all(sizes.map(size => playedAt(size, loaded.job)));
}, 600_000);

describe.each(sizes.map((size, index) => ({ ...size, index })))(
	'at $columns by $rows',
	({ columns, rows, index }) => {
		const run = (): Run => runs[index] as Run;

		test('the example day goes by in a real terminal, by what stands on its screen and by keys alone', () => {
			const { path, day, status } = run();
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
			const { path, terminal, day } = run();
			const { askings } = day;
			const asked = [...askings.entries()].flatMap(([at, one]) =>
				isReading(one) && isAcknowledged(askings, at) ? [at] : [],
			);
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

		test('a dozen questions of the day had the screens that are kept here', async () => {
			const { day, sheets, left } = run();
			expect(new Set(day.askings.map(({ asked }) => asked)).size).toBeGreaterThan(50);
			expect([...left]).toEqual([]);
			await expect(sheets.join('\n')).toMatchFileSnapshot(`kept/${columns}x${rows}.txt`);
		});
	},
);
