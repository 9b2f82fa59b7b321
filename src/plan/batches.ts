import type { Job } from '../job/job.ts';
import { mixAmounts } from '../trade/mix.ts';
import { potLife_h } from '../trade/time.ts';
import { letterOf } from './batch-letters.ts';
import type { Pass } from './gun.ts';
import { paintOf_mL, type Rates } from './pace.ts';
import type { Course } from './timeline.ts';

/** Passes that one batch serves, from `first` to the next chunk's; `ahead`: mixed in one go with the one before. */
export type Chunk = { first: number; ahead: boolean; loaded?: true };

/** What is in the gun's cup before the first pass. */
export type Cup = { letter: string; left_mL: number; dies_s: number };

/** Pot life of a material at the shop's temperature, s. Throws RangeError where the sheet cannot say. */
export function lifeOf_s(job: Job, material: string): number {
	const found = job.materials[material];
	return found ? potLife_h(found.potLife, job.shop.air_C, found.factorPer10C) * 3600 : 0;
}

/**
 * By how much the paint for a face may have to be more than worked out: solids and transfer at their lower ends.
 * @returns factor, 1 or more
 */
export function spare(job: Job, material: string): number {
	const found = job.materials[material];
	if (!found) return 1;
	const least = (share: number, tolerance: number) => share / Math.max(0.5 * share, share - tolerance);
	return least(found.solids, found.solids_tolerance) * least(job.gun.transfer, job.gun.transfer_tolerance);
}

/**
 * The fewest batches for a row of passes, each one cup at most: as many faces as the cup holds paint for with the
 * spare counted in, a new one where `breaks` says. Taking each as long as it may be gives the fewest, because a
 * batch that begins later never has to end earlier.
 * @param breaks passes before which a batch must end
 * @param ahead passes whose batch is mixed together with the one before, where both last
 * @param cup paint in the gun's cup that the first passes are sprayed from, as far as it goes
 */
export function chunksOf(
	job: Job,
	passes: readonly Pass[],
	rates: Rates,
	breaks: ReadonlySet<number>,
	ahead: ReadonlySet<number>,
	cup: Cup | null = null,
): Chunk[] {
	const chunks: Chunk[] = [];
	let held = 0;
	let room = job.gun.cup_mL;
	for (const [index, pass] of passes.entries()) {
		const needs = paintOf_mL(pass, rates) * spare(job, pass.coat.material);
		const before = passes[index - 1];
		const same = before?.coat.material === pass.coat.material && reducer(job, before) === reducer(job, pass);
		if (index === 0 && cup && !breaks.has(0) && needs <= cup.left_mL) {
			chunks.push({ first: 0, ahead: false, loaded: true });
			room = cup.left_mL;
		} else if (chunks.length === 0 || breaks.has(index) || !same || held + needs > room) {
			chunks.push({ first: index, ahead: ahead.has(index) });
			held = 0;
			room = job.gun.cup_mL;
		}
		held += needs;
	}
	return chunks;
}

/** Reducer of a coat's kind: a batch cannot serve two of them. */
const reducer = (job: Job, pass: Pass): number =>
	job.materials[pass.coat.material]?.coats[pass.coat.kind]?.reducer_parts ?? 0;

/** A batch of the plan. Seconds from the start of the first day. */
export type PlannedBatch = {
	letter: string;
	material: string;
	/** As mixed, spare counted in. */
	volume_mL: number;
	/** What its faces are worked out to take. */
	needed_mL: number;
	base_mL: number;
	mix_s: number;
	dies_s: number;
	/** First face begun with it, last face ended with it. */
	from_s: number;
	to_s: number;
	first: string;
	last: string;
	/** The faces and coats that are lost if it is wrong. */
	serves: { face: string; coat: number }[];
};

/** The batches that a walk has mixed, lettered on from those used before on the job. */
export function batchesOf(
	job: Job,
	passes: readonly Pass[],
	chunks: readonly Chunk[],
	course: Course,
	rates: Rates,
	letters: number,
	cup: Cup | null = null,
): PlannedBatch[] {
	const before = chunks[0]?.loaded ? 1 : 0;
	return chunks.flatMap((chunk, index) => {
		const served = passes.slice(chunk.first, chunks[index + 1]?.first);
		const laid = course.laid.slice(chunk.first, chunks[index + 1]?.first);
		const mixed = course.mixed.find(each => each.batch === index);
		const material = served[0]?.coat.material ?? '';
		const [first, last] = [laid[0], laid.at(-1)];
		if (!mixed || !first || !last) return [];
		const needed_mL = served.reduce((sum, pass) => sum + paintOf_mL(pass, rates), 0);
		const wanted_mL = Math.max(needed_mL, Math.min(job.gun.cup_mL, needed_mL * spare(job, material)));
		const volume_mL = chunk.loaded && cup ? cup.left_mL : wanted_mL;
		return {
			letter: chunk.loaded && cup ? cup.letter : letterOf(letters + index - before + 1),
			...{ material, volume_mL, needed_mL, base_mL: baseOf_mL(job, served[0], volume_mL) },
			...{ mix_s: mixed.at_s, dies_s: mixed.dies_s, from_s: first.from_s, to_s: last.to_s },
			...{ first: first.face, last: last.face, serves: laid.map(({ face, coat }) => ({ face, coat })) },
		};
	});
}

function baseOf_mL(job: Job, pass: Pass | undefined, volume_mL: number): number {
	const material = pass && job.materials[pass.coat.material];
	if (!material) return 0;
	const ratio = { ...material.ratio, reducer: reducer(job, pass) };
	const { by } = material.ratio;
	return mixAmounts({ ratio, make_mL: volume_mL, by, density_kg_per_L: material.density_kg_per_L }).base_mL;
}
