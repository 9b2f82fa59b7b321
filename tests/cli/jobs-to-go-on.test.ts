import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { jobsToGoOn } from '../../src/cli/jobs-to-go-on.ts';
import { makeDaysFolder } from '../../src/day/file/folder.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import { historyAfter } from '../../src/day/history.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { type Loaded, loadJob, parseJob } from '../../src/job/load.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { exampleText } from '../job/altered.ts';
import { example, folder } from './run.ts';

const day_ms = 86_400_000;
const now = Date.parse('2027-03-05T06:00:00Z');

const asReal = (day: ReturnType<typeof rehearsed>) =>
	day.records().map((one): DayRecord => (one.type === 'day.opened' ? { ...one, clock: 'real' } : one));

function jobOf(loaded: Loaded) {
	if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
	return loaded.job;
}

function folderWith(...days: DayRecord[][]) {
	const store = makeDaysFolder(join(folder(), 'days'));
	for (const records of days) {
		const [opened] = records;
		const name = opened?.type === 'day.opened' ? opened.job.toLowerCase().replaceAll(' ', '-') : '';
		writeFileSync(join(store, `${opened?.at.slice(0, 10)}_${name}.day.jsonl`), encodeKey(records, undefined));
	}
	return store;
}

let primer: DayRecord[];
let topcoat: DayRecord[];
let stools: DayRecord[];
/** The first day, closed after its first coats. */
let brokenUp: ReturnType<typeof rehearsed>;
/** The example's two days, and the first day of another job, a day later. */
beforeAll(async () => {
	const job = jobOf(await loadJob(example));
	const first = rehearsed({ job, at: now - 3 * day_ms });
	first.toEnd();
	primer = asReal(first);
	const second = rehearsed({ job, at: now - day_ms, before: historyAfter(primer) });
	second.toEnd();
	topcoat = asReal(second);
	brokenUp = rehearsed({ job, at: now - 3 * day_ms });
	brokenUp.until(() => brokenUp.ofType('face.ended').length === 10);
	brokenUp.send('hold');
	brokenUp.pick('close');
	brokenUp.pick('close');
	const other = jobOf(parseJob(exampleText.replace('Market coffee cart', 'Four stools'), 'stools.yaml'));
	const day = rehearsed({ job: other, at: now - 2 * day_ms });
	day.toEnd();
	stools = asReal(day);
});

describe('jobs to go on with', () => {
	test('a job whose first day is closed is offered by its name, with what is due and when', () => {
		const store = folderWith(primer);
		const early = Date.parse(primer.at(-1)?.at ?? '') + 3_600_000;
		expect(jobsToGoOn([], early, 'UTC', store)).toEqual([
			{
				name: 'Market coffee cart',
				day: join(store, '2027-03-02_market-coffee-cart.day.jsonl'),
				due: expect.stringMatching(/^day 2: sand from (\d+ March )?\d\d:\d\d$/),
				isLate: false,
			},
		]);
		const [late] = jobsToGoOn([], early + 10 * day_ms, 'UTC', store);
		expect(late?.due).toBe('day 2: sand now');
	});

	test('a coat that must be on by an hour says so; its window missed, the job is late and comes first', () => {
		const records = asReal(brokenUp);
		const ended = Date.parse(records.at(-1)?.at ?? '');
		const store = folderWith(records);
		const [due] = jobsToGoOn([], ended + 3_600_000, 'UTC', store);
		expect(due).toMatchObject({
			due: expect.stringMatching(/^day 2: (spray primer|coat \d) (now|from \d\d:\d\d), by \d\d:\d\d$/),
			isLate: false,
		});
		const [late] = jobsToGoOn([], ended + 2 * day_ms, 'UTC', store);
		expect(late).toMatchObject({ due: expect.stringMatching(/^LATE, day 2: sand /), isLate: true });
		const both = jobsToGoOn([], ended + 2 * day_ms, 'UTC', folderWith(stools, records));
		expect(both.map(({ name, isLate }) => [name, isLate])).toEqual([
			['Market coffee cart', true],
			['Four stools', false],
		]);
	});

	test('the soonest due comes first', () => {
		const store = folderWith(primer, stools);
		const at = Date.parse(stools.at(-1)?.at ?? '') + 60_000;
		expect(jobsToGoOn([], at, 'UTC', store).map(({ name }) => name)).toEqual([
			'Market coffee cart',
			'Four stools',
		]);
	});

	test('a job that is done, or has its day open, is not offered', () => {
		expect(jobsToGoOn([], now, 'UTC', folderWith(primer, topcoat))).toEqual([]);
		expect(jobsToGoOn(['Market coffee cart'], now, 'UTC', folderWith(primer))).toEqual([]);
	});

	test('a rehearsed day is no day of a job, and a damaged one stops nothing', () => {
		const moved = primer.map(
			(one): DayRecord => (one.type === 'day.opened' ? { ...one, clock: 'moved' } : one),
		);
		expect(jobsToGoOn([], now, 'UTC', folderWith(moved))).toEqual([]);
		const store = folderWith(primer);
		writeFileSync(join(store, '2027-03-04_four-stools.day.jsonl'), 'nonsense\n');
		expect(jobsToGoOn([], now, 'UTC', store).map(({ name }) => name)).toEqual(['Market coffee cart']);
	});
});
