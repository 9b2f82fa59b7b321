import { describe, expect, test } from 'vitest';
import { type RecoatRow, recoatWindows } from '../../src/trade/recoat.ts';
import { highestHeld, timeAt_h } from '../../src/trade/time.ts';
import { C, holds, type Published } from './published.ts';

const ufgs = 'UFGS 09971 ¶3.7.1.3';

describe('pot life', () => {
	const rows: [string, number, number, number, number, string][] = [
		['epoxy', 4, 21, 21, 4, ufgs],
		['epoxy', 4, 21, 31, 2, ufgs],
		['epoxy', 4, 21, 11, 8, ufgs],
		['polyurethane', 2, 21, 21, 2, ufgs],
		['polyurethane', 2, 21, 31, 1, ufgs],
		['polyurethane', 2, 21, 11, 4, ufgs],
		['epoxy', 4, 23, 13, 8, "coating supplier's article on pot life"],
		['epoxy', 4, 23, 33, 2, "coating supplier's article on pot life"],
		['epoxy', 4, 23, 43, 1, "coating supplier's article on pot life"],
		['epoxy floor', 1, C(78), C(60), 2, 'temperature guide for epoxy floors: doubled 18 °F lower'],
	];
	holds(
		rows.map(
			([what, hours, at_C, temp, value, source]): Published => ({
				of: `${what} of ${hours} h at ${at_C.toFixed(0)} °C, at ${temp.toFixed(0)} °C, h`,
				value,
				off: 1e-9,
				source,
				here: () => timeAt_h([{ at_C, hours }], temp, 2),
			}),
		),
	);
});

describe('recoat windows, polyurethane over polyurethane (UFGS 09971 ¶3.7.1.4)', () => {
	const bands: [number, number, number, number][] = [
		[60, 70, 8, 48],
		[71, 80, 6, 48],
		[81, 90, 4, 36],
		[91, 100, 3, 24],
		[101, 110, 2, 12],
		[111, 120, 1, 2],
	];
	const rows: RecoatRow[] = bands.map(([from, to, open, shut]) => ({
		from_C: C(from),
		to_C: C(to),
		windows: [
			{ does: 'wait', from_h: 0, until_h: open },
			{ does: 'spray', from_h: open, until_h: shut },
			{ does: 'sand', from_h: shut, until_h: null },
		],
	}));
	const window = (surface_C: number) =>
		recoatWindows(rows, surface_C, 2).find(({ does }) => does === 'spray');

	test.each(bands)('%i–%i °F: %i to %i h', (from, to, open, shut) => {
		for (const F of [from, (from + to) / 2, to])
			expect(window(C(F))).toMatchObject({ from_h: open, until_h: shut });
	});

	test('between two bands the hours lie between theirs', () => {
		const between = window(C(80.5));
		expect(between?.from_h).toBeGreaterThan(4);
		expect(between?.from_h).toBeLessThan(6);
	});

	test('the highest temperature held chooses the band: one warm hour in a cool day counts', () => {
		const hour = 3_600_000;
		const held = highestHeld(
			[
				{ at_ms: 0, C: C(65) },
				{ at_ms: 4 * hour, C: C(85) },
				{ at_ms: 5 * hour, C: C(65) },
			],
			hour,
			8 * hour,
		);
		expect(window(held ?? 0)).toMatchObject({ from_h: 4, until_h: 36 });
	});

	test('three full coats in a day at 65 °F are not feasible by it', () => {
		expect(2 * (window(C(65))?.from_h ?? 0)).toBeGreaterThan(12);
	});
});

describe('recoat windows, epoxy under polyurethane at 75 °F (TO 1-1-8 p. 96)', () => {
	const rows: RecoatRow[] = [
		{
			from_C: C(75),
			to_C: C(75),
			windows: [
				{ does: 'wait', from_h: 0, until_h: 5 },
				{ does: 'spray', from_h: 5, until_h: 8 },
				{ does: 'scuff', from_h: 8, until_h: null },
			],
		},
	];
	test('are the same at 75 °F; when warmer the end comes earlier by the factor, the beginning does not', () => {
		expect(recoatWindows(rows, C(75), 2)).toEqual(rows[0]?.windows);
		const warm = recoatWindows(rows, C(79.5), 2).map(({ from_h }) => Number(from_h.toFixed(3)));
		expect(warm).toEqual([0, 5, 6.727]);
	});
});

describe('sanding primer (common practice, no source)', () => {
	const sandAfter = [{ at_C: C(65), hours: 48 }];
	const days = (F: number) => timeAt_h(sandAfter, C(F), 2) / 24;

	test('is due after 2 days at 65 °F', () => expect(days(65)).toBeCloseTo(2, 9));
	test('after about 1 day when warm', () => expect(days(83)).toBeCloseTo(1, 2));
	test('after 3 to 4 days when cool', () => {
		expect(days(54)).toBeGreaterThan(3);
		expect(days(48)).toBeLessThan(4);
	});
});
