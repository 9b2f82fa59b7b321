import { historyOf } from './coats.ts';
import type { Day } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, is, type Note, type NoteOf } from './notes.ts';

/** What nothing may pass over. */
const never = ['mask', 'breathing', 'hardener', 'pattern', 'card', 'batch', 'letter', 'can'];

/** An override has a reason, and there is none for breathing gear, hardener, pattern, batch letter or can (property 11). */
export function overridesSound(day: Day): Finding[] {
	return allOf(day.notes, 'override.given').flatMap(given => [
		...(given.reason.trim() === ''
			? [finding(11, given, `${given.rule} is passed over without a reason`)]
			: []),
		...(given.rule.split(/[^a-z]+/).some(word => never.includes(word))
			? [finding(11, given, `${given.rule} cannot be passed over`)]
			: []),
	]);
}

/** Where the reach of an override ends: one for the air with the next reading of it; one that names no face with the next list of its kind, or when its item is closed after all. */
function reachOf(day: Day, given: NoteOf<'override.given'>): number {
	const list = allOf(day.notes.slice(0, given.n), 'check.began').at(-1)?.list;
	const renewed = (note: Note) => {
		if (given.rule === 'air') return is(note, 'air.read');
		if (is(note, 'item.answered')) return note.item === given.rule && note.passed;
		return is(note, 'check.began') && note.list === list;
	};
	return day.notes.slice(given.n + 1).find(renewed)?.n ?? day.notes.length;
}

/** Whether the face has been through the line of a face with a fault since: what a reason left out of its coat is done anew. */
const isReworkedSince = (
	day: Day,
	{ n, face }: NoteOf<'override.given'>,
	start: NoteOf<'face.started'>,
): boolean =>
	allOf(day.notes.slice(n, start.n), 'rework.done').some(note => note.face === face && note.step === 'clean');

function governs(day: Day, given: NoteOf<'override.given'>, start: NoteOf<'face.started'>): boolean {
	if (given.n > start.n) return false;
	if (typeof given.batch === 'string') return start.cup.includes(given.batch);
	if (given.rule === 'air' || given.face === null) if (start.n >= reachOf(day, given)) return false;
	if (given.face === null) return true;
	if (isReworkedSince(day, given, start)) return false;
	return given.face === start.face && (given.coat === null || given.coat === start.coat);
}

/** Every face sprayed under an override is marked with it, and no face with one that was not given (property 11). */
export function facesMarked(day: Day): Finding[] {
	const given = allOf(day.notes, 'override.given');
	return allOf(day.notes, 'face.started').flatMap(start => {
		const unmarked = given.filter(one => governs(day, one, start) && !start.overrides.includes(one.rule));
		const before = historyOf(day, start.face);
		const isLeftOut = (before?.leftOut ?? []).length > 0 && start.coat === (before?.coats.length ?? 0) + 1;
		const unknown = start.overrides.filter(
			rule =>
				!(rule === 'prep' && isLeftOut) &&
				!given.some(one => one.n < start.n && one.rule === rule && (one.face ?? start.face) === start.face),
		);
		return [
			...unmarked.map(({ rule, line }) =>
				finding(11, start, `${start.face} is not marked with ${rule} of line ${line}`),
			),
			...unknown.map(rule => finding(11, start, `${start.face} is marked with ${rule}, which nobody gave`)),
		];
	});
}
