import { type Day, dayOf } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { readLines } from './lines.ts';
import { allOf, is, type Note, readNotes } from './notes.ts';

export type Standing =
	| 'no day'
	| 'idle'
	| 'list'
	| 'check'
	| 'mixing'
	| 'ready'
	| 'spraying'
	| 'wait'
	| 'hold'
	| 'closed';

const leavesWait = [
	'wait.ended',
	'check.began',
	'batch.started',
	'batch.stood',
	'batch.loaded',
	'cup.emptied',
	'break.began',
] as const;

function afterNote(now: Standing, note: Note, open: number): Standing {
	if (now === 'closed' || is(note, 'day.closed')) return 'closed';
	if (is(note, 'break.began')) return 'hold';
	if (now === 'hold') return is(note, 'break.ended') ? 'idle' : 'hold';
	if (is(note, 'wait.began')) return 'wait';
	if (now === 'wait' && !is(note, ...leavesWait)) return 'wait';
	if (is(note, 'wait.ended')) return now === 'wait' ? 'idle' : now;
	if (is(note, 'check.began')) return note.list === 'gun-check' ? 'check' : 'list';
	if (is(note, 'batch.started', 'batch.stood')) return 'mixing';
	if (is(note, 'batch.ready', 'batch.discarded', 'batch.loaded')) return open > 0 ? 'spraying' : 'idle';
	if (is(note, 'gun.unknown')) return now === 'ready' ? 'idle' : now;
	if (is(note, 'gun.checked')) return 'ready';
	if (is(note, 'face.started')) return 'spraying';
	return is(note, 'face.ended') && open === 0 && now === 'spraying' ? 'ready' : now;
}

/** Where the records leave the day after each of them. */
export function standings(notes: Note[]): Standing[] {
	let now: Standing = 'idle';
	const open = new Set<string>();
	return notes.map(note => {
		if (is(note, 'face.started')) open.add(note.face);
		if (is(note, 'face.ended')) open.delete(note.face);
		now = afterNote(now, note, open.size);
		return now;
	});
}

/**
 * Where a day stands by its file alone, its last unfinished write left out. A file that a program has opened
 * again after a kill stands in `hold` or `closed`, wherever it was cut.
 */
export function standing(bytes: Uint8Array): Standing {
	const { notes } = readNotes(readLines(bytes).lines);
	return dayOf(notes) ? (standings(notes).at(-1) ?? 'no day') : 'no day';
}

/** Nothing leads from hold or wait to a passed check or a face but coming back and a check begun (property 6). */
export function noShortCut({ notes }: Day): Finding[] {
	const stood = standings(notes);
	return notes.flatMap(note => {
		const before = stood[note.n - 1];
		if (!is(note, 'gun.checked', 'face.started') || (before !== 'hold' && before !== 'wait')) return [];
		return [finding(6, note, `${note.type} straight out of ${before}`)];
	});
}

function restart(notes: Note[], first: Note): Finding[] {
	const closed = notes.slice(0, first.n).some(note => is(note, 'day.closed'));
	const next = notes.slice(first.n).find(note => !is(note, 'clock.set'));
	if (closed || (is(next, 'break.began') && next.kind === 'restart')) return [];
	return [finding(8, first, `run ${first.run} does not begin in hold`)];
}

function untold(notes: Note[], first: Note): Finding[] {
	const open = new Map<string, Note>();
	for (const note of notes.slice(0, first.n)) {
		if (is(note, 'face.started')) open.set(note.face, note);
		if (is(note, 'face.ended')) open.delete(note.face);
	}
	const later = notes.slice(first.n);
	const passed = later.findIndex(note => is(note, 'gun.checked', 'face.started'));
	if (open.size === 0 || passed < 0) return [];
	const asked = allOf(later.slice(0, passed), 'reading.taken').some(({ feature }) =>
		['last-face', 'which-face'].includes(feature),
	);
	return asked ? [] : [finding(8, first, `what was done to ${[...open.keys()].join(', ')} was never asked`)];
}

/** Every start of the program on an open day begins in hold, and asks what was done to the face that was under way (property 8). */
export function reopenedInHold({ notes }: Day): Finding[] {
	const firsts = notes.filter(note => note.run > (notes[note.n - 1]?.run ?? note.run));
	return firsts.flatMap(first => [...restart(notes, first), ...untold(notes, first)]);
}
