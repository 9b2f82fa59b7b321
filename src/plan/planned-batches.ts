import type { Job } from '../job/job.ts';
import { partsWith } from '../job/on-work.ts';
import { mixAmounts } from '../trade/mix.ts';
import { reducerFor } from './batches.ts';
import type { Pass } from './gun.ts';
import { paintOf_mL, type Rates } from './pace.ts';
import type { Mixed } from './played-bench.ts';
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
	/** The faces and coats that are lost if it is wrong: it was in the cup for them, alone or with another. */
	serves: { face: string; coat: number }[];
};

/** The batches that a walk has mixed, or found in the cup. */
export function batchesOf(job: Job, passes: readonly Pass[], course: Course, rates: Rates): PlannedBatch[] {
	return course.mixed.map(mixed => {
		const { letter, pass, make_mL: volume_mL, mix_s, dies_s } = mixed;
		const served = course.laid.flatMap((one, at) =>
			one.cup.includes(letter) ? [{ one, pass: passes[at] }] : [],
		);
		const [first, last] = [served[0]?.one, served.at(-1)?.one];
		const times = { mix_s, dies_s, from_s: first?.from_s ?? mix_s, to_s: last?.to_s ?? mix_s };
		return {
			...{ letter, material: pass.coat.material, volume_mL, base_mL: baseOf_mL(job, mixed), ...times },
			needed_mL: served.reduce((sum, { pass }) => sum + (pass ? paintOf_mL(pass, rates) : 0), 0),
			...{ first: first?.face ?? pass.face.id, last: last?.face ?? pass.face.id },
			serves: served.map(({ one: { face, coat } }) => ({ face, coat })),
		};
	});
}

function baseOf_mL(job: Job, { pass, make_mL }: Mixed): number {
	const material = job.materials[pass.coat.material];
	if (!material) return 0;
	const ratio = partsWith(material, reducerFor(job, pass.coat));
	const { by } = material.ratio;
	return mixAmounts({ ratio, make_mL, by, density_kg_per_L: material.density_kg_per_L }).base_mL;
}
