import { describe, expect, test } from 'vitest';
import { dewPoint } from './air.ts';
import type { Material, Span } from './day.ts';
import { slower, spansOver } from './recoat.ts';

const row = (from_C: number, to_C: number, opens: number, shuts: number) => ({
	from_C,
	to_C,
	windows: [
		{ does: 'wait', from_h: 0, until_h: opens },
		{ does: 'spray', from_h: opens, until_h: shuts },
		{ does: 'scuff', from_h: shuts, until_h: null },
	],
});

/** Of polyurethane over polyurethane, UFGS 09971 ¶3.7.1.4, one row, its °F turned into °C. */
const rows = [row(27.2, 32.2, 4, 36)];
const material = (max_min: number | null): Material => ({
	id: 'green',
	isocyanate: true,
	ratio: { by: 'volume', base: 2, hardener: 1 },
	density_kg_per_L: null,
	order: [],
	potLife: { at_C: 21, hours: 2 },
	standing_min: 0,
	flash: { min_min: 30, max_min, at_C: 21, touch: ['tacky'] },
	recoat: [{ under: 'green', rows }],
	limits: { air_C: [10, 35], humidity_max: 0.8, margin_C: 3 },
	factorPer10C: 2,
});

const sprayed = (spans: Span[] | null) =>
	(spans ?? []).filter(({ does }) => does === 'spray').map(({ from_h, until_h }) => [from_h, until_h]);

describe("the checker's own windows", () => {
	test('a time halves per 10 °C warmer and doubles per 10 °C colder, UFGS 09971 ¶3.7.1.3', () => {
		expect(slower(2, 21, 31)).toBe(0.5);
		expect(slower(2, 21, 11)).toBe(2);
	});

	test('at 30 °C the table opens after 4 h and shuts after 36 h', () => {
		expect(sprayed(spansOver(material(null), 'green', 30, false))).toEqual([[4, 36]]);
	});

	test('of a table of several rows it tells the flash alone: the gates of its rows are clocks', () => {
		const several = {
			...material(90),
			recoat: [{ under: 'green', rows: [row(15.6, 21.1, 8, 48), ...rows] }],
		};
		expect(sprayed(spansOver(several, 'green', 21, true))).toEqual([[0.5, 1.5]]);
		expect(spansOver(several, 'green', 21, false)).toEqual([]);
	});

	test('warmer than its row it opens no sooner than there and shuts sooner by three, or by the factor of the sheet', () => {
		expect(sprayed(spansOver(material(null), 'green', 42.2, false))).toEqual([[4, 12]]);
		const own = { ...material(null), clocks: { factorPer10C: 2 } };
		expect(sprayed(spansOver(own, 'green', 42.2, false))).toEqual([[4, 18]]);
	});

	test('colder than its row it opens later by two and shuts no later than there', () => {
		expect(sprayed(spansOver(material(null), 'green', 17.2, false))).toEqual([[8, 36]]);
	});

	test('a lifting zone warmer than its row is the longest that it can be', () => {
		const lifts = [
			{ does: 'spray', from_h: 0, until_h: 9 },
			{ does: 'wait', from_h: 9, until_h: 10 },
			{ does: 'spray', from_h: 10, until_h: 36 },
			{ does: 'sand', from_h: 36, until_h: null },
		];
		const only = {
			...material(null),
			recoat: [{ under: 'green', rows: [{ from_C: 15, to_C: 25, windows: lifts }] }],
		};
		expect(sprayed(spansOver(only, 'green', 35, false))).toEqual([
			[0, 3],
			[10, 12],
		]);
		expect(sprayed(spansOver(only, 'green', 45, false))).toEqual([[0, 1]]);
	});

	test('wet on wet the flash comes first, and without an end goes over into the table', () => {
		expect(sprayed(spansOver(material(90), 'green', 21, true))).toEqual([
			[0.5, 1.5],
			[4 * 2 ** 0.62, 36],
		]);
		expect(sprayed(spansOver(material(null), 'green', 27.2, true))[0]).toEqual([0.5, 4]);
	});

	test('wet on wet without a table, what is past the most is sanded', () => {
		const bare = { ...material(90), recoat: [] };
		expect(spansOver(bare, 'green', 21, true)?.map(({ does, from_h }) => [does, from_h])).toEqual([
			['spray', 0.5],
			['sand', 1.5],
		]);
	});

	test('of a pair that the sheet does not name nothing is said', () => {
		expect(spansOver(material(null), 'grey', 21, false)).toBeNull();
	});
});

test('the dew point is that of published readings', () => {
	// 16 °C, 71 %: 11 °C, coating inspection training note.
	expect(dewPoint(16, 0.71)).toBeCloseTo(11, 0);
});
