import type { Day } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, is, type Note } from './notes.ts';

const ofBatch = [
	'batch.stepped',
	'batch.poured',
	'batch.found',
	'batch.stood',
	'cup.timed',
	'batch.ready',
	'batch.discarded',
	'batch.loaded',
] as const;

/** Place of a letter in A … Z, AA, AB …, from 0. */
export function placeOf(letter: string): number {
	return [...letter].reduce((sum, sign) => sum * 26 + sign.charCodeAt(0) - 64, 0) - 1;
}

/** A letter names one batch of the job and never another; one batch is mixed at a time. */
export function lettered(day: Day, usedBefore: string[] = []): Finding[] {
	const findings: Finding[] = [];
	const used = new Set(usedBefore);
	let mixing: string | null = null;
	for (const note of day.notes) {
		if (is(note, 'batch.started')) {
			const again = used.has(note.batch) || placeOf(note.batch) < day.before.letters;
			if (again) findings.push(finding('form', note, `the letter ${note.batch} names a second batch`));
			if (mixing)
				findings.push(finding('form', note, `batch ${note.batch} is begun while ${mixing} is mixed`));
			used.add(note.batch);
			mixing = note.batch;
		} else if (is(note, ...ofBatch)) {
			findings.push(...ofUnknown(day, note));
			if (is(note, 'batch.ready', 'batch.discarded') && note.batch === mixing) mixing = null;
		}
	}
	return findings;
}

function ofUnknown(day: Day, note: Extract<Note, { batch: string }>): Finding[] {
	const begun = allOf(day.notes, 'batch.started').some(({ batch, n }) => batch === note.batch && n < note.n);
	return begun ? [] : [finding('form', note, `${note.type} of batch ${note.batch}, which was never begun`)];
}
