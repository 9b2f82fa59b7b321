import { type Mark, type Reach, reachesMark, reachOf, type Sights } from './marks.ts';
import { pair, words } from './numbers.ts';
import { type Cause, none } from './prior.ts';
import type { Soft } from './soft.ts';
import type { Pass } from './timeline.ts';

/** A cause with its form and the passes that it may have reached, before the marks are looked at. */
export type Explanation = {
	cause: Cause;
	/** Of the cause, among its extents. */
	share: number;
	/** P(readings | it was so) ÷ P(readings | it was not). */
	odds: number;
	reach: Reach;
	/** Its passes, in order. */
	passes: readonly Pass[];
	/** In words: `batch B`. */
	extent: () => string;
	/** Where it may have begun, ms. */
	start: () => { from: number; to: number };
	/** What was read or recorded of it. */
	softs: () => readonly Soft[];
};

export type Weighed = Explanation & {
	/** prior × share × odds × the chance of the marks. */
	W: number;
	/** W ÷ the sum of all. */
	weight: number;
};

/** A cause that reached nothing: it explains no mark. */
export const nowhere = ({ scene }: Sights, cause: Cause, at = 0): Explanation => ({
	...{ cause, share: 1, odds: 1, reach: reachOf(scene.faces.length, []), passes: [] },
	...{ extent: () => '', start: () => ({ from: at, to: at }), softs: () => [] },
});

const before = ({ cause, share, odds }: Explanation): number => cause.prior * share * odds;

const marksOf = (sights: Sights): { at: number; mark: Mark }[] =>
	sights.marked.flatMap(at => (sights.scene.faces[at]?.marks ?? []).map(mark => ({ at, mark })));

const reaches = ({ reach }: Explanation, { at, mark }: { at: number; mark: Mark }): boolean =>
	reachesMark(reach[at] ?? 0, mark);

/**
 * Weighs explanations against each other and against none of them.
 * @param explanations those that reach a mark: the others explain none
 * @returns heaviest first, equal ones as they were laid out; weights sum to 1
 */
export function weigh(explanations: readonly Explanation[], sights: Sights): Weighed[] {
	const all = [...explanations, nowhere(sights, none)].map((one): Weighed => {
		const W = before(one) * sights.F(one.cause, one.reach);
		return Object.assign(one, { W, weight: 0 });
	});
	const sum = all.reduce((total, { W }) => total + W, 0);
	for (const one of all) one.weight = one.W / sum;
	return all.sort((a, b) => b.W - a.W);
}

/** Weight of each code over its forms and extents, heaviest first. */
export function byCode(weighed: readonly Weighed[]): { code: string; weight: number; lead: Weighed }[] {
	const codes = new Map<string, { code: string; weight: number; lead: Weighed }>();
	for (const one of weighed) {
		const known = codes.get(one.cause.code);
		if (known) known.weight += one.weight;
		else codes.set(one.cause.code, { code: one.cause.code, weight: one.weight, lead: one });
	}
	return [...codes.values()].sort((a, b) => b.weight - a.weight);
}

/** Two causes at once, where they weigh much more than the best alone and each reaches a mark that the other does not. */
export function twoAtOnce(weighed: readonly Weighed[], sights: Sights): [Weighed, Weighed] | null {
	const alone = weighed.filter(({ cause }) => cause !== none);
	const marks = marksOf(sights);
	let best: { W: number; two: [Weighed, Weighed] } | null = null;
	for (const one of alone.slice(0, pair.first)) {
		const left = marks.filter(mark => !reaches(one, mark));
		if (left.length === 0) continue;
		const only = new Set(left.map(({ at }) => at));
		const others = alone
			.filter(({ cause }) => cause.code !== one.cause.code)
			.filter(other => left.some(mark => reaches(other, mark)))
			.map(other => ({ other, W: before(other) * sights.F(other.cause, other.reach, only) }))
			.sort((a, b) => b.W - a.W)
			.slice(0, pair.second);
		for (const { other } of others) {
			if (!marks.some(mark => reaches(one, mark) && !reaches(other, mark))) continue;
			const W = pair.prior * before(one) * before(other) * sights.both(one, other);
			if (W > (best?.W ?? 0)) best = { W, two: [one, other] };
		}
	}
	const single = alone[0]?.W ?? 0;
	return best && best.W > pair.said * single ? best.two : null;
}

export type Word = 'told' | 'likely' | 'perhaps' | 'cannot tell';

/** What may be claimed of a code: *told* only where a record says it. */
export function wordFor(weight: number, isRecorded: boolean): Word {
	if (weight >= words.told && isRecorded) return 'told';
	if (weight >= words.likely) return 'likely';
	return weight >= words.perhaps ? 'perhaps' : 'cannot tell';
}
