import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plausible } from '../../src/trade/plausible.ts';
import { held as spells } from '../../src/trade/process-clock.ts';
import { type RecoatRow, type RecoatWindow, recoatWindows } from '../../src/trade/recoat.ts';
import { type Held, heldAt, windowsHeld } from '../../src/trade/recoat-clocks.ts';

const C = (F: number) => (F - 32) / 1.8;
const row = (from_C: number, to_C: number, open: number, shut: number): RecoatRow => ({
	from_C,
	to_C,
	windows: [
		{ does: 'wait', from_h: 0, until_h: open },
		{ does: 'spray', from_h: open, until_h: shut },
		{ does: 'sand', from_h: shut, until_h: null },
	],
});
/** Polyurethane over polyurethane, °F and hours. Source: UFGS 09971 ¶3.7.1.4. */
const ufgs = [
	[60, 70, 8, 48],
	[71, 80, 6, 48],
	[81, 90, 4, 36],
	[91, 100, 3, 24],
	[101, 110, 2, 12],
	[111, 120, 1, 2],
] as const;
const ufgsRows = ufgs.map(([low, high, open, shut]) => row(C(low), C(high), open, shut));

const opens = (windows: RecoatWindow[]) => windows.find(({ does }) => does === 'spray')?.from_h;
const shuts = (windows: RecoatWindow[]) => windows.find(({ does }) => does === 'sand')?.from_h;
/** When spraying ends, by whatever comes then. */
const shutsBy = (windows: RecoatWindow[]) => windows.find(({ does }) => does === 'spray')?.until_h ?? 0;
/** Spells one after the other, known to have been held so, the last for good. */
const known = (...given: [number, number][]): Held => {
	const course = spells(given.map(([hours, at]) => ({ hours, C: at })));
	return { coldest: course, warmest: course, took_h: 0, highest_C: Math.max(...given.map(([, at]) => at)) };
};
/** One reading at the end of the coat and none since. */
const readOnce = (at: number): Held => ({
	coldest: plausible('beginning', [{ at_h: 0, C: at }], at),
	warmest: plausible('end', [{ at_h: 0, C: at }], at),
	took_h: 0,
	highest_C: at,
});

