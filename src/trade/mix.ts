import { positive, within } from './range.ts';

/** Parts of each, by volume or by weight. No reducer: 0. */
export type Ratio = { base: number; hardener: number; reducer: number };
export type Component = keyof Ratio;
export type Amounts = { base_mL: number; hardener_mL: number; reducer_mL: number; total_mL: number };
/** kg/L of each. */
export type Densities = Ratio;

export const pourOrder: readonly Component[] = ['base', 'hardener', 'reducer'];

function checkedRatio(ratio: Ratio): Ratio {
	positive('parts of base', ratio.base);
	positive('parts of hardener', ratio.hardener);
	within('parts of reducer', ratio.reducer, [0, 2 * (ratio.base + ratio.hardener)]);
	return ratio;
}

const amountsOf = (share: Ratio, total_mL: number): Amounts => {
	const parts = share.base + share.hardener + share.reducer;
	return {
		base_mL: (total_mL * share.base) / parts,
		hardener_mL: (total_mL * share.hardener) / parts,
		reducer_mL: (total_mL * share.reducer) / parts,
		total_mL,
	};
};

/**
 * Parts by volume of a ratio by weight: parts ÷ density of each.
 * @param density_kg_per_L 0.5 to 5 each
 * @throws RangeError outside the range
 */
function byVolume(ratio: Ratio, density_kg_per_L: Densities): Ratio {
	const part = (component: Component) =>
		ratio[component] / within(`density of the ${component}`, density_kg_per_L[component], [0.5, 5], 'kg/L');
	return { base: part('base'), hardener: part('hardener'), reducer: part('reducer') };
}

/**
 * How much of each makes a batch.
 * @param make_mL the whole batch, reducer and all; above 0
 * @param ratio parts by volume, or by weight where densities are given; reducer up to twice base and hardener
 * @returns mL of each; shrinkage on mixing (below 1 %) is left out
 * @throws RangeError outside the ranges
 */
export function mixAmounts(given: {
	ratio: Ratio;
	make_mL: number;
	by?: 'volume' | 'weight';
	density_kg_per_L?: Densities | null;
}): Amounts {
	const ratio = checkedRatio(given.ratio);
	const make_mL = positive('amount to make', given.make_mL, 'mL');
	if (given.by !== 'weight') return amountsOf(ratio, make_mL);
	if (!given.density_kg_per_L)
		throw new RangeError('a ratio by weight needs the density of each can, in kg/L');
	return amountsOf(byVolume(ratio, given.density_kg_per_L), make_mL);
}

/** Grams of each for a scale: mL × kg/L. */
export function grams(amounts: Amounts, density_kg_per_L: Densities): Ratio {
	const mass = (component: Component) => amountOf(amounts, component) * density_kg_per_L[component];
	return { base: mass('base'), hardener: mass('hardener'), reducer: mass('reducer') };
}

/** Parts of a batch in the unit that it is poured in: mL, or g on a scale. Takes and throws what `mixAmounts` does. */
export function partsPoured(given: Parameters<typeof mixAmounts>[0]): Ratio {
	const amounts = mixAmounts(given);
	return given.by === 'weight' && given.density_kg_per_L
		? grams(amounts, given.density_kg_per_L)
		: each_mL(amounts);
}

/** mL of one component. */
export const amountOf = (amounts: Amounts, component: Component): number => amounts[`${component}_mL`];

export type Level = { component: Component; level: number };

/**
 * What the cup or the scale reads after each pour, one onto the other, in the order of pouring.
 * @param each amount of each component, in any one unit (mL, g)
 * @param order of pouring; a component with no amount is left out
 * @returns in the unit given
 */
export function levels(each: Ratio, order: readonly Component[] = pourOrder): Level[] {
	let level = 0;
	return order
		.filter(component => each[component] > 0)
		.map(component => {
			level += each[component];
			return { component, level };
		});
}

/** All parts together. */
export const sumOf = (parts: Partial<Ratio>): number =>
	Object.values(parts).reduce((total, part) => total + part, 0);

