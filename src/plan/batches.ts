import type { Job, PlannedCoat } from '../job/job.ts';
import { potLife_h } from '../trade/time.ts';
import type { Pass } from './gun.ts';
import { paintOf_mL, type Rates } from './pace.ts';

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
		const same =
			before?.coat.material === pass.coat.material &&
			reducerFor(job, before.coat) === reducerFor(job, pass.coat);
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

/** Reducer that a coat's kind wants, parts: a batch cannot serve two of them. */
export function reducerFor(job: Job, { material, kind }: Pick<PlannedCoat, 'material' | 'kind'>): number {
	const found = job.materials[material];
	return found?.coats[kind]?.reducer_parts ?? found?.reducer_parts ?? 0;
}
