import { lasts_h, overAt_h, type ProcessClock, type Stretch, steady } from './process-clock.ts';
import {
	careful,
	closed,
	opensAt,
	type RecoatRow,
	type RecoatWindow,
	recoatWindows,
	spread,
} from './recoat.ts';
import type { TimeAt } from './time.ts';

/** A table of several rows by what was read: each edge of its windows is a clock of its own. */

/** The surface under a coat. */
export type Held = {
	/** The coldest that it can have been from the coat's end on, for what opens. */
	coldest: readonly Stretch[];
	/** The warmest, from its start on, for what closes; and how long the coat took. */
	warmest: readonly Stretch[];
	took_h: number;
	/** The highest that was read. */
	highest_C: number;
};

/** At one temperature from the coat's end on. */
export const heldAt = (surface_C: number): Held => {
	const level = steady(surface_C);
	return { coldest: level, warmest: level, took_h: 0, highest_C: surface_C };
};

/** Two temperatures closer than this are one, K. */
const touching_K = 1e-6;

/** The hours of one edge at both ends of each row; where two rows meet, the more careful of them holds. */
function pointsOf(
	rows: readonly RecoatRow[],
	hoursIn: (row: RecoatRow) => number,
	kind: ProcessClock['kind'],
): TimeAt[] {
	return rows.flatMap((row, nth): TimeAt[] => {
		const hours = hoursIn(row);
		const [before, after] = [rows[nth - 1], rows[nth + 1]];
		const yields = (other: RecoatRow | undefined, gap_K: number): boolean => {
			if (!other || gap_K > touching_K) return false;
			const more_h = hoursIn(other) - hours;
			return more_h === 0 ? other === before : more_h > 0 === (kind === 'beginning');
		};
		const from_C = row.from_C + (yields(before, row.from_C - (before?.to_C ?? 0)) ? touching_K : 0);
		const to_C = row.to_C - (yields(after, (after?.from_C ?? 0) - row.to_C) ? touching_K : 0);
		return (to_C > from_C ? [from_C, to_C] : [from_C]).map(at_C => ({ at_C, hours }));
	});
}

/** Rows in rising order that tell the same windows one after the other, and do not overlap. */
function areAlike(rows: readonly RecoatRow[]): boolean {
	const [first] = rows;
	const told = (row: RecoatRow) =>
		closed(row)
			.map(({ does, from_h }) => `${does} ${from_h === 0}`)
			.join();
	return rows.every(
		(row, nth) =>
			first && told(row) === told(first) && row.from_C >= (rows[nth - 1]?.to_C ?? Number.NEGATIVE_INFINITY),
	);
}

/** Rows that tell different windows: what the most careful of all the temperatures asks that the surface can have had. */
function mostCareful(rows: readonly RecoatRow[], held: Held, factorPer10C?: number): RecoatWindow[] {
	const temps_C = [...held.coldest, ...held.warmest].flatMap(({ from_C, to_C }) => [from_C, to_C]);
	const [least_C, most_C] = [Math.min(...temps_C), Math.max(...temps_C, held.highest_C)];
	const between = rows.flatMap(({ from_C, to_C }) => [from_C, to_C]).filter(C => C > least_C && C < most_C);
	return careful(
		[least_C, ...between, most_C].map(C => ({
			windows: begunBefore(recoatWindows(rows, C, factorPer10C), held.took_h),
		})),
	);
}

/** What closes is counted from the start of the coat, which took so long. */
function begunBefore(windows: readonly RecoatWindow[], took_h: number): RecoatWindow[] {
	const edges_h = windows.map(({ from_h }, nth) =>
		opensAt(windows, nth) ? from_h : Math.max(0, from_h - took_h),
	);
	return spread(windows, edges_h);
}

/**
 * What a coat allows as time passes, by a table of several rows and what its surface was read at. Inside a row its hours,
 * between two log-linear, outside never on to the unsafe side. What opens counts by the coldest; what closes by the warmest
 * from the coat's start on, and no later than at the highest read. Where edges cross, the more careful counts.
 * @param factorPer10C where the sheet has its own, for outside the rows
 * @returns windows in hours after the coat, as `recoatWindows`
 * @throws RangeError where the highest lies more than 20 K outside the rows
 * Source: the row of the highest temperature held, UFGS 09971 ¶3.7.1.4.
 */
export function windowsHeld(given: readonly RecoatRow[], held: Held, factorPer10C?: number): RecoatWindow[] {
	const rows = [...given].sort((one, other) => one.from_C - other.from_C);
	const [first] = rows;
	if (!first || !areAlike(rows)) return mostCareful(rows, held, factorPer10C);
	const windows = closed(first);
	const edges_h = windows.map(({ from_h }, nth) => {
		if (from_h === 0) return 0;
		const kind = opensAt(windows, nth) ? 'beginning' : 'end';
		const points = pointsOf(rows, row => closed(row)[nth]?.from_h ?? from_h, kind);
		const clock: ProcessClock = { kind, points, factorPer10C };
		if (kind === 'beginning') return overAt_h(clock, held.coldest);
		return Math.max(0, Math.min(overAt_h(clock, held.warmest) - held.took_h, lasts_h(clock, held.highest_C)));
	});
	return spread(windows, edges_h);
}
