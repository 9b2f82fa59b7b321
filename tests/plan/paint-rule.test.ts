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
		...{ job, rates: {}, units: 'metric', coming: [first, ...others], isBegun: false },
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
