import { describe, expect, test } from 'vitest';
import { cartDay } from './cart-day.ts';
import { changed, like, putAfter } from './draft.ts';
import type { Raw } from './lines.ts';
import { foundIn } from './mutilated.ts';

/** Property 22: the first batch of the day, begun as another. The bound of 5 % is the project's own. */

const begun = like('batch.started');
const opened = like('day.opened');
const twoOne = { base: 2, hardener: 1, reducer: 1 };

const begunAs = (make_mL: number, ratio: Raw = twoOne, by = 'volume') =>
	changed(cartDay(), begun, { make_mL, ratio, by });
const inUnits = (units: string, day: Raw[]) => changed(day, opened, { settings: { units } });
const of22 = (day: Raw[]) => foundIn(day).flatMap(({ property, says }) => (property === 22 ? [says] : []));

/** The reason for finer marks as a day has it: with the batch, in one write. */
const byFiner = (day: Raw[], fields: Raw = {}, more = true) =>
	putAfter(changed(day, begun, { more }), begun, 'override.given', {
		rule: 'marks',
		reason: 'measured with a syringe',
		face: null,
		coat: null,
		batch: 'A',
		...fields,
	});

describe('marks that cannot give a part within 5 %', () => {
	test('6 mL, a quarter of it hardener, by millilitres', () => {
		expect(of22(begunAs(6))).toEqual([
			'batch A: marks 1 apart do not give 1.50 of hardener, 1.50 of the batch',
			'batch A: marks 1 apart do not give 2.00 of reducer, 1.50 of the batch',
		]);
		expect(of22(begunAs(8))).toEqual([]);
	});

	test('16 mL by tenths of a fluid ounce, and not by millilitres; two fluid ounces are given', () => {
		expect(of22(inUnits('us', begunAs(16)))[0]).toMatch(/marks 2\.95735 apart do not give/);
		expect(of22(inUnits('us', begunAs(59.147)))).toEqual([]);
		expect(of22(inUnits('metric', begunAs(16)))).toEqual([]);
	});

	test('each part by itself is near a mark, and with the base as it stands the hardener is 6 % short', () => {
		expect(of22(begunAs(13.1, { base: 3, hardener: 2 }))).toEqual([
			'batch A: marks 1 apart do not give 5.33 of hardener, 5.24 of the batch',
		]);
		expect(of22(begunAs(15, { base: 3, hardener: 2 }))).toEqual([]);
	});

	test('with the base as it stands the hardener is near a mark, and 6 % over its part of the batch', () => {
		expect(of22(begunAs(26, { base: 3, hardener: 2 }))[0]).toBe(
			'batch A: marks 1 apart do not give 10.67 of hardener, 10.40 of the batch',
		);
	});

	test('the reducer goes by the larger of the batches that base and hardener are for', () => {
		const thinned = { base: 3, hardener: 2, reducer: 0.75 };
		expect(of22(begunAs(37, thinned))).toEqual([]);
		expect(of22(begunAs(34, thinned))[0]).toMatch(/do not give 4\.50 of reducer/);
	});

	test('a component that the batch has none of is not asked for', () => {
		expect(of22(begunAs(15, { base: 3, hardener: 2, reducer: 0 }))).toEqual([]);
		expect(of22(begunAs(13.1, { base: 3, hardener: 0, reducer: 2 }))[0]).toMatch(/5\.24 of the batch/);
	});
});

describe('by weight', () => {
	/** The base weighs twice as much as the hardener, and twenty parts of it go in. */
	const heavy = (make_mL: number) => {
		const day = begunAs(make_mL, { base: 20, hardener: 1 }, 'weight');
		const sheet = JSON.parse(JSON.stringify(day[0]?.sheet));
		for (const material of Object.values<Raw>(sheet.materials))
			material.density_kg_per_L = { base: 1.6, hardener: 0.8, reducer: 0.8 };
		return changed(day, opened, { sheet });
	};

	test('parts are masses: 68.75 mL weigh 100 and 5 g', () => {
		expect(of22(heavy(68.75))).toEqual([]);
		expect(of22(heavy(60))[0]).toBe('batch A: marks 1 apart do not give 4.35 of hardener, 4.36 of the batch');
	});

	test('a scale tells grams, in whatever units the day is', () => {
		expect(of22(inUnits('us', heavy(68.75)))).toEqual([]);
	});
});

describe('finer marks', () => {
	test('a tenth apart, with a reason: nothing is said of the parts', () => {
		expect(of22(begunAs(6))).not.toEqual([]);
		expect(of22(byFiner(begunAs(6)))).toEqual([]);
	});

	test('so little that they do not give it either', () => {
		expect(of22(byFiner(begunAs(0.6)))[0]).toMatch(/marks 0\.1 apart do not give 0\.15 of hardener/);
	});

	test('without a reason, for another batch, or told of a batch that was begun before', () => {
		expect(of22(byFiner(begunAs(6), { reason: ' ' }))).not.toEqual([]);
		expect(of22(byFiner(begunAs(6), { batch: 'B' }))).not.toEqual([]);
		expect(of22(byFiner(begunAs(6), { rule: 'prep' }))).not.toEqual([]);
		expect(of22(byFiner(begunAs(6), {}, false))).not.toEqual([]);
	});
});
