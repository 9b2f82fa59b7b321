import { drawsOf, type Where } from '../model/erring/draws.ts';

/** Lots of one day, drawn by occasion: what is drawn at one place moves nothing at another. */
export type Lots = {
	/** From 0 up to 1. */
	at(...where: Where): number;
	is(rate: number, ...where: Where): boolean;
	between(low: number, high: number, ...where: Where): number;
	/** A whole number from 0 up to below `limit`. */
	below(limit: number, ...where: Where): number;
	pick<Thing>(things: readonly Thing[], ...where: Where): Thing;
};

/** @param seed a whole number */
export function lotsOf(seed: number): Lots {
	const { draw } = drawsOf(seed);
	const at = (...where: Where) => draw('lot', ...where);
	const below = (limit: number, ...where: Where) => Math.floor(at(...where) * limit);
	return {
		at,
		below,
		is: (rate, ...where) => at(...where) < rate,
		between: (low, high, ...where) => low + (high - low) * at(...where),
		pick: (things, ...where) => {
			const thing = things[below(things.length, ...where)];
			if (thing === undefined) throw new Error('nothing to pick from');
			return thing;
		},
	};
}
