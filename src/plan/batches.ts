import { unsureOf } from '../film/learning.ts';
import { bursts_mL, leftInPot_mL } from '../film/losses.ts';
import { enoughFor_mL, type Unsure, type Uses, unsureAt } from '../film/odds.ts';
import type { Job, Material, PlannedCoat } from '../job/job.ts';
import { lossesOf, partsWith, riskOf } from '../job/on-work.ts';
import { livesAt_h } from '../job/process-clocks.ts';
import { leastGiven } from '../trade/marks.ts';
import { partsPoured, pourOrder, sumOf } from '../trade/mix.ts';
import { entryStep, type UnitSystem } from '../trade/shown.ts';
import { type Pass, sameGun } from './gun.ts';
import type { Rates } from './pace.ts';

/** What is in the gun's cup before the first pass. */
export type Cup = { letter: string; left_mL: number; dies_s: number };

/** Pot life of a material at the shop's temperature, s. Throws RangeError where the sheet cannot say. */
export function lifeOf_s(job: Job, material: string): number {
	const found = job.materials[material];
	return found ? livesAt_h(found, job.shop.air_C) * 3600 : 0;
}

/** How unsure a material's use is, and how sure a batch of it must be. */
export function unsureFor(job: Job, material: string, rates: Rates): Unsure {
	const { transfer, transfer_tolerance } = job.gun;
	return unsureAt(rates[material]?.unsure ?? unsureOf(transfer, transfer_tolerance), riskOf(job));
}

/** Bursts on paper of a full check, and of one more after a break. This project's own choice. */
const firstBursts = 4;

/** Paint that they take, mL. */
export const firstBursts_mL = (
	{ gun }: Job,
	{ flow_mL_per_min = gun.flow_mL_per_min }: PlannedCoat,
): number => bursts_mL(lossesOf(gun), flow_mL_per_min, firstBursts);

/**
 * Paint of the bursts on paper before a pass, mL: at the first check of a batch and once more after a break, at each
 * coat, and at each stop at the gun. This project's own choice.
 */
function burstsBefore_mL(job: Job, before: Pass | undefined, pass: Pass): number {
	if (!before) return firstBursts_mL(job, pass.coat);
	const bursts = !sameCoat(before, pass) ? 2 : sameGun(before, pass) ? 0 : 1;
	return (firstBursts_mL(job, pass.coat) * bursts) / firstBursts;
}

/** … of a row of passes. */
export const plannedBursts_mL = (job: Job, passes: readonly Pass[]): number =>
	passes.reduce((sum, pass, index) => sum + burstsBefore_mL(job, passes[index - 1], pass), 0);

/**
 * Paint in the gun from which a row of faces is sprayed at its risk, mL: what they use, and what stays in the gun.
 */
export const inGunFor_mL = ({ gun }: Job, uses: Uses, unsure: Unsure): number =>
	enoughFor_mL(uses, unsure) + lossesOf(gun).gun_mL;

/** What a batch leaves in its pot and strainer, mL: the most that the job's guns have for it. */
export const leftBehind_mL = ({ gun, guns = { gun } }: Job): number =>
	Math.max(...Object.values(guns).map(one => leftInPot_mL(lossesOf(one))));

/** No more than this is mixed in one pot, mL. */
export const largestBatch_mL = 20_000;

/**
 * The smallest batch that is no smaller than the one wanted and whose parts the marks of its pot, or the digits of the
 * scale, give.
 * @param reducer parts, as the coat wants it
 * @param marks into how many each is divided
 * @returns null where one of its parts is too little in any pot
 */
export function leastBatch_mL(
	material: Material,
	reducer: number,
	wanted_mL: number,
	units: UnitSystem,
	marks = 1,
): number | null {
	const { density_kg_per_L, order } = material;
	const { by } = material.ratio;
	const ratio = partsWith(material, reducer);
	const whole = sumOf(partsPoured({ ratio, make_mL: wanted_mL, by, density_kg_per_L }));
	const mark = entryStep(by === 'weight' ? 'mass' : 'volume', units) / marks;
	const pours = pourOrder.toSorted((one, other) => order.indexOf(one) - order.indexOf(other));
	const most = (whole * largestBatch_mL) / wanted_mL;
	const least = leastGiven(ratio, whole, mark, pours, most);
	if (least === whole) return wanted_mL;
	return least === null ? null : (wanted_mL * least) / whole;
}

export const sameCoat = (one: Pass | undefined, other: Pass | undefined): boolean =>
	one?.coat.stage === other?.coat.stage && one?.coat.ofStage[0] === other?.coat.ofStage[0];

/** Reducer that a coat's kind wants, parts: a batch cannot serve two of them. */
export function reducerFor(job: Job, { material, kind }: Pick<PlannedCoat, 'material' | 'kind'>): number {
	const found = job.materials[material];
	return found?.coats[kind]?.reducer_parts ?? found?.reducer_parts ?? 0;
}
