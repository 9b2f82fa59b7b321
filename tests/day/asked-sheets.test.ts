import { expect, test } from 'vitest';
import { parseJob } from '../../src/job/load.ts';
import { answered, inOrder, written } from '../job/asking/answered.ts';
import { jobs, shelf } from '../job/asking/workshop-jobs.ts';
import { allDays } from './all-days.ts';

/** Jobs of the Pump Yard workshop, asked for and then sprayed to their last coat. */

test.each(Object.entries(jobs))(
	'%s: asked for, nothing refused, sprayed to the last coat',
	async (_, answers) => {
		const { outcome, put } = answered(shelf, inOrder(answers));
		expect(put.filter(({ wrong }) => wrong !== null)).toEqual([]);
		expect(put.length).toBeLessThanOrEqual(25);
		const { text } = written(outcome);
		expect(text.trimEnd().split('\n').length).toBeLessThanOrEqual(35);
		const loaded = parseJob(text, 'new.yaml', () => shelf);
		if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
		const { laid, planned, findings } = await allDays(loaded.job);
		expect([laid, findings]).toEqual([planned, []]);
	},
	600_000,
);
