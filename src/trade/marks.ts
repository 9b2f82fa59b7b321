import {
	type Amounts,
	amountOf,
	type Component,
	type Extra,
	extras,
	type Level,
	levels_mL,
	missingOf,
	pourOrder,
	type Ratio,
	sumOf,
} from './mix.ts';
import { positive } from './range.ts';

export type Marked = {
	levels: Level[];
	/** (hardener ÷ base) as poured ÷ as wanted − 1. */
	hardenerError: number;
	/** (reducer ÷ (base + hardener)) as poured ÷ as wanted − 1; 0 without reducer. */
	reducerError: number;
	/** … and of the extras that the batch has. */
	extraErrors: Partial<Record<Extra, number>>;
};

/** What each pour comes to between the levels, and what that does to the ratio; undefined where a pour vanishes. */
function errorsOf(rounded: Level[], amounts: Amounts): Marked | undefined {
	const poured: Record<Component, number> = {
		base: 0,
		hardener: 0,
		reducer: 0,
		accelerator: 0,
		flattener: 0,
	};
	for (const [index, { component, level }] of rounded.entries()) {
		poured[component] = level - (rounded[index - 1]?.level ?? 0);
		if (poured[component] <= 0) return undefined;
	}
	const { base_mL, hardener_mL } = amounts;
	const off = (component: Component) => {
		const wanted = amountOf(amounts, component) / (base_mL + hardener_mL);
		return wanted === 0 ? 0 : poured[component] / (poured.base + poured.hardener) / wanted - 1;
	};
	const has = extras.filter(extra => amountOf(amounts, extra) > 0);
	return {
		levels: rounded,
		hardenerError: poured.hardener / poured.base / (hardener_mL / base_mL) - 1,
		reducerError: off('reducer'),
		extraErrors: Object.fromEntries(has.map(extra => [extra, off(extra)])),
	};
}

/** The hardener rules; the others break ties. */
const badness = ({ hardenerError, reducerError, extraErrors }: Marked): number =>
	[reducerError, ...Object.values(extraErrors)].reduce(
		(sum, error) => sum + Math.abs(error) / 10,
		Math.abs(hardenerError),
	);

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

/** More than this share of its own part no pour may be off by. This project's own choice. */
export const mostOff = 0.05;

const isNear = (found: number, wanted: number): boolean =>
	Math.abs(found - wanted) <= mostOff * wanted + 1e-9;

/**
 * The mark that a level is poured to: the nearest, or the one above it where that is too far off.
 * @param part all of the component that is wanted, in the unit of the level
 */
export function markFor(level: number, mark: number, part: number): number {
	const nearest = Math.round(level / mark) * mark;
	return isNear(part + nearest - level, part) ? nearest : Math.ceil(level / mark - 1e-9) * mark;
}

/** Nearer than this to the middle between two marks, in marks, either may be the one that is told. */
const tie = 1e-6;

/** The mark nearest to a level; both where it lies in the middle. */
function nearestMarks(level: number, mark: number): number[] {
	const above = Math.floor(level / mark + 0.5 + tie);
	const below = Math.floor(level / mark + 0.5 - tie);
	return above === below ? [above * mark] : [below * mark, above * mark];
}

/** Whether what is poured keeps the ratio. */
function isRight(ratio: Ratio, poured: Ratio): boolean {
	const { base, hardener } = poured;
	const scale = (base + hardener) / (ratio.base + ratio.hardener);
	return (
		isNear(hardener, (base / ratio.base) * ratio.hardener) &&
		(['reducer', ...extras] as const).every(one => isNear(poured[one] ?? 0, scale * (ratio[one] ?? 0)))
	);
}

/**
 * Whether the marks of a pot, or of a scale, give a batch: poured to the nearest of them one after the other, no part is
 * more than `mostOff` off, of the batch as planned or beside the others that are in.
 * @param ratio parts in the unit poured in
 * @param whole the batch, same unit
 * @param mark from mark to mark, same unit
 * @param poured what is in, same unit
 */
export function marksGive(
	ratio: Ratio,
	whole: number,
	mark: number,
	[component, ...rest]: readonly Component[],
	poured: Ratio = { base: 0, hardener: 0, reducer: 0 },
): boolean {
	if (component === undefined) return isRight(ratio, poured);
	const inPot = sumOf(poured);
	const missing = missingOf(ratio, whole, poured, component);
	const planned = (whole / sumOf(ratio)) * (ratio[component] ?? 0);
	return nearestMarks(inPot + missing, mark).every(level => {
		const part = level - inPot;
		const isOff = !isNear(part, missing) || !isNear(part, planned);
		return !isOff && marksGive(ratio, whole, mark, rest, { ...poured, [component]: part });
	});
}

/**
 * The smallest batch, no smaller than the one wanted, that the marks give.
 * @param wanted above 0
 * @param most no batch is larger, same unit
 * @returns in the unit of `wanted`: that itself, or a whole number of marks; null where none up to `most` is given
 */
export function leastGiven(
	ratio: Ratio,
	wanted: number,
	mark: number,
	order: readonly Component[],
	most: number,
): number | null {
	if (marksGive(ratio, positive('the batch wanted', wanted), mark, order)) return wanted;
	/** Below this the smallest part is less than a mark by more than may be. */
	const fewest =
		sumOf(ratio) / Math.min(...pourOrder.flatMap(component => ratio[component] || [])) / (1 + mostOff);
	for (let marks = Math.floor(Math.max(wanted / mark + 1, fewest) + 1e-9); marks * mark <= most; marks++)
		if (marksGive(ratio, marks * mark, mark, order)) return marks * mark;
	return null;
}
