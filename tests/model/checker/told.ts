import { earlierDay, historyOf, type Laid } from './coats.ts';
import { type Day, faceOf } from './day.ts';
import { allOf, is, type Moment, type Note, type NoteOf } from './notes.ts';

/**
 * What is told of steps on a face. Without a place it speaks of every step of its name, without a step of all. `at`: when it was
 * done; null where it was left out for a reason. `early_ms`: by how much its turn may come after the moment told.
 * `rework`: a face with a fault is through its own line; the list begins anew, and the line has done of it what comes first.
 */
export type Told =
	| { is: 'rework'; at: Moment }
	| { is: 'step'; step: string | undefined; place?: unknown; at: Moment | null; early_ms: number }
	/** A step of an earlier day; what was left out there stands in that day's file alone. */
	| { is: 'earlier'; step: string; place?: unknown; at: Moment };
type Step = Exclude<Told, { is: 'rework' }>;

/** Whether the day says which face of the part had the fault; older days took the line of each as every step of its names. */
function saysWhich(day: Day, face: string, n: number): boolean {
	const aside = day.notes
		.slice(0, n)
		.findLast(note => is(note, 'part.setAside') && note.faces.includes(face));
	if (is(aside, 'part.setAside')) return aside.faulty !== undefined;
	return historyOf(day, face)?.aside?.beside !== undefined;
}

function reworked(day: Day, note: NoteOf<'rework.done'>): Told[] {
	if (saysWhich(day, note.face, note.n)) return note.step === 'clean' ? [{ is: 'rework', at: note }] : [];
	const names = note.step === 'clean' ? ['wipe', 'tack'] : [note.step];
	return names.map(step => ({ is: 'step', step, at: note, early_ms: 0 }));
}

/** A face is spoken for before its turn, which is after three times the spraying of those before it in the order in force; ms. */
export function turn_ms(day: Day, face: string, n: number): number {
	const order = allOf(day.notes.slice(0, n), 'day.planned').findLast(({ faces }) => faces.includes(face));
	const before = order?.faces.slice(0, order.faces.indexOf(face)) ?? [];
	const longest_s = (id: string) => Math.max(...(faceOf(day, id)?.coats ?? []).map(({ spray_s }) => spray_s));
	return 3000 * before.reduce((sum, id) => sum + longest_s(id), 0);
}

/** What notes tell of steps on a face, in their order: work done, a rework, those reasons that `holds` lets count. */
export function toldIn(
	day: Day,
	face: string,
	notes: Note[],
	holds: (given: NoteOf<'override.given'>) => boolean,
): Told[] {
	return notes.flatMap((note): Told[] => {
		if (is(note, 'stage.done') && note.face === face)
			return [
				{ is: 'step', step: note.stage, place: note.place, at: note, early_ms: turn_ms(day, face, note.n) },
			];
		if (is(note, 'override.given') && holds(note))
			return [
				{ is: 'step', step: note.step as string | undefined, place: note.place, at: null, early_ms: 0 },
			];
		return is(note, 'rework.done') && note.face === face ? reworked(day, note) : [];
	});
}

/** Which of the steps done one that was left out stands before on the list; the first, where it has no place there. */
function turnAmong(done: Step[], left: Step): number {
	const own = left.place;
	if (typeof own !== 'number') return 0;
	const next = done.findIndex(({ place }) => typeof place === 'number' && place > own);
	return next < 0 ? done.length : next;
}

/** What earlier days tell of steps on a face since the coat that lies on it; nothing where that was laid today. */
export function toldEarlier(day: Day, face: string, laid: Laid | null): Told[] {
	if (laid !== null && laid.n > 0) return [];
	const { prep = [], leftOut = [] } = historyOf(day, face) ?? {};
	const left = leftOut.map((one): Step => ({ is: 'step', ...one, at: null, early_ms: 0 }));
	const done = prep.map(
		({ step, place, at }): Step => ({ is: 'earlier', step, place, at: earlierDay(day, at) }),
	);
	const turns = left.map(one => turnAmong(done, one));
	const before = (turn: number) => left.filter((_, n) => turns[n] === turn);
	return [...done.flatMap((one, turn) => [...before(turn), one]), ...before(done.length)];
}
