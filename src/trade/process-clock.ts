import { positive } from './range.ts';
import { carriedTo, guessLimit_K, type TimeAt, timeAt_h } from './time.ts';

/**
 * The clock of one process (pot life, standing, flash): its own points from the data sheet, and how much of it is used up
 * while the temperature changes. It is over once its used share is 1.
 */

/** A beginning has to have come before something is allowed; an end must not have passed. */
export type ClockKind = 'beginning' | 'end';

/** `factorPer10C`: where the sheet has its own, for outside the points. */
export type ProcessClock = {
	kind: ClockKind;
	points: readonly TimeAt[];
	factorPer10C?: number | undefined;
};

/** A stretch of time in which the temperature goes evenly from one to the other; one without an end is level. */
export type Stretch = { from_h: number; to_h: number; from_C: number; to_C: number };

/**
 * Factors per 10 °C outside the points. Twice as long when colder: UFGS 09971 ¶3.7.1.3; a third when warmer, since pot lives
 * that fell by 3 have been measured: the most careful figure found.
 */
export const ruleOfThumb: Readonly<Record<ClockKind, number>> = { beginning: 2, end: 3 };

const outermost = (points: readonly TimeAt[]): [number, number] => {
	const temps_C = points.map(({ at_C }) => at_C);
	return [Math.min(...temps_C), Math.max(...temps_C)];
};

/** Where a temperature lies: in the points, past them where their nearest time is kept, or past them by the factor. */
export type ClockRule = 'points' | 'nearest point' | 'rule of thumb';

/** By which rule a clock goes at a temperature, °C. */
export function ruleAt({ kind, points }: Omit<ProcessClock, 'factorPer10C'>, temp_C: number): ClockRule {
	const [coldest_C, warmest_C] = outermost(points);
	if (temp_C >= coldest_C && temp_C <= warmest_C) return 'points';
	return temp_C < coldest_C === (kind === 'beginning') ? 'rule of thumb' : 'nearest point';
}

/**
 * How long a process lasts at a steady temperature: log-linear between its points; outside them never carried on in the
 * unsafe direction, so that warmth shortens no beginning and cold lengthens no end.
 * @param temp_C up to 20 K outside the points
 * @returns hours
 * @throws RangeError beyond that, for no points, or for two at one temperature
 */
export function lasts_h(clock: ProcessClock, temp_C: number): number {
	const { kind, points, factorPer10C = ruleOfThumb[kind] } = clock;
	const [coldest_C, warmest_C] = outermost(points);
	const nearest_C = Math.min(warmest_C, Math.max(coldest_C, temp_C));
	const there_h = timeAt_h(points, nearest_C, factorPer10C);
	const factor = ruleAt(clock, temp_C) === 'rule of thumb' ? factorPer10C : 1;
	return carriedTo(there_h, nearest_C, temp_C, factor);
}

/** A piece of a stretch in which the share used in an hour grows by a steady rate. */
type Piece = { from_h: number; to_h: number; first: number; last: number };

/** More than 20 K outside its points a beginning does not come nearer, and an end has passed. */
function shareAnHour(clock: ProcessClock, temp_C: number, isFar: boolean): number {
	if (isFar) return clock.kind === 'beginning' ? 0 : Number.POSITIVE_INFINITY;
	return 1 / lasts_h(clock, temp_C);
}

/** A stretch cut where the temperature passes a point, or the farthest that a time is guessed for. */
function piecesOf(clock: ProcessClock, { from_h, to_h, from_C, to_C }: Stretch): Piece[] {
	const [coldest_C, warmest_C] = outermost(clock.points);
	const [least_C, most_C] = [coldest_C - guessLimit_K, warmest_C + guessLimit_K];
	const within = (temp_C: number) => temp_C > Math.min(from_C, to_C) && temp_C < Math.max(from_C, to_C);
	const edges_C = [least_C, ...clock.points.map(({ at_C }) => at_C), most_C].filter(within);
	const temps_C = [from_C, ...edges_C.sort((a, b) => (from_C < to_C ? a - b : b - a)), to_C];
	const at_h = (temp_C: number) => from_h + ((to_h - from_h) * (temp_C - from_C)) / (to_C - from_C);
	return temps_C.slice(1).map((next_C, nth) => {
		const before_C = temps_C[nth] ?? from_C;
		const middle_C = (before_C + next_C) / 2;
		const isFar = middle_C < least_C || middle_C > most_C;
		return {
			from_h: nth === 0 ? from_h : at_h(before_C),
			to_h: nth === temps_C.length - 2 ? to_h : at_h(next_C),
			first: shareAnHour(clock, before_C, isFar),
			last: shareAnHour(clock, next_C, isFar),
		};
	});
}

/** Share used in a piece. Source: the integral of an exponential. */
function shareOf({ from_h, to_h, first, last }: Piece): number {
	const hours = to_h - from_h;
	if (hours <= 0 || first === 0) return 0;
	const growth = Math.log(last / first);
	const mean = Math.abs(growth) > 1e-9 ? (last - first) / growth : first;
	return Number.isFinite(first) ? mean * hours : Number.POSITIVE_INFINITY;
}

/** Hours into a piece at which some share more is used, where it is used in it. */
function hoursFor(share: number, { from_h, to_h, first, last }: Piece): number {
	if (!Number.isFinite(first)) return 0;
	const growth = Number.isFinite(to_h) ? Math.log(last / first) / (to_h - from_h) : 0;
	return Math.abs(growth) > 1e-12 ? Math.log1p((share * growth) / first) / growth : share / first;
}

/**
 * Share of a process that is used up over stretches of time.
 * @param stretches one after the other
 * @returns from 0; at 1 it is over
 * @throws RangeError for no points, or for two at one temperature
 */
export const usedUp = (clock: ProcessClock, stretches: readonly Stretch[]): number =>
	stretches.flatMap(stretch => piecesOf(clock, stretch)).reduce((sum, piece) => sum + shareOf(piece), 0);

/**
 * When a process is over.
 * @param stretches one after the other
 * @returns hours on the same count as the stretches; Infinity: not within them
 * @throws RangeError as `usedUp`
 */
export function overAt_h(clock: ProcessClock, stretches: readonly Stretch[]): number {
	let used = 0;
	for (const piece of stretches.flatMap(stretch => piecesOf(clock, stretch))) {
		const share = shareOf(piece);
		if (share > 0 && used + share >= 1) return piece.from_h + Math.max(0, hoursFor(1 - used, piece));
		used += share;
	}
	return Number.POSITIVE_INFINITY;
}

/** One temperature from 0 h on, for good. */
export const steady = (temp_C: number): Stretch[] => [
	{ from_h: 0, to_h: Number.POSITIVE_INFINITY, from_C: temp_C, to_C: temp_C },
];

/** Stretches held one after the other, each so many hours at its temperature, from 0 h on. */
export function held(spells: readonly { hours: number; C: number }[]): Stretch[] {
	let from_h = 0;
	return spells.map(({ hours, C }) => {
		const to_h = from_h + positive('a time', hours, 'h');
		const stretch = { from_h, to_h, from_C: C, to_C: C };
		from_h = to_h;
		return stretch;
	});
}
