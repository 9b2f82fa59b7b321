import { positive, within } from './range.ts';

/** What few products have beside base, hardener and reducer. */
export const extras = ['accelerator', 'flattener'] as const;
export type Extra = (typeof extras)[number];
/** Parts of each, by volume or by weight. No reducer: 0; of the extras only those that the product has. */
export type Ratio = { base: number; hardener: number; reducer: number } & {
	[extra in Extra]?: number | undefined;
};
export type Component = keyof Ratio;
export type Amounts = {
	base_mL: number;
	hardener_mL: number;
	reducer_mL: number;
	accelerator_mL?: number;
	flattener_mL?: number;
	total_mL: number;
};
/** kg/L of each. */
export type Densities = Ratio;

export const pourOrder: readonly Component[] = ['base', 'hardener', 'reducer', ...extras];

/** No more than this of a part that only goes along; in the unit of the ratio. This project's own choice. */
export const mostBeside = ({ base, hardener }: Pick<Ratio, 'base' | 'hardener'>): number =>
	2 * (base + hardener);

function checkedRatio(ratio: Ratio): Ratio {
	positive('parts of base', ratio.base);
	positive('parts of hardener', ratio.hardener);
	for (const beside of ['reducer', ...extras] as const)
		within(`parts of ${beside}`, ratio[beside] ?? 0, [0, mostBeside(ratio)]);
	return ratio;
}

/** The same components, each worked out anew. */
function eachOf(ratio: Ratio, of: (part: number, component: Component) => number): Ratio {
	const { base, hardener, reducer, accelerator, flattener } = ratio;
	return {
		base: of(base, 'base'),
		hardener: of(hardener, 'hardener'),
		reducer: of(reducer, 'reducer'),
		...(accelerator && { accelerator: of(accelerator, 'accelerator') }),
		...(flattener && { flattener: of(flattener, 'flattener') }),
	};
}

/** All parts together. */
export const sumOf = (parts: Partial<Ratio>): number =>
	pourOrder.reduce((total, component) => total + (parts[component] ?? 0), 0);

const amountsOf = (share: Ratio, total_mL: number): Amounts => {
	const parts = sumOf(share);
	const { accelerator, flattener, ...all } = eachOf(share, part => (total_mL * part) / parts);
	return {
		base_mL: all.base,
		hardener_mL: all.hardener,
		reducer_mL: all.reducer,
		...(accelerator !== undefined && { accelerator_mL: accelerator }),
		...(flattener !== undefined && { flattener_mL: flattener }),
		total_mL,
	};
};

/**
 * Parts by volume of a ratio by weight: parts ÷ density of each.
 * @param density_kg_per_L 0.5 to 5 each
 * @throws RangeError outside the range
 */
function byVolume(ratio: Ratio, density_kg_per_L: Densities): Ratio {
	const density = (component: Component) =>
		within(`density of the ${component}`, density_kg_per_L[component] ?? 0, [0.5, 5], 'kg/L');
	return eachOf(ratio, (part, component) => part / density(component));
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
export const grams = (amounts: Amounts, density_kg_per_L: Densities): Ratio =>
	eachOf(each_mL(amounts), (part, component) => part * (density_kg_per_L[component] ?? 1));

/** Parts of a batch in the unit that it is poured in: mL, or g on a scale. Takes and throws what `mixAmounts` does. */
export function partsPoured(given: Parameters<typeof mixAmounts>[0]): Ratio {
	const amounts = mixAmounts(given);
	return given.by === 'weight' && given.density_kg_per_L
		? grams(amounts, given.density_kg_per_L)
		: each_mL(amounts);
}

/** mL of one component. */
export const amountOf = (amounts: Amounts, component: Component): number => amounts[`${component}_mL`] ?? 0;

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
		.filter(component => (each[component] ?? 0) > 0)
		.map(component => {
			level += each[component] ?? 0;
			return { component, level };
		});
}

const each_mL = ({ base_mL, hardener_mL, reducer_mL, accelerator_mL, flattener_mL }: Amounts): Ratio => ({
	base: base_mL,
	hardener: hardener_mL,
	reducer: reducer_mL,
	...(accelerator_mL !== undefined && { accelerator: accelerator_mL }),
	...(flattener_mL !== undefined && { flattener: flattener_mL }),
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
	const whole = sumOf(parts);
	let total = positive('the batch as planned', wanted);
	for (const component of order) {
		const amount = within(`${component} poured`, poured[component] ?? 0, [0, 1e6]);
		const part = parts[component] ?? 0;
		if (amount > 0 && part === 0)
			throw new RangeError(`${component} was poured, but the ratio has none: discard the batch`);
		if (amount > 0) total = Math.max(total, (amount * whole) / part);
	}
	const full = eachOf(parts, part => (total * part) / whole);
	let level = sumOf(poured);
	const add = order.flatMap(component => {
		const more = (full[component] ?? 0) - (poured[component] ?? 0);
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
export const reducerShareOfMix = (ratio: Ratio): number => checkedRatio(ratio).reducer / sumOf(ratio);

/**
 * Volume solids of the reduced mix.
 * @param solids of all parts but the reducer together, 0.01 to 1
 * @param ratio parts by volume, or by weight where densities are given
 * @returns share
 */
export const solidsOfMix = (solids: number, ratio: Ratio, density_kg_per_L?: Densities | null): number =>
	within('volume solids', solids, [0.01, 1]) *
	(1 - reducerShareOfMix(density_kg_per_L ? byVolume(ratio, density_kg_per_L) : ratio));
