import { expect, test } from 'vitest';
import { parseJob } from '../../src/job/load.ts';
import { readShelf } from '../../src/job/shelf.ts';
import { answered, inOrder, written } from '../job/asking/answered.ts';
import { shelf as folder } from '../job/chairs/long-form.ts';
import { allDays } from './all-days.ts';

/** Jobs of the Pump Yard workshop, asked for and then sprayed to their last coat. */

const [epoxy, green, slate] = ['grey epoxy', 'moss green satin', 'slate satin'];
const filled = readShelf(folder);
/** With a second colour, like the first in all but its name. */
const shelf = {
	...filled,
	files: filled.files.flatMap(file =>
		file.name === green
			? [file, { ...file, name: slate, path: 'slate.yaml', text: file.text.replaceAll(green, slate) }]
			: [file],
	),
};

const jobs: Record<string, { answers: string[] }> = {
	'six kitchen doors, both sides, two colours': {
		answers: [
			...['Six kitchen doors', '6 x door', 'door both sides', '72 x 40 x 1.9 cm', 'on points', ''],
			...[epoxy, 'all', '2 full', 'large', green, 'inside, edges', 'tack, full'],
			...[slate, 'outside', '2 full', '', '', 'as offered', '2027-03-02 08:00', 'WRITE'],
		],
	},
	'round parts': {
		answers: [
			...['Stool legs and rungs', '12 x leg', 'spindle', '45 x 3.5 cm', 'hanging'],
			...['4 x ring', 'tube frame', '22 mm tube, 1.1 m', 'hanging', ''],
			...[epoxy, 'all', 'full', 'large', green, 'all', 'tack, 2 full', '', '', 'as offered', '', 'WRITE'],
		],
	},
	'a single panel': {
		answers: [
			...['Serving hatch', 'hatch', 'panel', '60 x 45 x 2 cm', 'standing', ''],
			...[epoxy, 'all', '2 full', 'large', green, 'all', 'tack, full', '', '', 'as offered', '', 'WRITE'],
		],
	},
	'one face of one part': {
		answers: [
			...['Flag pole', 'pole', 'spindle', '200 x 4 cm', 'hanging', ''],
			...[epoxy, '2 full', 'large', green, 'tack, full', '', 'as offered', '-', 'WRITE'],
		],
	},
};

test.each(Object.entries(jobs))(
	'%s: asked for, nothing refused, sprayed to the last coat',
	async (_, job) => {
		const { outcome, put } = answered(shelf, inOrder(job.answers));
		expect(put.filter(({ wrong }) => wrong !== null)).toEqual([]);
		expect(put.length).toBeLessThanOrEqual(25);
		const { text } = written(outcome);
		expect(text.trimEnd().split('\n').length).toBeLessThanOrEqual(35);
		const loaded = parseJob(text, 'new.yaml', () => shelf);
		if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
		const { laid, planned, findings } = await allDays(loaded.job);
		expect([laid, findings]).toEqual([planned, []]);
	},
);
