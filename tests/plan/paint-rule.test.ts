import { expect, test } from 'vitest';
import { emptyCup } from '../../src/plan/cup-count.ts';
import { passesIn } from '../../src/plan/day-plan.ts';
import { orderFor } from '../../src/plan/order.ts';
import { type Bench, type Coming, isMixDue, paintAct, toMix_mL } from '../../src/plan/paint-rule.ts';
import { sketch } from './jobs.ts';

/** What is mixed for four rails of 60 mL each, by what stands in the cup. */

const job = sketch({
	faces: ['one', 'two', 'three', 'four'].map(part => ({
		...{ part, name: 'front', volume_mL: 60, spray_s: 60 },
		horns: ['level' as const],
	})),
});
const [first, ...others] = passesIn(job, orderFor(job, 0)).map(
	(pass): Coming => ({ pass, wants_mL: 60, spray_s: 60 }),
);
function benchWith(over: Partial<Bench>): Bench {
	if (!first) throw new Error('there is a first face');
	return {
		...{ job, rates: {}, units: 'metric', coming: [first, ...others], isBegun: false, later: () => [] },
		cup: { ...emptyCup, letters: [], isMine: false, life_s: Infinity, fresh_s: Infinity },
		...{ pots: [], batch: { life_s: 6 * 3600, takes_s: 480 }, check: 'full', stop: 'empty' },
		...over,
	};
}
/** 200 mL were filled in, and three faces of 60 mL sprayed of them. */
const counted = { loaded_mL: 200, bursts_mL: 0, uses: { sum_mL: 180, squares_mL2: 3 * 60 ** 2 } };
const stands = (life_s: number): Bench['cup'] => ({
	...{ cup_mL: 20, cupSince: counted, levelSince: counted },
	...{ letters: ['A'], isMine: true, life_s, fresh_s: Infinity },
});

test('a cup that little is left in wants no larger batch than an empty one', () => {
	const empty = toMix_mL(benchWith({}));
	expect(toMix_mL(benchWith({ cup: stands(6 * 3600), stop: 'short' }))).toBe(empty);
});

test('what dies before the coat is on is not counted on; what lasts is', () => {
	const full = { loaded_mL: 300, bursts_mL: 0, uses: emptyCup.cupSince.uses };
	const cup = (life_s: number) => ({
		...stands(life_s),
		...{ cup_mL: 300, cupSince: full, levelSince: full },
	});
	const empty = toMix_mL(benchWith({}));
	// Four faces take 4 × 3 × 60 s with the work around them, and a batch 8 min.
	expect(toMix_mL(benchWith({ cup: cup(1190), stop: null }))).toBe(empty);
	expect(toMix_mL(benchWith({ cup: cup(1210), stop: null }))).toBeLessThan(empty);
});

test('a whole coat is mixed for before its first face; inside it only once the cup holds the next face no more', () => {
	const before = benchWith({ cup: stands(6 * 3600), stop: null });
	expect(isMixDue(before)).toBe(true);
	expect(paintAct(before)).toEqual({ kind: 'mix' });
	expect(paintAct({ ...before, isBegun: true })).toBeNull();
	expect(paintAct({ ...before, isBegun: true, stop: 'short' })).toEqual({ kind: 'mix' });
});

/** The coat behind them, after a wait of so many minutes; each face as the first. */
const again = (wait_min: number) => () => {
	if (!first) throw new Error('there is a first face');
	return [{ faces: [first, ...others], wait_s: wait_min * 60 }];
};

test('the coat behind is mixed for with the one at hand where both are on by half of the life of the pot', () => {
	const one = toMix_mL(benchWith({}));
	// 8 min at the pot, twice 12 min of spraying with the walk, 20 min of flash between: 52 min.
	const both = (life_h: number) =>
		toMix_mL(benchWith({ later: again(20), batch: { life_s: life_h * 3600, takes_s: 480 } }));
	expect(both(1.8)).toBeGreaterThan(1.6 * one);
	expect(both(1.6)).toBe(one);
	// The gun is flushed after 45 min of this paint, and what its cup holds would be thrown away.
	const waits = (wait_min: number) => toMix_mL(benchWith({ later: again(wait_min) }));
	expect(waits(40)).toBeGreaterThan(1.6 * one);
	expect(waits(41)).toBe(one);
});

test('no batch is larger than the largest pot of the shop: a coat behind is left out, else faces of the coat itself', () => {
	const inPot = (pot_mL: number) => ({ job: { ...job, shop: { ...job.shop, pot_mL } } });
	const one = toMix_mL(benchWith({}));
	expect(toMix_mL(benchWith({ ...inPot(1.1 * one), later: again(20) }))).toBe(one);
	const three = toMix_mL(benchWith(inPot(one - 10)));
	expect(three).toBeLessThan(one - 40);
	expect(three).toBeGreaterThan(one / 2);
});

test('a pot mixed for more than its coat is not poured to paint that dies before all of it is on', () => {
	const pot = { letter: 'B', left_mL: 600, untouched: true, life_s: 6 * 3600 };
	const at = (life_s: number) =>
		paintAct(benchWith({ cup: stands(life_s), stop: 'short', pots: [pot], later: again(20) }));
	expect(at(45 * 60)).toMatchObject({ kind: 'load', batch: 'B' });
	// It outlasts the coat, 12 min, and not the one behind it.
	expect(at(43 * 60)).toEqual({ kind: 'empty', why: 'short-lived' });
});
