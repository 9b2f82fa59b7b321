import { expect, test } from 'vitest';
import { loadLists } from '../../src/job/lists.ts';
import { parseJob } from '../../src/job/load.ts';
import { ownSheet, someFaces } from '../job/own-sheet.ts';
import { rehearsed } from './rehearsed.ts';

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
