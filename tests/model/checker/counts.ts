import { type Day, type Face, faceOf } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, is, type Note, type NoteOf } from './notes.ts';
import { overrideOf } from './overrides.ts';

/**
 * A face as counted: whole coats on it, the coat broken off half-way, its rework, whether it is sound and set aside with
 * its part, whether its rework lets a coat be laid again, and whether the step that ends its line with one is still to come.
 */
type Count = {
	id: string;
	on: string;
	done: number;
	part: number | null;
	aside: Set<string> | null;
	beside: boolean;
	again: boolean;
	ends: boolean;
};
type Counts = Map<string, Count>;

const reworkSteps = ['set-up', 'sand', 'clean'];

function opening(day: Day, { id, part: on }: Face): Count {
	const before = day.before.faces[id];
	const done = Math.max(0, ...(before?.coats ?? []).map(({ coat }) => coat));
	const beside = before?.aside?.beside === true;
	const aside = before?.aside && !beside ? new Set(before.aside.done) : null;
	return { id, on, done, part: null, aside, beside, again: false, ends: false };
}

/** A part set aside: its faces with the fault, those half sprayed among them, and the sound ones; older days told of no sound ones. */
function setAside({ faces, faulty = faces }: NoteOf<'part.setAside'>, counts: Counts): void {
	for (const id of faces) {
		const count = counts.get(id);
		if (!count) continue;
		const isSound = !faulty.includes(id) && count.part === null;
		if (isSound) count.beside = count.aside === null;
		else Object.assign(count, { aside: new Set(), beside: false });
	}
}

/** Sound faces of a part are back in line once none of it has a fault any more. */
function backTogether(on: string, counts: Counts): void {
	const its = [...counts.values()].filter(count => count.on === on);
	if (its.every(({ aside }) => aside === null)) for (const count of its) count.beside = false;
}

function tooMany(day: Day, start: NoteOf<'face.started'>, count: Count): string | null {
	const planned = faceOf(day, start.face)?.coats.length ?? 0;
	if (overrideOf(day, start, 'coats')) return null;
	if (start.coat > planned) return `coat ${start.coat} of ${planned} planned`;
	if (start.from === 'part')
		return count.part === start.coat ? null : `coat ${start.coat} is carried on but was not broken off`;
	if (count.part === start.coat)
		return `coat ${start.coat}, broken off half-way, is gone over from its start`;
	const due = start.coat === count.done + 1 || (count.again && start.coat === count.done);
	return due ? null : `coat ${start.coat} is laid where ${count.done} lie`;
}

function started(day: Day, start: NoteOf<'face.started'>, count: Count): Finding[] {
	const says = tooMany(day, start, count);
	const isOut = (count.aside || count.beside) && !overrideOf(day, start, 'aside');
	const out = count.beside ? 'it is set aside with its part' : 'it is set aside and not reworked';
	return [says, isOut ? out : null].flatMap(text =>
		text ? [finding(14, start, `${start.face}: ${text}`)] : [],
	);
}

function ended(note: NoteOf<'face.ended'>, count: Count): void {
	if (note.extent === 'part') count.part = note.coat;
	if (note.extent !== 'all') return;
	count.done = Math.max(count.done, note.coat);
	count.part = null;
	count.again = false;
}

function reworked(note: NoteOf<'rework.done'>, count: Count, counts: Counts): Finding[] {
	const place = reworkSteps.indexOf(note.step);
	if (place < 0 && count.ends) {
		count.ends = false;
		return [];
	}
	if (!count.aside) return [finding(17, note, `${note.face}: ${note.step} on a face that has no fault`)];
	if (place < 0) return [];
	const skipped = reworkSteps.slice(0, place).find(step => !count.aside?.has(step));
	if (skipped) return [finding(14, note, `${note.face}: ${note.step} before ${skipped}`)];
	count.aside.add(note.step);
	if (count.aside.size < reworkSteps.length) return [];
	Object.assign(count, { aside: null, part: null, again: true, ends: true });
	backTogether(count.on, counts);
	return [];
}

/** No more coats than planned, none over a coat broken off, none on a part set aside; no rework of a sound face (properties 14, 17). */
export function counted(day: Day): Finding[] {
	const counts = new Map(day.sheet.faces.map(face => [face.id, opening(day, face)]));
	const step = (note: Note): Finding[] => {
		if (is(note, 'part.setAside')) {
			setAside(note, counts);
			return [];
		}
		if (!is(note, 'face.started', 'face.ended', 'rework.done')) return [];
		const count = counts.get(note.face);
		if (!count) return [finding('form', note, `the sheet has no face ${note.face}`)];
		if (is(note, 'face.started')) return started(day, note, count);
		if (is(note, 'rework.done')) return reworked(note, count, counts);
		ended(note, count);
		return [];
	};
	return day.notes.flatMap(step);
}

/** A coat beyond the plan is the painter's own answer, by its own key: it never comes with a step of a rework (properties 14, 17). */
export function coatsAsked(day: Day): Finding[] {
	const steps = new Set(allOf(day.notes, 'rework.done').map(({ write }) => write));
	return allOf(day.notes, 'override.given')
		.filter(({ rule, write }) => rule === 'coats' && steps.has(write))
		.map(note => finding(17, note, `${note.face}: a coat more is written with a step of its rework`));
}

/** After a break the face counts as the painter said: nothing, part or all of it (property 14). */
export function asTold(day: Day): Finding[] {
	const told = new Map<string, NoteOf<'reading.taken'>>();
	return day.notes.flatMap(note => {
		if (is(note, 'face.started')) told.delete(note.face);
		if (is(note, 'reading.taken') && note.feature === 'last-face' && note.face) told.set(note.face, note);
		const said = is(note, 'face.ended') ? told.get(note.face) : undefined;
		if (!said || !is(note, 'face.ended') || said.value === note.extent) return [];
		return [
			finding(14, note, `${note.face} ends as ${note.extent}, told was ${said.value} at line ${said.line}`),
		];
	});
}
