import fc from 'fast-check';
import { expect, test } from 'vitest';
import { noUse, withUse } from '../../src/film/odds.ts';
import type { Job } from '../../src/job/job.ts';
import {
	type Chunk,
	type Cup,
	chunksOf,
	inGunFor_mL,
	plannedBursts_mL,
	unsureFor,
} from '../../src/plan/batches.ts';
import { passesIn } from '../../src/plan/day-plan.ts';
import type { Pass } from '../../src/plan/gun.ts';
import { orderFor } from '../../src/plan/order.ts';
import { sketch } from './jobs.ts';

/** Two or three coats of a few faces that take more or less paint, from a cup that holds a few of them. */
const days = fc.record({
	amounts: fc.array(fc.integer({ min: 20, max: 120 }), { minLength: 1, maxLength: 4 }),
	coats: fc.integer({ min: 1, max: 3 }),
	cup_mL: fc.integer({ min: 150, max: 500 }),
	breaks: fc.uniqueArray(fc.integer({ min: 1, max: 11 }), { maxLength: 2 }),
	left_mL: fc.option(fc.integer({ min: 20, max: 400 })),
});

const jobOf = (amounts: readonly number[], coats: number, cup_mL: number): Job =>
	sketch({
		faces: amounts.map((volume_mL, index) => ({
			...{ part: `part ${index}`, name: 'face', volume_mL },
			horns: Array.from({ length: coats }, () => 'level' as const),
		})),
		cup_mL,
	});

const inOneCoat = (passes: readonly Pass[], at: number) => passes[at - 1]?.count === passes[at]?.count;

/** What the cup must take for a row of passes. */
function wantedOf(job: Job, passes: readonly Pass[], bursts_mL = plannedBursts_mL(job, passes)): number {
	const uses = passes.map(({ coat }) => coat.volume_mL).reduce(withUse, noUse);
	return inGunFor_mL(job, uses, unsureFor(job, 'topcoat', {})) + bursts_mL;
}

/** Batches, and how many of them begin inside a coat, of every way that a row of passes can be shared out. */
function everyWay(job: Job, passes: readonly Pass[], breaks: readonly number[], cup: Cup | null) {
	const ways: { batches: number; within: number }[] = [];
	const fits = (from: number, to: number): boolean => {
		const room = from === 0 && cup ? cup.left_mL : job.gun.cup_mL;
		const wanted = wantedOf(job, passes.slice(from, to));
		return (to === from + 1 || wanted <= room) && !breaks.some(at => at > from && at < to);
	};
	const share = (from: number, batches: number, within: number): void => {
		if (from === passes.length) ways.push({ batches, within });
		for (let to = from + 1; to <= passes.length; to++)
			if (fits(from, to))
				share(to, batches + 1, within + (to < passes.length && inOneCoat(passes, to) ? 1 : 0));
	};
	share(0, 0, 0);
	return ways;
}

const least = (ways: { batches: number; within: number }[]) =>
	ways.reduce((best, way) =>
		way.batches < best.batches || (way.batches === best.batches && way.within < best.within) ? way : best,
	);

const taken = (passes: readonly Pass[], chunks: readonly Chunk[]) => ({
	batches: chunks.length,
	within: chunks.slice(1).filter(({ first }) => inOneCoat(passes, first)).length,
});

test('there are as few batches as can be, and of those ways one that changes batches inside the fewest coats', () => {
	fc.assert(
		fc.property(days, ({ amounts, coats, cup_mL, breaks, left_mL }) => {
			const job = jobOf(amounts, coats, cup_mL);
			const passes = passesIn(job, orderFor(job, 0));
			const serves = left_mL !== null && wantedOf(job, passes.slice(0, 1), 0) <= left_mL;
			const cup = serves ? { letter: 'A', left_mL, dies_s: 9e9 } : null;
			const chunks = chunksOf(job, passes, {}, new Set(breaks), new Set(), cup);
			expect(taken(passes, chunks)).toEqual(least(everyWay(job, passes, breaks, cup)));
			for (const at of breaks.filter(one => one < passes.length))
				expect(chunks.map(({ first }) => first)).toContain(at);
		}),
		{ numRuns: 300 },
	);
});

test('two coats that one cup cannot hold are two batches, one a coat', () => {
	const job = jobOf([60, 60, 60], 2, 300);
	const chunks = chunksOf(job, passesIn(job, orderFor(job, 0)), {}, new Set(), new Set());
	expect(chunks.map(({ first }) => first)).toEqual([0, 3]);
});
