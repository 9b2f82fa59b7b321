import { positive, within } from './range.ts';

/**
 * Air that must carry off the vapour of a solvent to keep it at a quarter of its lower explosive limit:
 * 4 × (1 − LEL) × vapour ÷ LEL × solvent. For checking arithmetic; it tells nothing about what may be breathed.
 * @param vapour_m3_per_L vapour that a litre of liquid gives, 0.05 to 1
 * @param lel lower explosive limit as a share of air, 0.001 to 0.5
 * @param solvent_L litres of solvent evaporated
 * @returns m³ of air; data sheets differ in the limit, and the result with them
 * @throws RangeError outside the ranges
 * Source: 29 CFR 1910.94(c)(6)(ii) (from memory).
 */
export function dilution_m3(given: { vapour_m3_per_L: number; lel: number; solvent_L: number }): number {
	const lel = within('lower explosive limit', given.lel * 100, [0.1, 50], '%') / 100;
	const vapour = within('vapour', given.vapour_m3_per_L, [0.05, 1], 'm³/L');
	return (4 * (1 - lel) * vapour * positive('solvent', given.solvent_L, 'L')) / lel;
}

/**
 * Air that must carry off the same vapour to keep it at its exposure limit: mixing × vapour ÷ limit × solvent. It is the mean
 * of a room, and no one breathes a mean; with isocyanate no figure of air replaces supplied air.
 * @param vapour_m3_per_L vapour that a litre of liquid gives, 0.05 to 1
 * @param limit exposure limit as a share of air, 0.000001 (1 ppm) to 0.01; data sheets and countries differ
 * @param solvent_L litres of solvent evaporated
 * @param mixing how many times more air a room wants than one that mixes at once, 1 to 10
 * @returns m³ of air
 * @throws RangeError outside the ranges
 * Source: general dilution, Q = G ÷ C × K, as a university's course of ventilation has it (Toledo, form 10).
 */
export function exposure_m3(given: {
	vapour_m3_per_L: number;
	limit: number;
	solvent_L: number;
	mixing: number;
}): number {
	const limit = within('exposure limit', given.limit * 1e6, [1, 10_000], 'ppm') / 1e6;
	const vapour = within('vapour', given.vapour_m3_per_L, [0.05, 1], 'm³/L');
	const mixing = within('mixing', given.mixing, [1, 10], 'times');
	return (mixing * vapour * positive('solvent', given.solvent_L, 'L')) / limit;
}

/** Said beside every figure of dilution. None of them says that anything may be done. */
export const cautions: readonly string[] = [
	'This checks arithmetic. It does not clear a room, a booth or a mask.',
	'Vapour gathers low and in corners; a mean says nothing about the place where the gun is.',
	'Health limits lie far below the explosive limit: breathing gear as the data sheet says.',
	'Data sheet, local codes and a licensed engineer decide.',
];
