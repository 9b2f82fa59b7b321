import type { Face, Material, PlannedCoat } from '../job/job.ts';
import type { Change, DayLine, Pass, Timeline } from './timeline.ts';

/**
 * How a thing came to be doubted, strongest first:
 * `measured`: a reading or number beyond its limit, or a reading that had to be there and is not;
 * `changed`: a logged change that touches the thing, and no reading of it after;
 * `break`: a break with no reading of it after; `wait`: a wait or a filling, likewise; `open`: nothing logged,
 * nothing read; `cleared`: read right straight after, and nothing that could have put it right between.
 */
export type ClueKind = 'measured' | 'changed' | 'break' | 'wait' | 'open' | 'cleared';

export type Clue = {
	kind: ClueKind;
	at: number;
	/** Departure as a share of its limit; 0 where nothing was measured. */
	size: number;
	reason: string;
	/** Worked out from the seconds that a trigger line says it was pulled; nobody read it. */
	pulled?: true;
	/** Whether a pass suffered from it too. */
	explains(pass: Pass): boolean;
};

/** One thing that could have been wrong with one pass: how long it was in doubt, and who was sprayed meanwhile. */
export type Suspicion = {
	code: string;
	thing: string;
	/** From the last good reading (or the start of the day) to the first evidence after it (or the end). */
	from: number;
	to: number;
	exposed: Pass[];
	clues: Clue[];
	/** What was not recorded and would have settled it. */
	unread: string | null;
	/** Once in, it stays in until it is put right. */
	stays: boolean;
};

export type Asked = { timeline: Timeline; pass: Pass };

export const overlaps = (pass: Pass, from: number, to: number): boolean =>
	pass.began < to && pass.ended > from;

export function faceOf({ job }: Timeline, id: string): Face | undefined {
	return job.faces.find(face => face.id === id);
}

/** The plan of a coat; one beyond the plan is laid like the last. */
export function planOf(timeline: Timeline, pass: Pass): PlannedCoat | undefined {
	const coats = faceOf(timeline, pass.face)?.coats;
	return coats?.[Math.min(pass.coat, coats.length) - 1];
}

export function materialOf(timeline: Timeline, pass: Pass): Material | undefined {
	return timeline.job.materials[planOf(timeline, pass)?.material ?? ''];
}

export function dayOf({ days }: Timeline, pass: Pass): DayLine {
	const day = days[pass.day];
	if (!day) throw new RangeError(`no day ${pass.day + 1} in the files given`);
	return day;
}

/** Logged changes between an instant and the start of a pass, on its day. */
export function changesBefore({ timeline, pass }: Asked, from: number): Change[] {
	return dayOf(timeline, pass).changes.filter(change => change.at >= from && change.at <= pass.began);
}
