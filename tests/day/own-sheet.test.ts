import { expect, test } from 'vitest';
import { historyAfter } from '../../src/day/history.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob, parseJob } from '../../src/job/load.ts';
import { shelf, shortSheet } from '../job/chairs/long-form.ts';
import { ownSheet, someFaces } from '../job/own-sheet.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { rehearsed, start } from './rehearsed.ts';

test('a sheet of 40 faces and three materials runs too: nothing of the example is built in', async () => {
	const parsed = parseJob(ownSheet(someFaces(40)), 'own.yaml');
	if (!parsed.ok) throw new Error(parsed.errors[0]?.says);
	const listed = await loadLists(parsed.job, 'own.yaml');
	if (!listed.ok) throw new Error(listed.errors[0]?.says);
	const day = rehearsed({ job: parsed.job, lists: listed.lists });
	expect(parsed.job.faces.length).toBe(40);
	expect(Object.keys(parsed.job.materials).length).toBe(3);
	day.toEnd();
	expect(day.ofType('face.ended').length).toBeGreaterThanOrEqual(40);
	expect(day.findings()).toEqual([]);
});

test('three days of eight chairs from a short sheet: turned over, sanded, a coat more on the seats', async () => {
	const loaded = await loadJob(shortSheet, shelf);
	if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
	const listed = await loadLists(loaded.job, shortSheet);
	if (!listed.ok) throw new Error(listed.errors[0]?.says);
	const { job } = loaded;
	const days: ReturnType<typeof rehearsed>[] = [];
	const laid = () => days.flatMap(day => day.ofType('face.ended'));
	const all = job.faces.reduce((sum, { coats }) => sum + coats.length, 0);
	for (let nth = 0; nth < 5 && laid().length < all; nth++) {
		const last = days.at(-1)?.records();
		const day = rehearsed({
			...{ job, lists: listed.lists, at: start + nth * 24 * 3_600_000 },
			...(last && { before: historyAfter(last) }),
		});
		day.toEnd();
		days.push(day);
	}
	const earlier = days.map(day => day.bytes());
	for (const [at, day] of days.entries()) expect(checkDayFile(day.bytes(), earlier.slice(0, at))).toEqual([]);
	expect(days.length).toBe(3);
	for (const { id, coats } of job.faces)
		expect(laid().filter(({ face }) => face === id)).toHaveLength(coats.length);
});
