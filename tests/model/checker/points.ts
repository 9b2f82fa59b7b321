/** A time at a temperature, as a data sheet lists it. */
export type Point = { at_C: number; hours: number };
/** Times that a sheet lists by points, each clock by itself; `factorPer10C` only where the sheet writes one. */
export type Clocks = {
	potLife?: Point[];
	standing?: Point[];
	flash?: FlashPoints;
	factorPer10C?: number;
};
export type FlashPoints = { from: Point[]; to: Point[] | null };
/** Whether a time is one before which nothing may be done, or one after which nothing may. */
export type Sort = 'beginning' | 'end';

/** Beyond the points: twice as slow for 10 °C colder (UFGS 09971 ¶3.7.1.3), three times as fast for 10 °C warmer (this project's own, the careful side of it). */
const carried = { beginning: 2, end: 3 };
/** The factor of a sheet that writes none, where it has no other place for it. */
const unwritten = 2;

/** The sheet's own factor, where it writes one. */
export const factorOf = ({ clocks, factorPer10C }: { clocks?: Clocks; factorPer10C: number }) =>
	clocks?.factorPer10C ?? (factorPer10C === unwritten ? undefined : factorPer10C);

/** So far beyond them nothing is known: a beginning has not come, an end has passed, K. */
const tooFar_K = 20;

function beyond({ at_C, hours }: Point, now_C: number, sort: Sort, factor: number): number {
	const warmer_K = now_C - at_C;
	if (Math.abs(warmer_K) > tooFar_K) return sort === 'end' ? 0 : Number.POSITIVE_INFINITY;
	const isUnsafe = sort === 'end' ? warmer_K < 0 : warmer_K > 0;
	return isUnsafe ? hours : hours * factor ** (-warmer_K / 10);
}

/** Hours at a temperature: even in their logarithm between two points, beyond the outermost carried on to the safe side alone. */
export function hoursAt(points: Point[], now_C: number, sort: Sort, factor = carried[sort]): number {
	const rising = [...points].sort((a, b) => a.at_C - b.at_C);
	const above = rising.find(({ at_C }) => at_C >= now_C);
	const below = rising.findLast(({ at_C }) => at_C <= now_C);
	if (above && below) {
		const share = above === below ? 0 : (now_C - below.at_C) / (above.at_C - below.at_C);
		return below.hours ** (1 - share) * above.hours ** share;
	}
	const outermost = above ?? below;
	return outermost ? beyond(outermost, now_C, sort, factor) : Number.NaN;
}
