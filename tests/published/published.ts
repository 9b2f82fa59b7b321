import { expect, test } from 'vitest';

/** A value somebody else has published, how far off a rounded one may be, and what this program makes of it. */
export type Published = { of: string; value: number; off: number; source: string; here: () => number };

/** One test for each value, with its source in its name. */
export function holds(values: readonly Published[]): void {
	test.each(values)('$of: $value ($source)', ({ value, off, here }) => {
		expect(Math.abs(here() - value)).toBeLessThanOrEqual(off);
	});
}

/** °F to °C and back, written out here so that the checks do not lean on what they check. */
export const C = (F: number): number => ((F - 32) * 5) / 9;
export const F = (celsius: number): number => (celsius * 9) / 5 + 32;
