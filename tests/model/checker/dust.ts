import { airsThatCount } from './air-counts.ts';
import { causesOf } from './causes.ts';
import { finished } from './coats.ts';
import { type Day, elapsed, type Material, plannedCoat } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, is, type Moment, type Note, type NoteOf } from './notes.ts';
import { flashAt } from './recoat.ts';

/** Work that makes dust, or is wet: of the sheet's steps, and of the line of a face with a fault. */
export const dusty = { stage: ['sand', 'scuff', 'fill', 'wipe'], rework: ['sand', 'clean'] };

type Work = NoteOf<'stage.done'> | NoteOf<'rework.done'>;

const isDusty = (note: Note): note is Work =>
	(is(note, 'stage.done') && dusty.stage.includes(note.stage)) ||
	(is(note, 'rework.done') && dusty.rework.includes(note.step));

const named = (work: Work) => (is(work, 'stage.done') ? work.stage : work.step);

/** The least that a coat stays wet, at the highest surface temperature that counts since it was begun; ms. */
function flash_ms(day: Day, { material, kind, from }: Coat, to: number): number {
	const airs = airsThatCount(day.notes.slice(0, to));
	const inForce = airs.filter(({ n }) => n < from).slice(-1);
	const read = [...inForce, ...airs.filter(({ n }) => n > from)].map(({ surfaceC }) => surfaceC);
	const hottestC = read.length > 0 ? Math.max(...read) : material.flash.at_C;
	return flashAt(material, hottestC, { kind }).least_h * 3_600_000;
}

/** A coat that may be wet: of which face, since which note, and since when it dries; null while it is sprayed. */
type Coat = {
	face: string;
	from: number;
	material: Material;
	kind: string | undefined;
	dries: Moment | null;
};

/** The last coat laid on each face before note `n`, or half of it. */
function coatsBefore(day: Day, n: number): Coat[] {
	const coats = new Map<string, Coat>();
	for (const note of day.notes.slice(0, n)) {
		if (is(note, 'face.started')) {
			const planned = plannedCoat(day, note.face, note.coat);
			const material = day.sheet.materials[planned?.material ?? ''];
			const { face, n: from } = note;
			if (material) coats.set(face, { face, from, material, kind: planned?.kind, dries: null });
		} else if (is(note, 'face.ended')) {
			const coat = coats.get(note.face);
			if (coat && note.extent === 'none') coats.delete(note.face);
			else if (coat) coat.dries = finished(day, note);
		}
	}
	return [...coats.values()];
}

/** The painter's own reason not to wait, given for the face that is worked on since the wet coat was laid. */
const isAskedFor = (day: Day, work: Work, since: number): boolean =>
	allOf(day.notes.slice(since, work.n), 'override.given').some(
		({ rule, face, reason }) => rule === 'window' && face === work.face && reason.trim() !== '',
	);

/** The coats that are wet at a note. */
export const wetAt = (day: Day, at: Note): Coat[] =>
	coatsBefore(day, at.n).filter(
		coat => coat.dries === null || elapsed(coat.dries, at).least + 1000 < flash_ms(day, coat, at.n),
	);

function besideWet(day: Day, work: Work): Finding[] {
	return wetAt(day, work).flatMap(({ face, from, dries }) => {
		if (isAskedFor(day, work, from)) return [];
		const gone_ms = dries ? elapsed(dries, work).least : 0;
		const since = dries ? `${(gone_ms / 60_000).toFixed(1)} min after its coat` : 'while it is sprayed';
		return [finding(19, work, `${named(work)} on ${work.face} beside wet ${face}, ${since}`)];
	});
}

/** Whether the gun that a check left known is so no more, or out of the hand for a pot: then it does not wait. */
const isLaidDown = (day: Day, from: number, to: number): boolean =>
	causesOf(day).some(({ n }) => n > from && n <= to) ||
	allOf(day.notes.slice(from, to), 'batch.started').length > 0;

function besideGun(day: Day, work: Work): Finding[] {
	const checked = allOf(day.notes.slice(0, work.n), 'gun.checked').at(-1);
	if (!checked || isLaidDown(day, checked.n, work.n)) return [];
	return [finding(19, work, `${named(work)} on ${work.face} while the gun of line ${checked.line} waits`)];
}

function workWrong(day: Day, work: Work): Finding[] {
	const wet = besideWet(day, work);
	return wet.length > 0 ? wet : besideGun(day, work);
}

/**
 * Dusty or wet work is not done beside a wet coat, but for the painter's own reason, nor while a checked gun waits, for its
 * first start or between two passes (property 19).
 */
export function dustKeptOff(day: Day): Finding[] {
	return day.notes.flatMap(note => (isDusty(note) ? workWrong(day, note) : []));
}
