import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { leastGiven, marksGive, roundToMarks } from '../../src/trade/marks.ts';
import {
	grams,
	levels,
	levels_mL,
	missingOf,
	mixAmounts,
	pourOrder,
	type Ratio,
	reducerParts,
	reducerShareOfMix,
	rescaleForOver,
	solidsOfMix,
} from '../../src/trade/mix.ts';

const part = fc.double({ min: 0.1, max: 10, noNaN: true });
const ratios = fc.record({
	base: part,
	hardener: part,
	reducer: fc.double({ min: 0, max: 0.3, noNaN: true }),
});
const amounts = fc.double({ min: 10, max: 5000, noNaN: true });
const topcoat: Ratio = { base: 2, hardener: 1, reducer: 1 };

describe('amounts of a batch', () => {
	test('together they are the batch, in the ratio', () => {
		fc.assert(
			fc.property(ratios, amounts, (ratio, make_mL) => {
				const mix = mixAmounts({ ratio, make_mL });
				expect(mix.base_mL + mix.hardener_mL + mix.reducer_mL).toBeCloseTo(make_mL, 6);
				expect(mix.base_mL / mix.hardener_mL).toBeCloseTo(ratio.base / ratio.hardener, 6);
				expect(levels_mL(mix).at(-1)?.level).toBeCloseTo(make_mL, 6);
			}),
		);
	});

	test('a ratio by weight holds on the scale, and the volumes make up the batch', () => {
		fc.assert(
			fc.property(ratios, amounts, (ratio, make_mL) => {
				const density_kg_per_L = { base: 1.4, hardener: 1.05, reducer: 0.87 };
				const mix = mixAmounts({ ratio, make_mL, by: 'weight', density_kg_per_L });
				const mass = grams(mix, density_kg_per_L);
				expect(mass.base / mass.hardener).toBeCloseTo(ratio.base / ratio.hardener, 6);
				expect(mix.base_mL + mix.hardener_mL + mix.reducer_mL).toBeCloseTo(make_mL, 6);
			}),
		);
	});

	test('levels follow the order of pouring and leave out what has no part', () => {
		expect(levels({ base: 8, hardener: 4, reducer: 0 }, ['hardener', 'base', 'reducer'])).toEqual([
			{ component: 'hardener', level: 4 },
			{ component: 'base', level: 12 },
		]);
	});

	test.each([
		[() => mixAmounts({ ratio: topcoat, make_mL: 0 }), 'amount to make must be more than 0 mL'],
		[
			() => mixAmounts({ ratio: { ...topcoat, hardener: 0 }, make_mL: 1 }),
			'parts of hardener must be more than 0',
		],
		[() => mixAmounts({ ratio: { ...topcoat, reducer: 9 }, make_mL: 1 }), 'parts of reducer must be 0 to 6'],
		[() => mixAmounts({ ratio: topcoat, make_mL: 1, by: 'weight' }), 'needs the density of each can'],
		[() => reducerParts(3, { base: 1, hardener: 1 }), 'reducer must be 0 to 200 %'],
	])('what cannot be mixed is refused: %#', (call, says) => {
		expect(call).toThrow(RangeError);
		expect(call).toThrow(says);
	});
});

describe('solids of the reduced mix', () => {
	test('a fourth of reducer leaves three fourths of the solids', () => {
		expect(reducerShareOfMix(topcoat)).toBe(0.25);
		expect(solidsOfMix(0.6, topcoat)).toBeCloseTo(0.45, 12);
	});

	test('by weight a light reducer takes more room', () => {
		expect(solidsOfMix(0.6, topcoat, { base: 1.4, hardener: 1.1, reducer: 0.87 })).toBeLessThan(0.45);
	});
});

