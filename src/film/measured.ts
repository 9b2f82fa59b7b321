import { positive, within } from '../trade/range.ts';

/** What a painter measures at the bench, and what it says of the gun. */

/** Flow of paint caught in a graduate, trigger pulled and air off, mL/min. */
export const flowCaught_mL_per_min = (caught_mL: number, seconds: number): number =>
	(positive('paint caught', caught_mL, 'mL') / positive('seconds', seconds, 's')) * 60;

/**
 * Transfer × capture, from paint used on a face and the dry film it came to: area × dry ÷ (solids × used).
 * @param solids of the paint as sprayed, by volume
 * @returns share
 */
export const landedShare = (face: {
	area_m2: number;
	dry_um: number;
	solids: number;
	used_mL: number;
}): number =>
	(positive('area', face.area_m2, 'm²') * positive('dry film', face.dry_um, 'µm')) /
	(within('volume solids', face.solids, [0.01, 1]) * positive('paint used', face.used_mL, 'mL'));

/**
 * Feather of a fan from its flooded pattern: the stripes half way to each end over the middle one.
 * @param stripes_mm three lengths, the middle one in between
 * @returns β: good to a half
 * @throws RangeError where the outer stripes are no shorter than the middle one's
 * Source: (1 − ¼)^(β − ½), solved for β.
 */
export function feather(stripes_mm: readonly [number, number, number]): number {
	const [one, middle, other] = stripes_mm;
	const share =
		(positive('stripe', one, 'mm') + positive('stripe', other, 'mm')) / 2 / positive('stripe', middle, 'mm');
	return 0.5 + Math.log(within('outer stripes ÷ middle stripe', share, [0.05, 1])) / Math.log(0.75);
}
