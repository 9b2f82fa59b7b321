import { noUse, type Uses, withUse } from '../film/odds.ts';
import type { Job } from '../job/job.ts';
import { riskOf } from '../job/on-work.ts';
import { inGunFor_mL, unsureFor } from './batches.ts';
import type { Rates } from './pace.ts';

/** Paint that came into a cup since some moment, and went out of it: bursts on paper, mL, and what faces took. */
export type Counted = { loaded_mL: number; bursts_mL: number; uses: Uses };

/**
 * Paint in the gun's cup by the count; what cup and pots are counted from since the cup was last empty, and what the
 * cup is since it was last seen how full it is.
 */
export type CupCount = { cup_mL: number; cupSince: Counted; levelSince: Counted };

export const uncounted: Counted = { loaded_mL: 0, bursts_mL: 0, uses: noUse };
export const emptyCup: CupCount = { cup_mL: 0, cupSince: uncounted, levelSince: uncounted };

/** The cup after a face, or a part of it, took so much. */
export function usedFrom({ cup_mL, cupSince, levelSince }: CupCount, use_mL: number): CupCount {
	/** A pass told of once the cup is empty used what was in it before. */
	const less = (since: Counted) =>
		cupSince.loaded_mL === 0 ? since : { ...since, uses: withUse(since.uses, Math.max(0, use_mL)) };
	return { cup_mL: Math.max(0, cup_mL - use_mL), cupSince: less(cupSince), levelSince: less(levelSince) };
}

/** … after a burst on paper. */
export function burstFrom({ cup_mL, cupSince, levelSince }: CupCount, burst_mL: number): CupCount {
	const less = (since: Counted) => ({ ...since, bursts_mL: since.bursts_mL + burst_mL });
	return { cup_mL: Math.max(0, cup_mL - burst_mL), cupSince: less(cupSince), levelSince: less(levelSince) };
}

/**
 * … filled from a pot by so much, or up to where it is seen to be.
 * @param isAllSeen no pot that was poured from holds anything any more: all there is stands in the cup
 */
export function filledBy(
	{ cup_mL, cupSince, levelSince }: CupCount,
	{ volume_mL, to_mL }: { volume_mL: number; to_mL?: number | undefined },
	isAllSeen: boolean,
): CupCount {
	const more = (since: Counted) => ({ ...since, loaded_mL: since.loaded_mL + volume_mL });
	const seen = to_mL === undefined ? more(levelSince) : { ...uncounted, loaded_mL: to_mL };
	return {
		cup_mL: to_mL ?? cup_mL + volume_mL,
		cupSince: isAllSeen && to_mL !== undefined ? seen : more(cupSince),
		levelSince: seen,
	};
}

/** The sheet, and what its shop has learned. */
export type Shop = { job: Job; rates: Rates };

/**
 * Paint in the gun from which some faces are sprayed at the sheet's risk, or another, mL.
 * @param uses what was sprayed since it was seen how much it is
 */
export const fullFor_mL = (
	{ job, rates }: Shop,
	material: string,
	wants_mL: readonly number[],
	uses: Uses = noUse,
	risk = riskOf(job),
): number => inGunFor_mL(job, wants_mL.reduce(withUse, uses), unsureFor({ ...job, risk }, material, rates));
