import { takenBack_s } from '../trade/air.ts';
import { atMost_s, type Instant } from './instant.ts';

/** Of the readings of the air: which of them count. */

/** A reading of the air as it counts for windows and pot life; °C. */
export type AirReading = { at: Instant; airC: number; surfaceC: number };

/**
 * The readings with one more: it replaces the last where that was taken back, nothing having been sprayed under it.
 * @param sprayed a pass began since the last of them
 */
export function withReading(
	readings: readonly AirReading[],
	reading: AirReading,
	sprayed: boolean,
): AirReading[] {
	const last = readings.at(-1);
	const isTakenBack = last !== undefined && !sprayed && atMost_s(last.at, reading.at) <= takenBack_s;
	return [...(isTakenBack ? readings.slice(0, -1) : readings), reading];
}
