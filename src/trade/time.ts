import { positive, within } from './range.ts';
import { format } from './shown.ts';

/** Hours at a temperature, as a data sheet gives them. */
export type TimeAt = { at_C: number; hours: number };

/** Past this many kelvin from the data sheet's nearest figure no time is guessed. This project's own choice. */
export const guessLimit_K = 20;

/**
 * A time carried from the temperature it is given for to another, by a factor per 10 °C.
 * @param hours or minutes at `at_C`
 * @param factorPer10C 1 to 4
 * @returns in the unit given
 * @throws RangeError more than 20 K away, or for a factor out of range
 */
export function carriedTo(hours: number, at_C: number, temp_C: number, factorPer10C: number): number {
	const factor = within('factor per 10 °C', factorPer10C, [1, 4]);
	if (Math.abs(temp_C - at_C) > guessLimit_K + 1e-9)
		throw new RangeError(
			`the data sheet's nearest figure is for ${said(at_C)}: times are guessed from ` +
				`${said(at_C - guessLimit_K)} to ${said(at_C + guessLimit_K)}, not for ${said(temp_C)}`,
		);
	return hours * factor ** ((at_C - temp_C) / 10);
}

const said = (temp_C: number): string =>
	`${format(temp_C, 'temperature', 'metric')} (${format(temp_C, 'temperature', 'us')})`;

/** Between two points on a straight line of log(hours) over temperature. */
function between(cool: TimeAt, warm: TimeAt, temp_C: number): number {
	const share = (temp_C - cool.at_C) / (warm.at_C - cool.at_C);
	return cool.hours * (warm.hours / cool.hours) ** share;
}

/**
 * A time at a temperature: log-linear between two of a data sheet's points, the factor per 10 °C beyond them.
 * @param points hours at °C, at least one, no two at one temperature
 * @param temp_C up to 20 K outside the points
 * @param factorPer10C 1 to 4; measured ones stray from about 1.7 to 2.7
 * @returns hours
 * @throws RangeError beyond the limit, for no points, or for two at one temperature
 * Source: halves per +10 °C, doubles per −10 °C: UFGS 09971 ¶3.7.1.3.
 */
export function timeAt_h(points: readonly TimeAt[], temp_C: number, factorPer10C: number): number {
	const sorted = [...points].sort((one, other) => one.at_C - other.at_C);
	for (const [index, point] of sorted.entries()) {
		positive('a time', point.hours, 'h');
		if (sorted[index - 1]?.at_C === point.at_C)
			throw new RangeError(`two times are given for ${said(point.at_C)}: leave one out`);
	}
	const coolest = sorted[0];
	const warmest = sorted.at(-1);
	if (!coolest || !warmest)
		throw new RangeError('no time is given at any temperature: at least one is needed');
	if (temp_C <= coolest.at_C) return carriedTo(coolest.hours, coolest.at_C, temp_C, factorPer10C);
	if (temp_C >= warmest.at_C) return carriedTo(warmest.hours, warmest.at_C, temp_C, factorPer10C);
	const above = sorted.findIndex(point => point.at_C > temp_C);
	return between(sorted[above - 1] ?? coolest, sorted[above] ?? warmest, temp_C);
}

export type SurfaceReading = { at_ms: number; C: number };

/**
 * Highest surface temperature held an hour or more: readings are hours apart, so the highest of them in the
 * interval, with the one in force at its start, is taken to have been held.
 * @param readings in any order
 * @returns °C, or null where nothing was read before the interval's end
 */
export function highestHeld(
	readings: readonly SurfaceReading[],
	from_ms: number,
	to_ms: number,
): number | null {
	const counted = heldIn(readings, from_ms, to_ms);
	return counted.length === 0 ? null : Math.max(...counted);
}

/** The lowest of them, in the same interval: what a coat may rest on that hardens. */
export function coldestHeld(
	readings: readonly SurfaceReading[],
	from_ms: number,
	to_ms: number,
): number | null {
	const counted = heldIn(readings, from_ms, to_ms);
	return counted.length === 0 ? null : Math.min(...counted);
}

/** What was read in an interval, with the reading in force at its start, °C. */
function heldIn(readings: readonly SurfaceReading[], from_ms: number, to_ms: number): number[] {
	const before = readings.filter(reading => reading.at_ms <= from_ms);
	const start = Math.max(...before.map(reading => reading.at_ms));
	return readings
		.filter(({ at_ms }) => at_ms === start || (at_ms > from_ms && at_ms <= to_ms))
		.map(({ C }) => C);
}
