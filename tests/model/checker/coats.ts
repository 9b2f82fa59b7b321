import type { Bounds } from './clocks.ts';
import { type Day, type History, plannedCoat } from './day.ts';
import { allOf, type Moment, type NoteOf } from './notes.ts';

/** A coat that lies on a face: when it was finished, and the highest surface temperature read for it so far. */
export type Laid = {
	coat: number;
	at: Moment;
	n: number;
	surfaceC: number | null;
	material: string | undefined;
};

/** When a face was finished: its share of the stretch where that was estimated, by the clocks of its start, and never after it was told. */
export function finished(day: Day, ended: NoteOf<'face.ended'>): Moment {
	const start = allOf(day.notes.slice(0, ended.n), 'face.started').findLast(
		({ face, coat }) => face === ended.face && coat === ended.coat,
	);
	if (ended.ended === undefined || !start) return ended;
	const t = Date.parse(ended.ended);
	const share = t - start.t;
	if (share < 0) return ended;
	const until = (by: keyof Bounds) => Math.min(start.lapse[by] + share, ended.lapse[by]);
	return {
		...start,
		t,
		mono: start.mono + share,
		lapse: { least: until('least'), most: until('most') },
	};
}

/** A moment of an earlier day, by its wall clock. */
export function earlierDay(day: Day, at: string): Moment {
	const t = Date.parse(at);
	const lapse = t - (day.notes[0]?.t ?? t);
	return { t, mono: 0, up: null, run: 0, lapse: { least: lapse, most: lapse } };
}

export const historyOf = (day: Day, face: string): History | undefined => day.before.faces[face];

function fromBefore(day: Day, face: string): Laid | null {
	const last = historyOf(day, face)?.coats.at(-1);
	if (!last) return null;
	return {
		coat: last.coat,
		at: earlierDay(day, last.ended),
		n: 0,
		surfaceC: last.surfaceC,
		material: plannedCoat(day, face, last.coat)?.material,
	};
}

/** The coat that lies uppermost on a face before note `n`, or null for a bare face. */
export function lastLaid(day: Day, face: string, n: number): Laid | null {
	const ended = allOf(day.notes.slice(0, n), 'face.ended').findLast(
		note => note.face === face && note.extent === 'all',
	);
	if (!ended) return fromBefore(day, face);
	const surfaceC = allOf(day.notes.slice(0, ended.n), 'air.read').at(-1)?.surfaceC ?? null;
	const material = plannedCoat(day, face, ended.coat)?.material;
	return { coat: ended.coat, at: finished(day, ended), n: ended.n, surfaceC, material };
}

/** Preparation recorded on a face between the coat that lies on it and note `n`, a rework included: its cleaning wipes and tacks. */
export function prepSince(day: Day, face: string, laid: Laid | null, n: number): string[] {
	const between = day.notes.slice(laid?.n ?? 0, n);
	const done = allOf(between, 'stage.done').filter(note => note.face === face);
	const reworked = allOf(between, 'rework.done').filter(note => note.face === face);
	const older = laid === null || laid.n === 0 ? (historyOf(day, face)?.prep ?? []) : [];
	const steps = reworked.flatMap(({ step }) => (step === 'clean' ? ['wipe', 'tack'] : step));
	return [...older.map(({ step }) => step), ...done.map(({ stage }) => stage), ...steps];
}
