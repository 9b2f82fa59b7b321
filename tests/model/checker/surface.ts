import { airsThatCount } from './air-counts.ts';
import { historyOf, type Laid } from './coats.ts';
import { type Day, elapsed } from './day.ts';
import { drift, slices } from './drift.ts';
import { allOf, type Moment } from './notes.ts';
import type { Past, Piece } from './rows.ts';

const hour_ms = 3_600_000;
/** Without a reading a surface is as warm as the shop's air, or so much colder or warmer, K. */
const unread_K = 5;

/** A moment of a coat, and the note that tells it. */
type Place = { at: Moment; n: number };
/** A reading of a surface: of an earlier day the lowest and the highest. */
type Read = Moment & { coldestC: number; warmestC: number };

/** The reading in force at a moment of a coat, and those since. */
function readsFor(day: Day, face: string, from: Place, n: number): Read[] {
	const airs = airsThatCount(day.notes.slice(0, n));
	const later = airs.filter(air => air.n > from.n);
	const before = from.n === 0 ? undefined : airs.findLast(air => air.n < from.n);
	const earlier = from.n === 0 ? historyOf(day, face)?.coats.at(-1) : undefined;
	const found = earlier && {
		...from.at,
		coldestC: Math.min(earlier.leastC ?? earlier.surfaceC, earlier.surfaceC),
		warmestC: earlier.surfaceC,
	};
	const read = [...(before ? [before] : []), ...later].map(air => ({
		...air,
		coldestC: air.surfaceC,
		warmestC: air.surfaceC,
	}));
	return found ? [found, ...read] : read;
}

/** Hours from one moment to another, and none for less than none. */
const hoursFrom = (from: Moment, to: Moment, by: 'least' | 'most') =>
	Math.max(0, elapsed(from, to)[by]) / hour_ms;

/** Since the last reading: as warm as read for an hour, then further and further off. */
function sinceLast(last: Read, laidAt: Moment, to: Moment, by: 'least' | 'most'): Piece[] {
	const from_h = hoursFrom(last, laidAt, by);
	const until_h = hoursFrom(last, to, by);
	return slices(from_h, until_h).map(({ long_h, off_K }) => ({
		hours: long_h,
		coldestC: last.coldestC - off_K,
		warmestC: last.warmestC + off_K,
	}));
}

/** The pieces of time since a coat: between two readings as cold, or as warm, as either. */
function piecesOf(reads: Read[], laidAt: Moment, to: Moment, by: 'least' | 'most'): Piece[] {
	return reads.flatMap((read, n) => {
		const next = reads[n + 1];
		if (!next) return sinceLast(read, laidAt, to, by);
		const from = n === 0 ? laidAt : read;
		return [
			{
				hours: hoursFrom(from, next, by),
				coldestC: Math.min(read.coldestC, next.coldestC),
				warmestC: Math.max(read.warmestC, next.warmestC),
			},
		];
	});
}

/** The starts of a coat that lies on a face, of each of its parts; none where it is of an earlier day. */
export const startsOf = (day: Day, face: string, laid: Laid) =>
	allOf(day.notes.slice(0, laid.n), 'face.started').filter(
		start => start.face === face && start.coat === laid.coat,
	);

/** The readings from a moment of a coat on, before the first of them the air of the shop. */
function lived(day: Day, face: string, from: Place, n: number): Read[] {
	const read = readsFor(day, face, from, n);
	const [first] = read;
	if (!first || elapsed(from.at, first).most <= 0) return read;
	const airC = day.sheet.shop?.air_C ?? first.coldestC;
	return [{ ...from.at, coldestC: airC - unread_K, warmestC: airC + unread_K }, ...read];
}

/**
 * What the surface under a coat has been through until a moment, at note `n`: since it was finished by the shortest time, since it
 * was last started by the longest. Null where nothing was read for it.
 */
export function pastOf(day: Day, face: string, laid: Laid, to: Moment & { n: number }): Past | null {
	const read = readsFor(day, face, laid, to.n);
	if (read.length === 0) return null;
	const start = startsOf(day, face, laid).at(-1);
	const begun = start ? { at: start, n: start.n } : laid;
	return {
		least: piecesOf(lived(day, face, laid, to.n), laid.at, to, 'least'),
		most: piecesOf(lived(day, face, begun, to.n), begun.at, to, 'most'),
		readC: Math.max(...read.map(({ warmestC }) => warmestC)),
	};
}

/** The coldest and the warmest that a surface may be taken for since a coat, by all that was read and the shop's air before it. */
export function reachOf(day: Day, face: string, laid: Laid, n: number): [number, number] | null {
	const read = readsFor(day, face, laid, n);
	if (read.length === 0) return null;
	const airC = laid.n === 0 ? day.sheet.shop?.air_C : undefined;
	const unread = airC === undefined ? [] : [airC - unread_K, airC + unread_K];
	return [
		Math.min(...unread, ...read.map(({ coldestC }) => coldestC)) - drift.most_K,
		Math.max(...unread, ...read.map(({ warmestC }) => warmestC)) + drift.most_K,
	];
}