describe('too much of one was poured', () => {
	test('10 of base instead of 8 makes a batch of 20', () => {
		const grown = rescaleForOver(topcoat, { base: 10 }, 16);
		expect(grown.total).toBe(20);
		expect(grown.add).toEqual([
			{ component: 'hardener', add: 5, level: 15 },
			{ component: 'reducer', add: 5, level: 20 },
		]);
	});

	test('too much hardener asks for more base first', () => {
		const grown = rescaleForOver(topcoat, { base: 8, hardener: 5 }, 16);
		expect(grown.total).toBe(20);
		expect(grown.add).toEqual([
			{ component: 'base', add: 2, level: 15 },
			{ component: 'reducer', add: 5, level: 20 },
		]);
	});

	test('a pour within the plan leaves the plan alone', () => {
		expect(rescaleForOver(topcoat, { base: 7 }, 16)).toMatchObject({
			total: 16,
			add: [{ component: 'base', add: 1 }, {}, {}],
		});
	});

	test('in the end the cup holds the ratio, whatever was poured', () => {
		const poured = fc.record({ base: amounts, hardener: amounts });
		fc.assert(
			fc.property(ratios, poured, amounts, (ratio, { base, hardener }, wanted) => {
				const grown = rescaleForOver(ratio, { base, hardener }, wanted);
				expect(grown.total).toBeGreaterThanOrEqual(wanted);
				expect(grown.ratio.base).toBeGreaterThanOrEqual(base - 1e-6);
				expect(grown.ratio.base / grown.ratio.hardener).toBeCloseTo(ratio.base / ratio.hardener, 6);
				const full = base + hardener + grown.add.reduce((sum, { add }) => sum + add, 0);
				expect(Math.abs(full / grown.total - 1)).toBeLessThan(1e-6);
			}),
		);
	});

	test('too much accelerator: all the others are topped up to it', () => {
		// Arithmetic: 60 of accelerator belong to a batch of 13 × 60 = 780.
		const ratio = { base: 8, hardener: 2, reducer: 2, accelerator: 1 };
		const poured = { base: 400, hardener: 100, reducer: 100, accelerator: 60 };
		const grown = rescaleForOver(ratio, poured, 650);
		expect(grown.total).toBe(780);
		expect(grown.add).toEqual([
			{ component: 'base', add: 80, level: 740 },
			{ component: 'hardener', add: 20, level: 760 },
			{ component: 'reducer', add: 20, level: 780 },
		]);
	});

	test('reducer in a mix that has none is refused', () => {
		expect(() => rescaleForOver({ ...topcoat, reducer: 0 }, { reducer: 1 }, 16)).toThrow('discard the batch');
	});
});

