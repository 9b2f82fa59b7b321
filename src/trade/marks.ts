import { type Amounts, type Component, type Level, levels_mL, pourOrder } from './mix.ts';
import { positive } from './range.ts';

export type Marked = {
	levels: Level[];
	/** (hardener ÷ base) as poured ÷ as wanted − 1. */
	hardenerError: number;
	/** (reducer ÷ (base + hardener)) as poured ÷ as wanted − 1; 0 without reducer. */
	reducerError: number;
};

/** What each pour comes to between the levels, and what that does to the ratio; undefined where a pour vanishes. */
function errorsOf(rounded: Level[], { base_mL, hardener_mL, reducer_mL }: Amounts): Marked | undefined {
	const poured: Record<Component, number> = { base: 0, hardener: 0, reducer: 0 };
	for (const [index, { component, level }] of rounded.entries()) {
		poured[component] = level - (rounded[index - 1]?.level ?? 0);
		if (poured[component] <= 0) return undefined;
	}
	const wanted = reducer_mL / (base_mL + hardener_mL);
	return {
		levels: rounded,
		hardenerError: poured.hardener / poured.base / (hardener_mL / base_mL) - 1,
		reducerError: wanted === 0 ? 0 : poured.reducer / (poured.base + poured.hardener) / wanted - 1,
	};
}

/** The hardener rules; the reducer breaks ties. */
const badness = ({ hardenerError, reducerError }: Marked): number =>
	Math.abs(hardenerError) + Math.abs(reducerError) / 10;

/**
 * Levels moved to the marks of the cup, each to the one below or above, so that the hardener is least off.
 * @param amounts wanted, mL
 * @param mark_mL from mark to mark, above 0
 * @returns levels in mL and what is left of the errors, as shares
 * @throws RangeError where a pour would be less than one mark
 */
export function roundToMarks(
	amounts: Amounts,
	mark_mL: number,
	order: readonly Component[] = pourOrder,
): Marked {
	const mark = positive('distance of the marks', mark_mL, 'mL');
	let choices: Level[][] = [[]];
	for (const { component, level } of levels_mL(amounts, order)) {
		const below = Math.floor(level / mark + 1e-9) * mark;
		const marks = Math.abs(level - below) < 1e-9 * mark ? [below] : [below, below + mark];
		choices = choices.flatMap(done => marks.map(at => [...done, { component, level: at }]));
	}
	const usable = choices.flatMap(rounded => errorsOf(rounded, amounts) ?? []);
	const [best] = usable.sort((one, other) => badness(one) - badness(other));
	if (best) return best;
	throw new RangeError(`marks ${mark} mL apart are too coarse for this batch: make more, or weigh it`);
}
