import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type RecoatRow, recoatWindows } from '../../src/trade/recoat.ts';
import { highestHeld, timeAt_h } from '../../src/trade/time.ts';

const points = [
	{ at_C: 15, hours: 96 },
	{ at_C: 20, hours: 48 },
	{ at_C: 30, hours: 20 },
];
const factors = fc.double({ min: 1.1, max: 4, noNaN: true });

describe('a time at a temperature', () => {
	test('is the data sheet at its own points', () => {
		for (const { at_C, hours } of points) expect(timeAt_h(points, at_C, 2)).toBeCloseTo(hours, 9);
	});

	test('is log-linear between two, whatever the factor', () => {
		expect(timeAt_h(points, 25, 2)).toBeCloseTo(Math.sqrt(48 * 20), 9);
		expect(timeAt_h(points, 25, 3)).toBe(timeAt_h(points, 25, 2));
	});

	test('goes by the factor beyond', () => {
		expect(timeAt_h(points, 40, 2)).toBeCloseTo(10, 9);
		expect(timeAt_h(points, 5, 3)).toBeCloseTo(288, 9);
	});

	test('falls as it gets warmer', () => {
		const temps = fc.double({ min: -5, max: 50, noNaN: true });
		fc.assert(
			fc.property(temps, temps, factors, (one, other, factor) => {
				const [cool, warm] = [Math.min(one, other), Math.max(one, other)];
				expect(timeAt_h(points, warm, factor)).toBeLessThanOrEqual(
					timeAt_h(points, cool, factor) * (1 + 1e-12),
				);
			}),
		);
	});

	test('goes there and back', () => {
		fc.assert(
			fc.property(fc.double({ min: 0, max: 20, noNaN: true }), factors, (by, factor) => {
				const there = timeAt_h([{ at_C: 20, hours: 3 }], 20 + by, factor);
				expect(timeAt_h([{ at_C: 20 + by, hours: there }], 20, factor)).toBeCloseTo(3, 9);
			}),
		);
	});

	test('is not guessed more than 20 K away: the message says the range', () => {
		expect(() => timeAt_h(points, 50.1, 2)).toThrow(RangeError);
		expect(() => timeAt_h(points, 50.1, 2)).toThrow('from 10 °C (50 °F) to 50 °C (122 °F), not for 50.1 °C');
		expect(timeAt_h(points, 50, 2)).toBeCloseTo(5, 9);
	});

	test.each([
		[() => timeAt_h([], 20, 2), 'at least one'],
		[
			() =>
				timeAt_h(
					[
						{ at_C: 20, hours: 1 },
						{ at_C: 20, hours: 2 },
					],
					20,
					2,
				),
			'leave one out',
		],
		[() => timeAt_h([{ at_C: 20, hours: 1 }], 25, 5), 'factor per 10 °C must be 1 to 4'],
		[() => timeAt_h([{ at_C: 20, hours: 0 }], 25, 2), 'a time must be more than 0 h'],
	])('what makes no sense is refused: %#', (call, says) => {
		expect(call).toThrow(says);
	});
});

describe('highest surface temperature held', () => {
	const hour = 3_600_000;
	const readings = [
		{ at_ms: 0, C: 30 },
		{ at_ms: 2 * hour, C: 18 },
		{ at_ms: 6 * hour, C: 24 },
		{ at_ms: 20 * hour, C: 33 },
	];

	test('is the highest reading inside the interval', () => {
		expect(highestHeld(readings, 3 * hour, 10 * hour)).toBe(24);
	});

	test('counts the reading in force at the start, not those before it or after the end', () => {
		expect(highestHeld(readings, 3 * hour, 5 * hour)).toBe(18);
		expect(highestHeld(readings, hour, 5 * hour)).toBe(30);
	});

	test('does not depend on the order, and is nothing without a reading', () => {
		expect(highestHeld([...readings].reverse(), 3 * hour, 10 * hour)).toBe(24);
		expect(highestHeld(readings, -2 * hour, -hour)).toBeNull();
	});
});

