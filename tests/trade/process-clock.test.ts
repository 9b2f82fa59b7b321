import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plausible, type Reading } from '../../src/trade/plausible.ts';
import {
	type ClockKind,
	held,
	lasts_h,
	overAt_h,
	type ProcessClock,
	type Stretch,
	steady,
	usedUp,
} from '../../src/trade/process-clock.ts';
import { timeAt_h } from '../../src/trade/time.ts';

const C = (F: number): number => ((F - 32) * 5) / 9;

/** Source: the points of an epoxy's data sheet, pot life and least recoat time (second-hand). */
const life: ProcessClock = {
	kind: 'end',
	points: [
		{ at_C: 7, hours: 48 },
		{ at_C: 20, hours: 24 },
		{ at_C: 30, hours: 8 },
	],
};
const opens: ProcessClock = {
	kind: 'beginning',
	points: [
		{ at_C: 7, hours: 6 },
		{ at_C: 20, hours: 4 },
		{ at_C: 30, hours: 3 },
	],
};
const close = (found: number, wanted: number, digits = 2) => expect(found).toBeCloseTo(wanted, digits);

describe('check values, worked out by hand from the points', () => {
	test.each([
		[13.5, 33.94],
		[25, 13.86],
		[35, 4.62],
		[0, 48],
	])('pot life at %d °C is %d h', (temp_C, hours) => close(lasts_h(life, temp_C), hours));

	test('6 h at 20 °C are a quarter of it, and 6 h at 30 °C the rest', () => {
		const course = [...held([{ hours: 6, C: 20 }]), { from_h: 6, to_h: 20, from_C: 30, to_C: 30 }];
		close(overAt_h(life, course), 12, 9);
	});

	/** Source: the integral by hand: 8 h ÷ 24 h × (3 − 1) ÷ ln 3. */
	test('20 to 30 °C evenly in 8 h use 0.6068 of it', () => {
		close(usedUp(life, [{ from_h: 0, to_h: 8, from_C: 20, to_C: 30 }]), 0.6068, 4);
	});

	test.each([
		[25, 3.46],
		[35, 3],
		[0, 9.75],
	])('recoat at %d °C opens after %d h', (temp_C, hours) => close(lasts_h(opens, temp_C), hours));

	test('2 h at 20 °C and then 7 °C open after 5 h', () => {
		const course = [...held([{ hours: 2, C: 20 }]), { from_h: 2, to_h: 20, from_C: 7, to_C: 7 }];
		close(overAt_h(opens, course), 5, 9);
	});

	test('20 °C read once at the end of the coat opens at 4.23 h, not at 4: it may have cooled since', () => {
		close(overAt_h(opens, plausible('beginning', [{ at_h: 0, C: 20 }], 20)), 4.23);
	});

	test('a warm reading does not outlive the cold one after it', () => {
		const flash: ProcessClock = { kind: 'beginning', points: [{ at_C: C(70), hours: 0.75 }] };
		const read: Reading[] = [
			{ at_h: 0, C: C(88) },
			{ at_h: 33 / 60, C: C(60) },
		];
		close(overAt_h(flash, plausible('beginning', read, 21)) * 60, 66.1, 1);
		const known = [
			...held([{ hours: 33 / 60, C: C(88) }]),
			{ from_h: 33 / 60, to_h: 5, from_C: C(60), to_C: C(60) },
		];
		close(overAt_h(flash, known) * 60, 50.6, 1);
	});

	/** Source: the factor of three that pot lives have been seen to fall by; two is UFGS 09971 ¶3.7.1.3. */
	test('2 h at 70 °F are 40 min at 88 °F by the careful factor, and 60 by the published one', () => {
		const point = { at_C: C(70), hours: 2 };
		close(lasts_h({ kind: 'end', points: [point] }, C(88)) * 60, 40, 9);
		close(timeAt_h([point], C(88), 2) * 60, 60, 9);
	});

	/** Source: rows of UFGS 09971 ¶3.7.1.4: 8 to 48 h at 60 to 70 °F, 3 to 24 h at 91 to 100 °F. */
	test('2 h at 62 °F and then 95 °F open at 4.25 h, and close by the integral at 25', () => {
		const row = (cool: number, warm: number) => [
			{ at_C: C(60), hours: cool },
			{ at_C: C(70), hours: cool },
			{ at_C: C(91), hours: warm },
			{ at_C: C(100), hours: warm },
		];
		const known: Stretch[] = [
			...held([{ hours: 2, C: C(62) }]),
			{ from_h: 2, to_h: 90, from_C: C(95), to_C: C(95) },
		];
		close(overAt_h({ kind: 'beginning', points: row(8, 3) }, known), 4.25, 9);
		close(overAt_h({ kind: 'end', points: row(48, 24) }, known), 25, 9);
	});
});

