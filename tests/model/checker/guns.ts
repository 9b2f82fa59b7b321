import { gunCheckOf } from './checks.ts';
import { cupAt } from './cup.ts';
import { type Day, plannedCoat } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, is, type NoteOf } from './notes.ts';

/** Several guns in one day, or several set-ups of one: which the sheet gives each coat, and which was checked for it. */

type On = { face: string; coat: number };

/** The set-up that the sheet has a coat sprayed with; undefined: the job has one gun alone. */
function setUpOf(day: Day, { face, coat }: On): string | undefined {
	const planned = plannedCoat(day, face, coat) ?? day.sheet.faces.find(({ id }) => id === face)?.coats.at(-1);
	return planned && day.sheet.stages?.[planned.stage]?.gun;
}

/** The gun of a coat, as its sheet sets it up. */
export const gunOf = (day: Day, on: On) => day.sheet.guns?.[setUpOf(day, on) ?? ''] ?? day.sheet.gun;

/** The name on its tape, where the guns of the job have more than one. */
function nameOf(day: Day, on: On): string | undefined {
	const names = new Set(Object.values(day.sheet.guns ?? {}).map(({ called }) => called));
	return names.size > 1 ? gunOf(day, on).called : undefined;
}

/** Whose cup holds the paint, as it was filled last before note `n`. */
function cupOf(day: Day, n: number): string | undefined {
	const filled = day.notes.slice(0, n).findLast(note => is(note, 'batch.loaded', 'cup.emptied'));
	return is(filled, 'batch.loaded') ? filled.ofGun : undefined;
}

/** Nothing is sprayed after a coat with another gun before a full check of its own: name, pressure and all (property 1). */
function startFaults(day: Day, start: NoteOf<'face.started'>): string[] {
	const setUp = setUpOf(day, start);
	const checks = allOf(day.notes.slice(0, start.n), 'gun.checked');
	const other = checks.findLastIndex(checked => setUpOf(day, checked) !== setUp);
	const own = checks.slice(other + 1).find(({ size }) => size === 'full');
	if (!own) return [`it wants ${setUp}, and no full check of that gun was passed since another was in hand`];
	const name = nameOf(day, start);
	const [first] = gunCheckOf(day, own)?.began.items ?? [];
	const read = gunCheckOf(day, own)?.readings.findLast(({ feature }) => feature === 'gun');
	const cup = cupOf(day, start.n);
	return [
		...(name !== undefined && (first !== 'gun' || !read?.matched || read.value !== name)
			? [`the tape of ${name} was not read first in check ${own.check}`]
			: []),
		...(name !== undefined && cupAt(day, start.n).length > 0 && cup !== name
			? [`its paint is in the cup of ${cup ?? 'no gun named'}, it wants ${name}`]
			: []),
	];
}

export const gunsInHand = (day: Day): Finding[] =>
	day.sheet.guns === undefined
		? []
		: allOf(day.notes, 'face.started').flatMap(start =>
				startFaults(day, start).map(says => finding(1, start, `${start.face} starts: ${says}`)),
			);
