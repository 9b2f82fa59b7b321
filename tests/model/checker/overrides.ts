import type { Day } from './day.ts';
import { allOf, type NoteOf } from './notes.ts';

/** The override, with a reason, under which a face was started against one of these rules. */
export function overrideOf(day: Day, start: NoteOf<'face.started'>, ...rules: string[]) {
	return allOf(day.notes, 'override.given').find(
		given =>
			given.n < start.n &&
			rules.includes(given.rule) &&
			start.overrides.includes(given.rule) &&
			given.reason.trim() !== '' &&
			(given.face === null || given.face === start.face) &&
			(given.coat === null || given.coat === start.coat),
	);
}