/** Points of a process that warmth shortens. */
const someClock = (kind: ClockKind) =>
	fc
		.array(
			fc.record({
				step_K: fc.double({ min: 1, max: 12, noNaN: true }),
				shrinks: fc.double({ min: 1, max: 4, noNaN: true }),
			}),
			{
				minLength: 1,
				maxLength: 4,
			},
		)
		.map((steps): ProcessClock => {
			let [at_C, hours] = [5, 60];
			const points = steps.map(({ step_K, shrinks }) => {
				at_C += step_K;
				hours /= shrinks;
				return { at_C, hours };
			});
			return { kind, points };
		});
const anyClock = fc.oneof(someClock('beginning'), someClock('end'));
const temperature = fc.double({ min: 4, max: 20, noNaN: true });
const someReadings = fc
	.array(fc.record({ after_h: fc.double({ min: 0, max: 4, noNaN: true }), C: temperature }), { maxLength: 5 })
	.map(steps => {
		let at_h = -1;
		return steps.map(({ after_h, C }): Reading => {
			at_h += after_h;
			return { at_h, C };
		});
	});

describe('for any points and readings', () => {
	test('at a steady temperature a process is over when its time there is', () => {
		fc.assert(
			fc.property(anyClock, temperature, (clock, temp_C) => {
				const hours = lasts_h(clock, temp_C);
				expect(overAt_h(clock, steady(temp_C)) / hours).toBeCloseTo(1, 9);
			}),
		);
	});

	test('a point of the sheet, read at its start and again at its end, is the time of the sheet', () => {
		fc.assert(
			fc.property(anyClock, clock => {
				for (const { at_C, hours } of clock.points) {
					const read = [0, hours].map(at_h => ({ at_h, C: at_C }));
					expect(overAt_h(clock, plausible(clock.kind, read, 0)) / hours).toBeCloseTo(1, 9);
				}
			}),
		);
	});

	test('the share used at the end found is 1, and it never falls', () => {
		fc.assert(
			fc.property(
				anyClock,
				someReadings,
				fc.double({ min: 0, max: 30, noNaN: true }),
				(clock, read, at_h) => {
					const course = plausible(clock.kind, read, 12);
					const until = (end_h: number) =>
						course.flatMap((one): Stretch[] => {
							const to_h = Math.min(one.to_h, end_h);
							const share = one.from_C === one.to_C ? 0 : (to_h - one.from_h) / (one.to_h - one.from_h);
							return to_h > one.from_h
								? [{ ...one, to_h, to_C: one.from_C + share * (one.to_C - one.from_C) }]
								: [];
						});
					expect(usedUp(clock, until(at_h))).toBeLessThanOrEqual(usedUp(clock, until(at_h + 1)) + 1e-12);
					expect(usedUp(clock, until(overAt_h(clock, course)))).toBeCloseTo(1, 6);
				},
			),
		);
	});

	test('a colder reading opens nothing sooner, a warmer one lets nothing last longer', () => {
		fc.assert(
			fc.property(
				anyClock,
				someReadings.filter(read => read.length > 0),
				fc.nat(4),
				fc.double({ min: 0, max: 8, noNaN: true }),
				(clock, read, which, by_K) => {
					const sign = clock.kind === 'end' ? 1 : -1;
					const changed = read.map((one, nth) =>
						nth === which % read.length ? { ...one, C: one.C + sign * by_K } : one,
					);
					const over = (readings: Reading[]) => overAt_h(clock, plausible(clock.kind, readings, 12));
					const [before, after] = [over(read), over(changed)];
					if (clock.kind === 'end') expect(after).toBeLessThanOrEqual(before * (1 + 1e-9));
					else expect(after).toBeGreaterThanOrEqual(before * (1 - 1e-9));
				},
			),
		);
	});

	test('no warmth beyond the points shortens a beginning, and no cold lengthens an end', () => {
		fc.assert(
			fc.property(anyClock, fc.double({ min: 0, max: 20, noNaN: true }), (clock, by_K) => {
				const hours = clock.points.map(one => one.hours);
				const temps = clock.points.map(one => one.at_C);
				const [least_h, most_h] = [Math.min(...hours), Math.max(...hours)];
				expect(lasts_h({ ...clock, kind: 'beginning' }, Math.max(...temps) + by_K)).toBeCloseTo(least_h, 9);
				expect(lasts_h({ ...clock, kind: 'end' }, Math.min(...temps) - by_K)).toBeCloseTo(most_h, 9);
			}),
		);
	});

	test('a clock stands still between one reading and the next only where no time is guessed', () => {
		const far = [{ from_h: 0, to_h: 100, from_C: -40, to_C: -40 }];
		expect(usedUp(opens, far)).toBe(0);
		expect(overAt_h(opens, far)).toBe(Number.POSITIVE_INFINITY);
		expect(
			overAt_h(life, [...held([{ hours: 1, C: 20 }]), { from_h: 1, to_h: 2, from_C: 60, to_C: 60 }]),
		).toBe(1);
		expect(() => lasts_h(opens, -13.1)).toThrow('not for');
	});

	test('nothing read: the shop, five kelvin the careful way', () => {
		expect(overAt_h(opens, plausible('beginning', [], 20))).toBeCloseTo(lasts_h(opens, 15), 9);
		expect(overAt_h(life, plausible('end', [], 20))).toBeCloseTo(lasts_h(life, 25), 9);
	});
});
