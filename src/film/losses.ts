/** Paint that goes to no face, mL each time: it is counted once, and not as a share. */
export type Losses = {
	/** Left in the strainer and on the wall of the pot, for each batch. */
	strainer_mL: number;
	pot_mL: number;
	/** Left in the gun and on the wall of its cup, each time it is emptied. */
	gun_mL: number;
	/** A burst on paper, s of flow. */
	burst_s: number;
};

/** Where a sheet says none. This project's own choice; 30 to 45 mL in all is common practice. */
export const standardLosses: Losses = { strainer_mL: 10, pot_mL: 10, gun_mL: 20, burst_s: 1 };

/** Paint of so many bursts, mL. */
export const bursts_mL = ({ burst_s }: Losses, flow_mL_per_min: number, bursts: number): number =>
	(bursts * burst_s * flow_mL_per_min) / 60;

/** What a batch leaves behind before any of it is in the gun, mL. */
export const leftInPot_mL = ({ strainer_mL, pot_mL }: Losses): number => strainer_mL + pot_mL;
