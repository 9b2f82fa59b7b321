import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { createDay, openDay } from '../../src/day/file/store.ts';
import { openingRecord } from '../../src/day/open.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import { settingsSchema } from '../../src/day/settings.ts';
import type { Checklist } from '../../src/job/checklist.ts';
import type { Job } from '../../src/job/job.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { painterOf } from '../../src/painter/painter.ts';
import { play, type Twist } from '../../src/painter/play.ts';
import { inUnit } from '../../src/trade/quantity.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { byKeys } from './by-keys.ts';

const sheet = 'checklists/example/coffee-cart.yaml';
const start = Date.parse('2027-03-02T08:00:00Z');
let job: Job;
let lists: Checklist[];

beforeAll(async () => {
	const loaded = await loadJob(sheet);
	if (!loaded.ok) throw new Error('the example sheet does not load');
	const listed = await loadLists(loaded.job, sheet);
	if (!listed.ok) throw new Error('the lists do not load');
	job = loaded.job;
	lists = listed.lists;
});

/** The first can that is asked for is the base: any other is the wrong one. */
function wrongCan(): Twist {
	let other = '';
	return {
		when(line) {
			const asked = line.ask === 'can';
			other = Object.values(line.corners).find(({ code }) => cans.get(code) !== 'base')?.code ?? '';
			return asked;
		},
		tell: 'the wrong can',
		get keys() {
			return [other];
		},
	};
}

/** What is in each can, by its mark. */
const cans = new Map<string, string>();

/** A run and its part set aside, a visitor in the flash wait who leaves the fan turned, the wrong can once. */
const twists: Twist[] = [
	wrongCan(),
	{
		when: ({ state, face }) => state === 'spraying' && face === 'left door/outside',
		tell: 'a run on the left door',
		keys: ['wait 15 s', 'trouble', 'wet-fault', 'all', 'run', 'left door/outside', 'set-part-aside', 'back'],
	},
	{
		when: ({ state, coat }) => state === 'wait' && coat === 2,
		tell: 'a visitor',
		change: world => {
			world.horns = 'between';
		},
		keys: ['hold', 'wait 12 min', 'back'],
	},
	{
		when: ({ state, coat }) => state === 'gunCheck.set' && coat === 2,
		tell: 'the cap is not turned',
		keys: ['done'],
	},
];

/** The number that would be right, in the unit on the screen, where a scale is to be read. */
function numberWanted({ ask, unit, face }: Line): number | null {
	const fan = job.faces.find(({ id }) => id === face)?.fanHeight_mm ?? job.gun.fanHeight_mm;
	const scales = {
		gauge: [job.gun.pressure_kPa, 'pressure'],
		'pattern-height': [fan, 'length'],
	} as const;
	if (ask !== 'gauge' && ask !== 'pattern-height') return null;
	const [value, kind] = scales[ask];
	return Number(inUnit(value, kind, unit ?? '').toFixed(1));
}

/** Text as words, wherever its lines were broken and whatever is counted in it. */
const onScreen = (text: string) => text.replace(/\d+/g, '#').split(/\s+/);

test('the example day by keys alone, from opening to close; its file passes the checker', async () => {
	const path = join(mkdtempSync(join(tmpdir(), 'fanwise-day-')), 'day.jsonl');
	const opening = {
		job,
		lists,
		settings: settingsSchema.parse({ by: 'face' }),
		clock: 'moved' as const,
		program: '0.0.0',
		before: { faces: {}, letters: 0 },
		zone: 'UTC',
	};
	createDay(path, openingRecord(opening, { wall: start, mono: 0 })).close();
	const day = byKeys(() => openDay(path), start);
	const painter = painterOf(job, () => day.session().state());
	for (const { mark, component } of day.session().state().book.opened.cans) cans.set(mark, component);
	const said: string[] = [];
	const hidden: number[] = [];
	let last: Line | null = null;
	for (const moment of play(day, painter, twists)) {
		if (typeof moment === 'string') {
			said.push(moment);
			continue;
		}
		last = moment.line;
		const wanted = numberWanted(last);
		if (wanted === null && hidden.length % 5 !== 0) continue;
		const screen = await day.screen();
		const seen = onScreen(screen);
		expect(onScreen(last.say).filter(word => !seen.includes(word))).toEqual([]);
		if (wanted !== null) {
			hidden.push(wanted);
			expect(screen).not.toMatch(new RegExp(`(?<![\\d.])${wanted}(?![\\d.])`));
		}
	}
	expect(hidden.length).toBeGreaterThan(2);
	expect(said).toEqual(twists.map(({ tell }) => tell));
	expect(last?.ask).toBe('closed');
	day.close();
	expect(checkDayFile(readFileSync(path))).toEqual([]);
});
