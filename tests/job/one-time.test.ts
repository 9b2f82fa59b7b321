import { describe, expect, test } from 'vitest';
import type { Material } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';
import { flashAt_h, livesAt_h, livesOrNot_h } from '../../src/job/process-clocks.ts';
import { altered } from './altered.ts';

/**
 * One time and the temperature that it is given for are one point: an end is never longer in the cold, a beginning never
 * shorter in the warmth. This project's own choice, as for a list of points. Where the sheet writes no factor a beginning takes
 * twice as long 10 °C colder (UFGS 09971 ¶3.7.1.3), and an end comes in a third of its time 10 °C warmer: pot lives that fell by 3
 * have been measured, second-hand.
 */

/** The example's primer, its times for 20 °C, with or without a factor of its own. */
function primer(factor?: number, at = '20 °C'): Material {
	const text = altered('pot life: 4 h at 70 °F', `pot life: 2 h at ${at}`)
		.replace('flash: { from: 45 min, to: 2 h, at: 70 °F', 'flash: { from: 45 min, to: 2 h, at: 20 °C')
		.replace('    grit: 400\n', factor ? `    grit: 400\n    time factor: ${factor}\n` : '    grit: 400\n');
	const loaded = parseJob(text, 'cart.yaml');
	const found = loaded.ok && loaded.job.materials.primer;
	if (!found) throw new Error('the example has a primer');
	return found;
}

describe('a pot life of 2 h at 20 °C', () => {
	test.each([
		['colder by a degree', 19, undefined, 120],
		['at its own temperature', 20, undefined, 120],
		['a good deal colder', 5, undefined, 120],
		['warmer', 30, undefined, 40],
		['warmer, by the factor of the sheet', 30, 2.5, 48],
		['warmer, by a factor of two where the sheet writes it', 30, 2, 60],
		['colder, with a factor of the sheet', 10, 2.5, 120],
	])('%s', (_what, air_C, factor, minutes) => {
		expect(livesAt_h(primer(factor), air_C) * 60).toBeCloseTo(minutes, 6);
		expect(livesOrNot_h(primer(factor), air_C) * 60).toBeCloseTo(minutes, 6);
	});

	test('of 2 h at 70 °F is 40 min at 88 °F', () => {
		expect(livesAt_h(primer(undefined, '70 °F'), (56 * 5) / 9) * 60).toBeCloseTo(40, 9);
	});

	test('is not known more than 20 °C off, warmer or colder', () => {
		expect(() => livesAt_h(primer(), 40.1)).toThrow('not for 40.1 °C');
		expect(() => livesAt_h(primer(), -0.1)).toThrow('not for −0.1 °C');
		expect([-0.1, 40.1].map(air_C => livesOrNot_h(primer(), air_C))).toEqual([0, 0]);
	});
});

describe('a flash of 45 min to 2 h at 20 °C', () => {
	test.each([
		['colder', 10, undefined, 90, 120],
		['at its own temperature', 20, undefined, 45, 120],
		['warmer', 30, undefined, 45, 40],
		['colder, by the factor of the sheet', 10, 3, 135, 120],
		['warmer, by the factor of the sheet', 30, 1.5, 45, 80],
	])('%s', (_what, surface_C, factor, least_min, most_min) => {
		const { least_h, most_h } = flashAt_h(primer(factor), { kind: 'full' }, surface_C);
		expect(least_h * 60).toBeCloseTo(least_min, 6);
		expect((most_h ?? 0) * 60).toBeCloseTo(most_min, 6);
	});

	test('without an end has none', () => {
		const open = { ...primer(), flash: { ...primer().flash, max_min: null } };
		expect(flashAt_h(open, { kind: 'full' }, 30)).toEqual({ least_h: 0.75, most_h: null });
	});
});
