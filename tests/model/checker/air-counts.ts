import { elapsed } from './day.ts';
import { allOf, type Note, type NoteOf } from './notes.ts';

/** A reading of the air that another follows within ten minutes, nothing sprayed between, was taken back by it. */
function isTakenBack(notes: Note[], read: NoteOf<'air.read'>, next: NoteOf<'air.read'> | undefined): boolean {
	if (!next || elapsed(read, next).most > 10 * 60_000) return false;
	return allOf(notes.slice(read.n, next.n), 'face.started').length === 0;
}

/** The readings of the air that count for recoat windows and pot life. */
export function airsThatCount(notes: Note[]): NoteOf<'air.read'>[] {
	const all = allOf(notes, 'air.read');
	return all.filter((read, n) => !isTakenBack(notes, read, all[n + 1]));
}
