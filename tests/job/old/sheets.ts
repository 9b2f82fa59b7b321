import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Line } from '../../../src/day/rehearsal.ts';
import type { Job } from '../../../src/job/job.ts';
import { loadLists } from '../../../src/job/lists.ts';
import { parseJob } from '../../../src/job/load.ts';
import { readShelf } from '../../../src/job/shelf.ts';
import { coats, sheetOf } from '../../day/courses/sheets.ts';
import { rehearsed } from '../../day/rehearsed.ts';
import { longSheet as unmasked } from '../../model/any-job/honest.ts';
import { sheetBy } from '../../model/any-job/sheet.ts';
import { exampleText } from '../altered.ts';
import { longSheet, shelf, shortSheet } from '../chairs/long-form.ts';
import { ownSheet, someFaces } from '../own-sheet.ts';

/** Sheets as they were written before a stage could name its gun, and what became of them. */

const met = readFileSync(join(import.meta.dirname, '../../model/met/two-faces.yaml'), 'utf8');

export const oldSheets: Record<string, string> = {
	example: exampleText,
	'chairs, from the shelf': readFileSync(shortSheet, 'utf8'),
	'chairs, written out': longSheet,
	'two faces': met,
	'wait and unmask': unmasked,
	hatch: sheetOf({ stages: coats(3) }),
	'hatch, two materials': sheetOf({
		units: 'us',
		primer: { order: 'stir, base, hardener, stand, cup', standing: '[20 min at 15 °C, 10 min at 25 °C]' },
		stages: `${coats(1)}  - sand\n  - wipe\n  - { spray: topcoat, coats: [medium] }\n`,
	}),
	'forty faces': ownSheet(someFaces(40)),
	...Object.fromEntries([2, 3, 5, 8, 13, 26, 34, 55].map(seed => [`by chance ${seed}`, sheetBy(seed)])),
};

/** As much of a figure as every machine works out alike. */
const alike = (_: string, value: unknown) =>
	typeof value === 'number' && Number.isFinite(value) ? Number(value.toPrecision(9)) : value;
const hash = (value: unknown): string =>
	createHash('sha256').update(JSON.stringify(value, alike)).digest('hex').slice(0, 16);

function jobOf(text: string): Job {
	const loaded = parseJob(text, 'old.yaml', () => readShelf(shelf));
	if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
	return loaded.job;
}

/** What a screen asks and what its answers are, whatever the words for them: those may be chosen better. */
const asked = ({ at, state, ask, corners, face, coat, events }: Line) => {
	const codes = Object.entries(corners).map(([corner, { code }]) => [corner, code]);
	return { at, state, ask, codes, face, coat, events };
};

/** Answers of a day that are held to what they were. */
const answers = 20;

/** The job that a sheet makes, and the first answers of its rehearsed day, each as a hash. */
export async function becomes(text: string): Promise<{ job: string; day: string }> {
	const job = jobOf(text);
	const listed = await loadLists({ lists: [] }, 'old.yaml');
	if (!listed.ok) throw new Error(listed.errors[0]?.says);
	const seen: unknown[] = [];
	const day = rehearsed({ job, lists: listed.lists, watch: line => seen.push(asked(line)) });
	day.until(() => seen.length >= answers);
	return { job: hash(job), day: hash(seen.slice(0, answers)) };
}
