import { type Balance, balanceOf, flowFor_mL_per_min, type Laid } from './balance.ts';

/** Speeds that a hand keeps, mm/s: 6 to 24 in/s. Common practice, no source. */
export const comfortable_mm_per_s: readonly [number, number] = [150, 600];

export type Coat = { laid: Laid; wet_um: number };

export type Knob = {
	flow_mL_per_min: number;
	/** The flow is not the gun's: at that one a face would want a speed outside the range. */
	turned: boolean;
	/** No one flow keeps all speeds inside the range: another fan is wanted. */
	otherFan: boolean;
};

/**
 * The one flow at which every face of a kind of coat and a fan is sprayed inside the comfortable range: the gun's,
 * where it can be.
 * @param range slowest and fastest, mm/s
 */
export function knobFor(
	coats: readonly Coat[],
	flow_mL_per_min: number,
	[slowest, fastest]: readonly [number, number] = comfortable_mm_per_s,
): Knob {
	const most = Math.min(...coats.map(({ laid, wet_um }) => flowFor_mL_per_min(laid, wet_um, fastest)));
	const least = Math.max(...coats.map(({ laid, wet_um }) => flowFor_mL_per_min(laid, wet_um, slowest)));
	const slack = 1 + 1e-9;
	const otherFan = least > most * slack;
	if (flow_mL_per_min > most * slack) return { flow_mL_per_min: most, turned: true, otherFan };
	if (flow_mL_per_min < least / slack) return { flow_mL_per_min: least, turned: true, otherFan };
	return { flow_mL_per_min, turned: false, otherFan };
}

/** Balances of a kind of coat on its faces, with the knob that they share. */
export function coatsAt(
	coats: readonly Coat[],
	flow_mL_per_min: number,
	range: readonly [number, number] = comfortable_mm_per_s,
): { knob: Knob; balances: Balance[] } {
	const knob = knobFor(coats, flow_mL_per_min, range);
	return { knob, balances: coats.map(({ laid, wet_um }) => balanceOf(laid, wet_um, knob.flow_mL_per_min)) };
}
