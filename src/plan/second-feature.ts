import type { Job } from '../job/job.ts';
import type { Pass } from './gun.ts';

/** What a full gun check reads back beside pressure and pattern, one of them at a time. */
export const secondFeatures = ['horns', 'pattern-height', 'flooded'] as const;
export type SecondFeature = (typeof secondFeatures)[number];

/** Whether a second feature has a burst on paper. */
export const hasBurst = (feature: SecondFeature | undefined): boolean =>
	feature === 'pattern-height' || feature === 'flooded';

/**
 * The second feature of a full check: it rotates, and is never one that has just been instructed; a pattern is flooded only
 * where the fan lies wide anyhow, so that nobody turns the cap for it. Where none is left, none is asked.
 * @param last the one asked last, or the seed of a day on which none was
 */
export function secondFeature(
	last: SecondFeature | number,
	{ turnsHorns, setsFan, isWide }: { turnsHorns: boolean; setsFan: boolean; isWide: boolean },
): SecondFeature | undefined {
	const first = typeof last === 'number' ? last % secondFeatures.length : secondFeatures.indexOf(last) + 1;
	const turn = [...secondFeatures.slice(first), ...secondFeatures.slice(0, first)];
	return turn.find(
		feature =>
			!(feature === 'horns' && turnsHorns) &&
			!(feature === 'pattern-height' && setsFan) &&
			!(feature === 'flooded' && !isWide),
	);
}

/** The flow that a pass is sprayed at: the gun's own where its plan says none. */
export const flowOf_mL_per_min = ({ gun }: Job, { coat }: Pick<Pass, 'coat'>): number =>
	coat.flow_mL_per_min ?? gun.flow_mL_per_min;
