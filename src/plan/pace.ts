import type { Pass } from './gun.ts';

/** What the work around the spraying takes, in seconds. This project's own figures, until a shop's are known. */
export type Pace = {
	/** Gear, extractor, air readings and the list before spraying, once a day. */
	setUp_s: number;
	/** One batch: stir, pour, strain, cup; its standing time comes on top. */
	mix_s: number;
	/** Paint into the gun's cup. */
	load_s: number;
	/** One stop at the gun: cap, knob. */
	turn_s: number;
	shortCheck_s: number;
	fullCheck_s: number;
	/** From one face to the next. */
	move_s: number;
	/** Gun, waste and rags at the end of a day. */
	clean_s: number;
	/** Age at which the gun is checked again before a face. */
	checkAge_s: number;
};

export const standardPace: Pace = {
	setUp_s: 900,
	mix_s: 360,
	load_s: 60,
	turn_s: 20,
	shortCheck_s: 20,
	fullCheck_s: 60,
	move_s: 5,
	clean_s: 1200,
	checkAge_s: 1200,
};

/**
 * Elapsed time and paint that a material takes in this shop, as factors of what the sheet says, where learned; what of
 * the paint stays unsure, as a deviation of its logarithm, and from how many cups.
 */
export type Rates = Record<
	string,
	{
		time: number | null;
		paint: number | null;
		unsure?: number | undefined;
		cups?: number | undefined;
	}
>;

/** Time that a pass takes: the shop's own where learned, else the sheet's, s. */
export const sprayOf_s = ({ coat }: Pick<Pass, 'coat'>, rates: Rates = {}): number =>
	coat.spray_s * (rates[coat.material]?.time ?? 1);

/** Paint that a pass takes: the shop's own where learned, else the sheet's, mL. */
export const paintOf_mL = ({ coat }: Pick<Pass, 'coat'>, rates: Rates = {}): number =>
	coat.volume_mL * (rates[coat.material]?.paint ?? 1);
