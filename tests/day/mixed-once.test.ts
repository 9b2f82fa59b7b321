import { expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { shelf, shortSheet } from '../job/chairs/long-form.ts';
import { jobBy } from '../model/one-paint/sheet.ts';
import { rehearsed } from './rehearsed.ts';

/** What is mixed for a coat while paint stands in the cup: once, before its first face. */

async function dayOf(job: Job) {
	const listed = await loadLists({ lists: [] }, 'sheet.yaml');
	if (!listed.ok) throw new Error('the lists do not load');
	return rehearsed({ job, lists: listed.lists, settings: { by: 'face', units: job.units } });
}

/** For which coats batches were begun: the one sprayed last before each. */
function coatsBefore(day: ReturnType<typeof rehearsed>): string[] {
	let coats = '';
	return day.records().flatMap(record => {
		if (record.type === 'face.ended') {
			const coat = day.job.faces.find(({ id }) => id === record.face)?.coats[record.coat - 1];
			coats = `${coat?.stage} ${coat?.ofStage[0]}`;
		}
		return record.type === 'batch.started' ? [coats] : [];
	});
}

test('a cup that dies before the coat is on counts for nothing: no other batch is mixed inside that coat', async () => {
	// Three coats of a primer that lives 2 h: what stands from the first two is emptied before the third.
	const day = await dayOf(jobBy(16));
	day.toEnd();
	expect(day.ofType('cup.emptied').map(({ why }) => why)).toContain('short-lived');
	const before = coatsBefore(day);
	expect(new Set(before).size).toBe(before.length);
	expect(day.findings()).toEqual([]);
});

test('eight chairs, both sides in primer: a batch for each coat of a side that the pots do not cover, and no other', async () => {
	const loaded = await loadJob(shortSheet, shelf);
	if (!loaded.ok) throw new Error('the chairs do not load');
	const day = await dayOf(loaded.job);
	day.toEnd();
	const before = coatsBefore(day);
	expect(new Set(before).size).toBe(before.length);
	expect(before.length).toBeLessThanOrEqual(4);
	expect(day.findings()).toEqual([]);
}, 120_000);
