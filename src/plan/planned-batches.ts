import { noUse, withUse } from '../film/odds.ts';
import type { Job } from '../job/job.ts';
import { partsWith } from '../job/on-work.ts';
import { mixAmounts } from '../trade/mix.ts';
import { letterOf } from './batch-letters.ts';
import {
	type Chunk,
	type Cup,
	inGunFor_mL,
	leastBatch_mL,
	leftBehind_mL,
	plannedBursts_mL,
	reducerFor,
	unsureFor,
} from './batches.ts';
import type { Pass } from './gun.ts';
import { paintOf_mL, type Rates } from './pace.ts';
import type { Course } from './timeline.ts';

/** A batch of the plan. Seconds from the start of the first day. */
export type PlannedBatch = {
	letter: string;
	material: string;
	/** As mixed, with what is lost and what the risk asks for. */
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
		const wanted_mL = wantedOf_mL(job, served, rates);
		const volume_mL = chunk.loaded && cup ? cup.left_mL : givenOf_mL(job, served[0], wanted_mL);
		return {
			letter: chunk.loaded && cup ? cup.letter : letterOf(letters + index - before + 1),
			...{ material, volume_mL, needed_mL, base_mL: baseOf_mL(job, served[0], volume_mL) },
			...{ mix_s: mixed.at_s, dies_s: mixed.dies_s, from_s: first.from_s, to_s: last.to_s },
			...{ first: first.face, last: last.face, serves: laid.map(({ face, coat }) => ({ face, coat })) },
		};
	});
}

/** A batch for faces at the sheet's risk; no more of it than the cup takes, but for one face that takes more. */
function wantedOf_mL(job: Job, served: readonly Pass[], rates: Rates): number {
	const uses = served.reduce((row, pass) => withUse(row, paintOf_mL(pass, rates)), noUse);
	const unsure = unsureFor(job, served[0]?.coat.material ?? '', rates);
	const inGun_mL = inGunFor_mL(job, uses, unsure) + plannedBursts_mL(job, served);
	return leftBehind_mL(job) + Math.max(uses.sum_mL, Math.min(job.gun.cup_mL, inGun_mL));
}

/** As much as is wanted, or the least that the marks of the pot give. */
function givenOf_mL(job: Job, pass: Pass | undefined, wanted_mL: number): number {
	const material = pass && job.materials[pass.coat.material];
	if (!material) return wanted_mL;
	return leastBatch_mL(material, reducerFor(job, pass.coat), wanted_mL, job.units) ?? wanted_mL;
}

function baseOf_mL(job: Job, pass: Pass | undefined, volume_mL: number): number {
	const material = pass && job.materials[pass.coat.material];
	if (!material) return 0;
	const ratio = partsWith(material, reducerFor(job, pass.coat));
	const { by } = material.ratio;
	return mixAmounts({ ratio, make_mL: volume_mL, by, density_kg_per_L: material.density_kg_per_L }).base_mL;
}