describe('marks of the cup', () => {
	const mix = mixAmounts({ ratio: { base: 1, hardener: 1, reducer: 0.3 }, make_mL: 1000 });

	test('levels go to marks, and the hardener is least off', () => {
		const marked = roundToMarks(mix, 25);
		for (const { level } of marked.levels) expect(level % 25).toBe(0);
		expect(Math.abs(marked.hardenerError)).toBeLessThan(1e-9);
		expect(Math.abs(marked.reducerError)).toBeGreaterThan(0);
	});

	test('levels that are on marks stay there, without error', () => {
		const marked = roundToMarks(mixAmounts({ ratio: topcoat, make_mL: 400 }), 50);
		expect(marked.levels.map(({ level }) => level)).toEqual([200, 300, 400]);
		expect(marked).toMatchObject({ hardenerError: 0, reducerError: 0 });
	});

	test('an accelerator that no mark gives is told beside the others, and its own ratio asks for a larger batch', () => {
		const ratio = { base: 8, hardener: 2, reducer: 2, accelerator: 1 };
		const { levels: rounded, extraErrors } = roundToMarks(mixAmounts({ ratio, make_mL: 650 }), 20);
		expect(rounded.map(({ level }) => level).slice(0, 3)).toEqual([400, 500, 600]);
		expect(Math.abs(extraErrors.accelerator ?? 0)).toBeCloseTo(0.2, 12);
		expect(marksGive(ratio, 650, 20, pourOrder)).toBe(false);
		expect(marksGive(ratio, 520, 20, pourOrder)).toBe(true);
		// Arithmetic: 20 of accelerator may be 5 % less, in 247.6 or more; the next whole marks are 260.
		expect(leastGiven(ratio, 130, 20, pourOrder, 1000)).toBe(260);
	});

	test('an accelerator that is right by itself may be too much beside what was poured of the others', () => {
		// Arithmetic: 60 of 3:1 with 0.5 are 40, 13.33 and 6.67; by whole marks 40, 13 and 7, where 53 want 6.625, 5.7 % less.
		const ratio = { base: 3, hardener: 1, reducer: 0, accelerator: 0.5 };
		expect(marksGive(ratio, 60, 1, ['base', 'hardener', 'accelerator'])).toBe(false);
		expect(marksGive(ratio, 72, 1, ['base', 'hardener', 'accelerator'])).toBe(true);
	});

	test('marks too coarse for the batch are refused', () => {
		expect(() => roundToMarks(mixAmounts({ ratio: topcoat, make_mL: 40 }), 50)).toThrow('too coarse');
	});

	test('10:1 with 5 % by tenths: 7, 0.7 and 0.4 is the least from 1.7 on that no part is 5 % off in', () => {
		// Worked by hand. The bound of 5 % is the project's own, no source.
		expect(leastGiven({ base: 10, hardener: 1, reducer: 0.55 }, 1.7, 0.1, pourOrder, 100)).toBeCloseTo(
			8.1,
			9,
		);
		expect(leastGiven({ base: 10, hardener: 1, reducer: 0.55 }, 1.7, 0.1, pourOrder, 8)).toBeNull();
	});

	test('a pour in the middle between two marks is right by either, or is not given', () => {
		// Found on days by chance and worked by hand: 13.5 marks of hardener, and behind 14 of it 10.5 of reducer, 8 % over by 11.
		expect(marksGive({ base: 4, hardener: 1, reducer: 0.75 }, 230, 2.95735, pourOrder)).toBe(false);
		// 2.5 marks of hardener: 2 is a fifth too little, 3 a fifth too much.
		expect(marksGive({ base: 2, hardener: 1, reducer: 0 }, 7.5, 1, pourOrder)).toBe(false);
		expect(marksGive({ base: 2, hardener: 1, reducer: 0 }, 61.5, 1, pourOrder)).toBe(true);
	});

	const thinned: fc.Arbitrary<Ratio> = fc.record({
		base: part,
		hardener: part,
		reducer: fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 0.3, noNaN: true })),
	});
	test('a batch that the marks give has a mark within 5 % of each part, and is itself the least from there on', () => {
		fc.assert(
			fc.property(thinned, amounts, fc.constantFrom(1, 2.957, 5, 25), (ratio, wanted, mark) => {
				const whole = leastGiven(ratio, wanted, mark, pourOrder, 1e6) ?? 0;
				expect(whole).toBeGreaterThanOrEqual(wanted);
				expect(marksGive(ratio, whole, mark, pourOrder)).toBe(true);
				const unit = whole / (ratio.base + ratio.hardener + ratio.reducer);
				for (const component of pourOrder) {
					const part = unit * (ratio[component] ?? 0);
					const off = Math.abs(Math.round(part / mark) * mark - part);
					expect(off).toBeLessThanOrEqual(0.05 * part + 1e-6);
				}
				for (let marks = Math.round(whole / mark) - 1; marks * mark > wanted; marks--)
					expect(marksGive(ratio, marks * mark, mark, pourOrder)).toBe(false);
			}),
		);
	});

	test('what is in of the others is the measure of a pour, not the batch as planned', () => {
		expect(missingOf(topcoat, 400, {}, 'base')).toBe(200);
		expect(missingOf(topcoat, 400, { base: 192 }, 'base')).toBeCloseTo(8, 9);
		expect(missingOf(topcoat, 400, { base: 192 }, 'hardener')).toBeCloseTo(96, 9);
		expect(missingOf(topcoat, 400, { base: 210 }, 'hardener')).toBeCloseTo(105, 9);
		expect(missingOf(topcoat, 400, { base: 200, hardener: 110 }, 'base')).toBeCloseTo(20, 9);
		expect(missingOf(topcoat, 400, { base: 200, hardener: 100, reducer: 100 }, 'reducer')).toBe(0);
	});
});