const each_mL = ({ base_mL, hardener_mL, reducer_mL }: Amounts): Ratio => ({
	base: base_mL,
	hardener: hardener_mL,
	reducer: reducer_mL,
});

/**
 * The cup's levels after each pour.
 * @returns mL; for a scale `levels(grams(…))`
 */
export const levels_mL = (amounts: Amounts, order: readonly Component[] = pourOrder): Level[] =>
	levels(each_mL(amounts), order);

export type Rescaled = {
	ratio: Ratio;
	total: number;
	add: { component: Component; add: number; level: number }[];
};

/**
 * Too much of one was poured: the larger batch that it makes, and what must still be added to what is in the cup.
 * @param ratio parts in the unit poured in (volume or weight)
 * @param poured what is in so far, in one unit; at least one above 0
 * @param wanted the whole batch as first planned, same unit: it never gets smaller
 * @param order of pouring
 * @returns the new total, and for each component still short how much to add and the level it brings the cup to
 * @throws RangeError where nothing was poured, or something that has no part in the ratio
 */
export function rescaleForOver(
	ratio: Ratio,
	poured: Partial<Ratio>,
	wanted: number,
	order: readonly Component[] = pourOrder,
): Rescaled {
	const parts = checkedRatio(ratio);
	const whole = parts.base + parts.hardener + parts.reducer;
	let total = positive('the batch as planned', wanted);
	for (const component of order) {
		const amount = within(`${component} poured`, poured[component] ?? 0, [0, 1e6]);
		if (amount > 0 && parts[component] === 0)
			throw new RangeError(`${component} was poured, but the ratio has none: discard the batch`);
		if (amount > 0) total = Math.max(total, (amount * whole) / parts[component]);
	}
	const full: Ratio = {
		base: (total * parts.base) / whole,
		hardener: (total * parts.hardener) / whole,
		reducer: (total * parts.reducer) / whole,
	};
	let level = order.reduce((sum, component) => sum + (poured[component] ?? 0), 0);
	const add = order.flatMap(component => {
		const more = full[component] - (poured[component] ?? 0);
		if (more <= total * 1e-9) return [];
		level += more;
		return [{ component, add: more, level }];
	});
	return { ratio: full, total, add };
}

/**
 * How much of a component is still to go in. What is in of the others is its measure; before any of them is, the batch
 * as planned.
 * @param ratio parts in the unit poured in
 * @param planned the whole batch, same unit
 * @param poured what is in so far, same unit
 * @returns in that unit, 0 where it has all it needs
 * @throws RangeError as `rescaleForOver`
 */
export function missingOf(
	ratio: Ratio,
	planned: number,
	poured: Partial<Ratio>,
	component: Component,
): number {
	const inPot = sumOf(poured);
	const isAlone = inPot === (poured[component] ?? 0);
	const { add } = rescaleForOver(ratio, poured, isAlone ? planned : inPot);
	return add.find(one => one.component === component)?.add ?? 0;
}

/**
 * Reducer as parts, from a share of base and hardener together.
 * @param share 0 to 2, e.g. 0.15
 */
export const reducerParts = (share: number, { base, hardener }: { base: number; hardener: number }): number =>
	within('reducer', share * 100, [0, 200], '%') *
	0.01 *
	(positive('parts of base', base) + positive('parts of hardener', hardener));

/**
 * Share of the whole mix that is reducer, by volume.
 * @returns 0 to 0.67
 */
export const reducerShareOfMix = (ratio: Ratio): number =>
	checkedRatio(ratio).reducer / (ratio.base + ratio.hardener + ratio.reducer);

/**
 * Volume solids of the reduced mix.
 * @param solids of base and hardener together, 0.01 to 1
 * @param ratio parts by volume, or by weight where densities are given
 * @returns share
 */
export const solidsOfMix = (solids: number, ratio: Ratio, density_kg_per_L?: Densities | null): number =>
	within('volume solids', solids, [0.01, 1]) *
	(1 - reducerShareOfMix(density_kg_per_L ? byVolume(ratio, density_kg_per_L) : ratio));
