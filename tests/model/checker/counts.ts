import { type Day, faceOf } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { is, type Note, type NoteOf } from './notes.ts';
import { overrideOf } from './overrides.ts';

/** A face as counted: whole coats on it, the coat broken off half-way, its rework, and whether that lets a coat be laid again. */
type Count = { done: number; part: number | null; aside: Set<string> | null; again: boolean };

const reworkSteps = ['set-up', 'sand', 'clean'];

function opening(day: Day, id: string): Count {
	const before = day.before.faces[id];
	const done = Math.max(0, ...(before?.coats ?? []).map(({ coat }) => coat));
	return { done, part: null, aside: before?.aside ? new Set(before.aside.done) : null, again: false };
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
	const aside = count.aside && !overrideOf(day, start, 'aside') ? 'it is set aside and not reworked' : null;
	return [says, aside].flatMap(text => (text ? [finding(14, start, `${start.face}: ${text}`)] : []));
}

function ended(note: NoteOf<'face.ended'>, count: Count): void {
	if (note.extent === 'part') count.part = note.coat;
	if (note.extent !== 'all') return;
	count.done = Math.max(count.done, note.coat);
	count.part = null;
	count.again = false;
}

function reworked(note: NoteOf<'rework.done'>, count: Count): Finding[] {
	const place = reworkSteps.indexOf(note.step);
	if (!count.aside || place < 0) return [];
	const skipped = reworkSteps.slice(0, place).find(step => !count.aside?.has(step));
	if (skipped) return [finding(14, note, `${note.face}: ${note.step} before ${skipped}`)];
	count.aside.add(note.step);
	if (count.aside.size === reworkSteps.length) Object.assign(count, { aside: null, part: null, again: true });
	return [];
}

/** No more coats than planned, none over a coat broken off, none on a part set aside (property 14). */
export function counted(day: Day): Finding[] {
	const counts = new Map(day.sheet.faces.map(({ id }) => [id, opening(day, id)]));
	const step = (note: Note): Finding[] => {
		if (is(note, 'part.setAside')) {
			for (const id of note.faces) Object.assign(counts.get(id) ?? {}, { aside: new Set() });
			return [];
		}
		if (!is(note, 'face.started', 'face.ended', 'rework.done')) return [];
		const count = counts.get(note.face);
		if (!count) return [finding('form', note, `the sheet has no face ${note.face}`)];
		if (is(note, 'face.started')) return started(day, note, count);
		if (is(note, 'rework.done')) return reworked(note, count);
		ended(note, count);
		return [];
	};
	return day.notes.flatMap(step);
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
