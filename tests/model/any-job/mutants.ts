import type { Checklist } from '../../../src/job/checklist.ts';
import type { Property } from '../checker/finding.ts';
import { builtWith, type Change } from '../one-change.ts';
import { sheetBy } from './sheet.ts';

/**
 * Changes of the rules of a day in named files, each of which days by chance must show to the checker, and as a breach of that
 * one property alone: no other rule stands behind it.
 */
export type RuleMutant = Change & {
	what: string;
	property: Property;
	/** The sheets that can show it, by their text. */
	on?: RegExp;
};

export const ruleMutants: readonly RuleMutant[] = [
	{
		property: 16,
		file: 'src/day/prep.ts',
		what: 'the wait of the sheet behind a step is none',
		from: 'return Math.max(0, waitsFor_s(moment, step, last.at) - atLeast_s(last.at, moment.now));',
		to: 'return 0;',
	},
	{
		property: 16,
		file: 'machines/face.ts',
		what: 'a step done once is done wherever the sheet has it',
		from: '.filter(({ place }) => !coming.places.includes(place));',
		to: '.filter(({ step, place }) => !coming.places.includes(place) && !coming.done?.includes(step));',
	},
	{
		property: 17,
		file: 'src/day/enter.ts',
		what: 'the windows of a sound face are told anew when its part is set aside',
		from: 'if (part === null && record.faulty?.includes(id) === false) return {};',
		to: 'if (part === null && record.faulty?.includes(id) === false) return { windows: null };',
	},
	{
		property: 19,
		file: 'src/day/follow.ts',
		what: 'a check is as patient as the list before spraying',
		from: '(isList ? listSilence_min : silence_min) * 60_000',
		to: 'listSilence_min * 60_000',
	},
	{
		property: 19,
		file: 'src/day/allowed.ts',
		what: 'no coat counts as wet for the work beside it',
		from: 'return left_s > 0 ? moment.now.wall + left_s * 1000 : null;',
		to: 'return null;',
	},
	{
		property: 22,
		file: 'src/day/allowed.ts',
		what: 'a batch is offered whose standing outlasts its life',
		on: /air: 3\d °C.*pot life: 30 min.*standing: (15|20) min/s,
		from: 'return life_s > needs_s ? null : { life_s, needs_s };',
		to: 'return life_s > 0 || needs_s > 0 ? null : { life_s, needs_s };',
	},
];

/** Jobs within which each is caught. */
export const jobsToCatch = 20;

/** What the checker says of days by chance under a change, of the first job in which it says anything; empty: it lives. */
export async function foundUnder(
	mutant: RuleMutant,
	lists: Checklist[],
	most = jobsToCatch,
): Promise<string[]> {
	const { anyJobsOf } = await builtWith<typeof import('./proof.ts')>('tests/model/any-job/proof.ts', mutant);
	const seeds = Array.from({ length: 100 * most }, (_, seed) => seed).filter(
		seed => mutant.on?.test(sheetBy(seed)) ?? true,
	);
	for (const seed of seeds.slice(0, most)) {
		const { says } = anyJobsOf(lists, seed, 1);
		if (says.length > 0) return says;
	}
	return [];
}

/** The first thing said where the property alone is breached; null: nothing was, or another one too. */
export function caughtAlone({ property }: RuleMutant, says: readonly string[]): string | null {
	const isAlone = says.every(one => one.includes(`, property ${property}: `));
	return isAlone ? (says[0] ?? null) : null;
}