describe('recoat windows by what was read', () => {
	test.each(ufgs)('held at %i to %i °F they are that row: %i to %i h', (low, high, open, shut) => {
		for (const F of [low, (low + high) / 2, high]) {
			const windows = windowsHeld(ufgsRows, heldAt(C(F)));
			expect(opens(windows)).toBeCloseTo(open, 9);
			expect(shuts(windows)).toBeCloseTo(shut, 9);
		}
	});

	test('62 °F for 2 h, then 95 °F: what opens counts the cool hours, what closes is the row of the highest', () => {
		// A quarter of 8 h, then three quarters of 3 h; 24 h are the row, 25 h would be the clock alone.
		const windows = windowsHeld(ufgsRows, known([2, C(62)], [100, C(95)]));
		expect(opens(windows)).toBeCloseTo(4.25, 9);
		expect(shuts(windows)).toBeCloseTo(24, 9);
	});

	test('a warm hour alone opens nothing early', () => {
		const windows = windowsHeld(ufgsRows, known([4, C(65)], [1, C(95)], [100, C(65)]));
		expect(opens(windows)).toBeCloseTo(5 + (1 - 4 / 8 - 1 / 3) * 8, 9);
		expect(opens(recoatWindows(ufgsRows, C(95), 2))).toBe(3);
	});

	test('an epoxy given at three temperatures, least 6, 4, 3 h', () => {
		// Points of an epoxy data sheet, 7, 20 and 30 °C; sums by hand.
		const rows = [row(7, 7, 6, 99), row(20, 20, 4, 98), row(30, 30, 3, 97)];
		const least = (held: Held) => opens(windowsHeld(rows, held)) ?? 0;
		expect(least(heldAt(25))).toBeCloseTo(3.46, 2);
		expect(least(heldAt(35))).toBeCloseTo(3, 9);
		expect(least(heldAt(0))).toBeCloseTo(9.75, 2);
		expect(least(known([2, 20], [100, 7]))).toBeCloseTo(5, 9);
		expect(least(readOnce(20))).toBeCloseTo(4.23, 2);
	});

	test('past its warmest row an end comes sooner by a third for 10 K, or by the factor that the sheet writes', () => {
		const rows = [row(15, 20, 8, 48), row(22, 27, 4, 24)];
		expect(shuts(windowsHeld(rows, heldAt(37)))).toBeCloseTo(8, 9);
		expect(shuts(windowsHeld(rows, heldAt(37), 2))).toBeCloseTo(12, 9);
		expect(opens(windowsHeld(rows, heldAt(37)))).toBeCloseTo(4, 9);
		expect(opens(windowsHeld(rows, heldAt(5)))).toBeCloseTo(16, 9);
		expect(shuts(windowsHeld(rows, heldAt(5)))).toBeCloseTo(48, 9);
		expect(() => windowsHeld(rows, heldAt(48))).toThrow('from 7 °C');
	});

	test('an end counts from the start of the coat', () => {
		const rows = [row(15, 20, 1, 4), row(22, 27, 1, 4)];
		const windows = windowsHeld(rows, { ...heldAt(18), took_h: 0.5 });
		expect(opens(windows)).toBeCloseTo(1, 9);
		expect(shuts(windows)).toBeCloseTo(3.5, 9);
	});

	test('where two rows meet, the more careful of them counts, and beside it each its own', () => {
		const rows = [row(15, 20, 8, 48), row(20, 27, 4, 24)];
		expect([opens, shuts].map(edge => edge(windowsHeld(rows, heldAt(20))))).toEqual([8, 24]);
		expect([opens, shuts].map(edge => edge(windowsHeld(rows, heldAt(20.1))))).toEqual([4, 24]);
		expect([opens, shuts].map(edge => edge(windowsHeld(rows, heldAt(19.9))))).toEqual([8, 48]);
	});

	test('rows that tell different windows: nothing is let on that one of the temperatures held does not let on', () => {
		const lifting: RecoatRow = {
			from_C: 22,
			to_C: 27,
			windows: [
				{ does: 'spray', from_h: 0, until_h: 2 },
				{ does: 'wait', from_h: 2, until_h: 30 },
				{ does: 'scuff', from_h: 30, until_h: null },
			],
		};
		const windows = windowsHeld([row(15, 20, 8, 48), lifting], known([1, 18], [100, 24]));
		expect(windows.map(({ does, until_h }) => [does, until_h])).toEqual([
			['wait', 30],
			['scuff', 48],
			['sand', null],
		]);
	});

	test('rows that tell different windows: what closes is counted from the start of the coat, what opens from its end', () => {
		const scuffed = (from_C: number, to_C: number, end_h: number): RecoatRow => ({
			from_C,
			to_C,
			windows: [
				{ does: 'wait', from_h: 0, until_h: 1 },
				{ does: 'spray', from_h: 1, until_h: end_h },
				{ does: 'scuff', from_h: end_h, until_h: null },
			],
		});
		const unlike = [scuffed(12, 21, 2), { ...scuffed(22, 32, 2), windows: row(22, 32, 1, 2).windows }];
		const windows = windowsHeld(unlike, { ...heldAt(18), took_h: 0.25 });
		expect(windows.map(({ does, until_h }) => [does, until_h])).toEqual([
			['wait', 1],
			['spray', 1.75],
			['scuff', null],
		]);
	});

	test('rows that tell different windows: above them what closes is carried on by 3 per 10 °C, as any end is', () => {
		const scuffed: RecoatRow = {
			from_C: 22,
			to_C: 32,
			windows: [
				{ does: 'wait', from_h: 0, until_h: 1 },
				{ does: 'spray', from_h: 1, until_h: 9 },
				{ does: 'scuff', from_h: 9, until_h: null },
			],
		};
		const windows = windowsHeld([row(12, 21, 1, 9), scuffed], heldAt(42));
		expect(windows.map(({ does }) => does)).toEqual(['wait', 'spray', 'scuff']);
		expect(shutsBy(windows)).toBeCloseTo(9 / 3, 6);
		expect(shutsBy(windowsHeld([row(12, 21, 1, 9), scuffed], heldAt(42), 2))).toBeCloseTo(9 / 2, 6);
	});

	test('a colder spell opens nothing sooner, a warmer one lets nothing last longer', () => {
		const spell = fc.tuple(
			fc.double({ min: 0.1, max: 10, noNaN: true }),
			fc.double({ min: 10, max: 50, noNaN: true }),
		);
		fc.assert(
			fc.property(
				fc.array(spell, { minLength: 1, maxLength: 5 }),
				fc.nat(4),
				fc.double({ min: 0, max: 6, noNaN: true }),
				(given, at, by_K) => {
					const course = [...given, [200, 30] as [number, number]];
					const nth = at % given.length;
					const moved = (sign: number) =>
						course.map(([hours, there], one): [number, number] => [
							hours,
							one === nth ? there + sign * by_K : there,
						]);
					const [cold, warm, asIs] = [moved(-1), moved(1), course].map(one =>
						windowsHeld(ufgsRows, known(...one)),
					);
					const hair = 1e-9;
					/** Where it shuts before it opens there is no opening to compare. */
					expect(opens(cold ?? []) ?? Infinity).toBeGreaterThanOrEqual((opens(asIs ?? []) ?? 0) - hair);
					expect(shuts(warm ?? []) ?? 0).toBeLessThanOrEqual((shuts(asIs ?? []) ?? 0) + hair);
				},
			),
		);
	});

	/** Care that a row asks for at an hour and a temperature, its edges carried by 2 and 3 per 10 °C: worked out anew. */
	const care = ['spray', 'scuff', 'sand', 'wait'];
	function careBy({ from_C, to_C, windows }: RecoatRow, at_C: number, hour: number): number {
		const colder = 2 ** (Math.max(0, from_C - at_C) / 10);
		const warmer = 3 ** (Math.max(0, at_C - to_C) / 10);
		const asked = windows.filter(({ does, from_h }, nth) => {
			const isOpening = care.indexOf(does) < care.indexOf(windows[nth - 1]?.does ?? 'wait');
			return hour >= (isOpening ? from_h * colder : from_h / warmer);
		});
		return Math.max(0, care.indexOf(asked.at(-1)?.does ?? 'wait'));
	}

	test('rows that tell different windows: no hour lets on what a temperature held does not, inside the rows and past them', () => {
		/** Whole tenths: what fast-check draws of them lies evenly. */
		const tenths = (min: number, max: number) =>
			fc.integer({ min: min * 10, max: max * 10 }).map(value => value / 10);
		const hours = fc.tuple(tenths(0.2, 3), tenths(4, 30));
		const spell = fc.tuple(tenths(0.1, 10), tenths(2, 48));
		fc.assert(
			fc.property(
				hours,
				hours,
				fc.array(spell, { minLength: 1, maxLength: 4 }),
				tenths(0, 40),
				([open, shut], [open2, shut2], given, hour) => {
					const cool = row(15, 20, open, shut);
					const warm: RecoatRow = {
						...row(22, 30, open2, shut2),
						windows: row(22, 30, open2, shut2).windows.map(window =>
							window.does === 'sand' ? { ...window, does: 'scuff' } : window,
						),
					};
					const windows = windowsHeld([cool, warm], known(...given));
					const now = windows.findLast(({ from_h }) => hour >= from_h)?.does ?? 'wait';
					for (const [, at_C] of given) {
						const nearest = at_C <= 21 ? cool : warm;
						if (at_C > 20 && at_C < 22) continue;
						expect(care.indexOf(now)).toBeGreaterThanOrEqual(careBy(nearest, at_C, hour));
					}
				},
			),
			{ numRuns: 500 },
		);
	});
});