describe('recoat windows', () => {
	const row = (from_C: number, to_C: number, open: number, shut: number): RecoatRow => ({
		from_C,
		to_C,
		windows: [
			{ does: 'wait', from_h: 0, until_h: open },
			{ does: 'spray', from_h: open, until_h: shut },
			{ does: 'sand', from_h: shut, until_h: null },
		],
	});
	const rows = [row(15, 20, 8, 48), row(22, 27, 4, 24)];
	const hours = (windows: { from_h: number }[]) => windows.map(({ from_h }) => from_h);

	test('are the row that holds the temperature', () => {
		expect(recoatWindows(rows, 18, 2)).toEqual(rows[0]?.windows);
	});

	test('are log-linear in the gap between two rows', () => {
		const [, open, shut] = hours(recoatWindows(rows, 21, 2));
		expect(open).toBeCloseTo(Math.sqrt(8 * 4), 9);
		expect(shut).toBeCloseTo(Math.sqrt(48 * 24), 9);
	});

	test('outside, a wait is longer when colder and an end sooner when warmer, by the factor; refused far outside', () => {
		expect(hours(recoatWindows(rows, 37, 2))).toEqual([0, 4, 12]);
		expect(hours(recoatWindows(rows, 5, 2))).toEqual([0, 16, 48]);
		expect(() => recoatWindows(rows, 48, 2)).toThrow('from 7 °C');
		expect(() => recoatWindows([], 20, 2)).toThrow('at least one row');
	});

	test('where what opens would come after what has closed, the wait goes on until it, and the window between is gone', () => {
		expect(recoatWindows([row(15, 20, 6, 8)], 40, 2)).toEqual([
			{ does: 'wait', from_h: 0, until_h: 6 },
			{ does: 'sand', from_h: 6, until_h: null },
		]);
		expect(recoatWindows([row(15, 20, 6, 8)], 5, 2)).toEqual([
			{ does: 'wait', from_h: 0, until_h: 12 },
			{ does: 'sand', from_h: 12, until_h: null },
		]);
	});

	test('a lifting zone begins no later and ends no sooner than the row says', () => {
		const lifting: RecoatRow = {
			from_C: 15,
			to_C: 25,
			windows: [
				{ does: 'wait', from_h: 0, until_h: 0.5 },
				{ does: 'spray', from_h: 0.5, until_h: 4 },
				{ does: 'wait', from_h: 4, until_h: 10 },
				{ does: 'spray', from_h: 10, until_h: 24 },
				{ does: 'sand', from_h: 24, until_h: null },
			],
		};
		expect(hours(recoatWindows([lifting], 35, 2))).toEqual([0, 0.5, 2, 10, 12]);
		expect(hours(recoatWindows([lifting], 45, 2))).toEqual([0, 0.5, 1, 10]);
		expect(hours(recoatWindows([lifting], 5, 2))).toEqual([0, 1, 4, 20, 24]);
	});

	test('beyond the rows nothing is let on at an hour at which the nearest row does not', () => {
		const does = (windows: (typeof rows)[0]['windows'], hour: number) =>
			windows.find(({ from_h, until_h }) => hour >= from_h && hour < (until_h ?? Number.POSITIVE_INFINITY))
				?.does;
		const outside = fc.oneof(
			fc.double({ min: -4, max: 14.9, noNaN: true }),
			fc.double({ min: 27.1, max: 46, noNaN: true }),
		);
		fc.assert(
			fc.property(outside, factors, fc.double({ min: 0, max: 200, noNaN: true }), (temp, factor, hour) => {
				const nearest = temp < 20 ? rows[0] : rows[1];
				const spray = does(recoatWindows(rows, temp, factor), hour) === 'spray';
				expect(!spray || does(nearest?.windows ?? [], hour) === 'spray').toBe(true);
			}),
		);
	});

	test('where two rows meet, the more careful of them counts', () => {
		const meeting = [row(15, 20, 8, 48), row(20, 27, 4, 24)];
		expect(recoatWindows(meeting, 20, 2)).toEqual([
			{ does: 'wait', from_h: 0, until_h: 8 },
			{ does: 'spray', from_h: 8, until_h: 24 },
			{ does: 'sand', from_h: 24, until_h: null },
		]);
	});

	test('a lifting zone of one row is kept in the gap', () => {
		const lifting: RecoatRow = {
			from_C: 22,
			to_C: 27,
			windows: [
				{ does: 'spray', from_h: 0, until_h: 2 },
				{ does: 'wait', from_h: 2, until_h: 30 },
				{ does: 'scuff', from_h: 30, until_h: null },
			],
		};
		const doing = recoatWindows([row(15, 20, 8, 48), lifting], 21, 2).map(({ does, until_h }) => [
			does,
			until_h,
		]);
		expect(doing).toEqual([
			['wait', 30],
			['scuff', 48],
			['sand', null],
		]);
	});

	test('follow one another without a gap at any temperature', () => {
		fc.assert(
			fc.property(fc.double({ min: -4, max: 46, noNaN: true }), factors, (temp, factor) => {
				const windows = recoatWindows(rows, temp, factor);
				expect(windows[0]?.from_h).toBe(0);
				expect(windows.at(-1)?.until_h).toBeNull();
				for (const [index, { until_h }] of windows.slice(0, -1).entries())
					expect(until_h).toBe(windows[index + 1]?.from_h);
			}),
		);
	});
});
