import type { Day } from './day.ts';
import { allOf, type NoteOf } from './notes.ts';

/** The window that a reason was given for; a file of version 1 tells it among the facts. */
const windowOf = ({ window, facts }: NoteOf<'override.given'>): string | undefined =>
	(window as string | undefined) ?? (facts as { window?: string } | undefined)?.window;

/** A reason holds for what stood on the screen when it was given: for one air reading, and one recoat window. */
function standsFor(day: Day, given: NoteOf<'override.given'>, start: NoteOf<'face.started'>): boolean {
	if (given.rule === 'air') return allOf(day.notes.slice(given.n, start.n), 'air.read').length === 0;
	const window = windowOf(given);
	return given.rule !== 'window' || window === undefined || window === start.window;
}

/** The overrides, with a reason, under which a face was started against one of these rules. */
export function overridesOf(day: Day, start: NoteOf<'face.started'>, ...rules: string[]) {
	return allOf(day.notes, 'override.given').filter(
		given =>
			given.n < start.n &&
			standsFor(day, given, start) &&
			rules.includes(given.rule) &&
			start.overrides.includes(given.rule) &&
			given.reason.trim() !== '' &&
			(given.face === null || given.face === start.face) &&
			(given.coat === null || given.coat === start.coat),
	);
}

/** One of them. */
export const overrideOf = (day: Day, start: NoteOf<'face.started'>, ...rules: string[]) =>
	overridesOf(day, start, ...rules)[0];

/** Whether the work that a window asks for was left out with a reason, by whichever rule it was asked for. A record without its step is of an older day. */
export const isLeftOut = (day: Day, start: NoteOf<'face.started'>, step: string): boolean =>
	overridesOf(day, start, 'prep', 'window').some(given =>
		given.rule === 'prep' ? given.step === undefined || given.step === step : windowOf(given) === step,
	);
