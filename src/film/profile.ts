import { type Fan, strokeProfile } from '../trade/fan.ts';
import { betaHalf, integrate } from '../trade/quadrature.ts';
import { insideShare } from './beta.ts';

/** Film of one stroke across its line, its whole being 1. Places in mm from the line. */
export type Profile = {
	/** It reaches as far to either side, mm. */
	half_mm: number;
	/** Share of the film per mm. */
	at(y_mm: number): number;
	/** Share between the line and a place: −½ to ½. */
	from(y_mm: number): number;
};

/** (1 − u²)^(β − ½) over ±half, made 1. */
function double(half_mm: number, beta: number): Profile {
	const whole = half_mm * betaHalf(beta + 0.5);
	return {
		half_mm,
		at: y_mm => {
			const left = 1 - (y_mm / half_mm) ** 2;
			return left <= 0 ? 0 : left ** (beta - 0.5) / whole;
		},
		from: y_mm => (Math.sign(y_mm) * insideShare((y_mm / half_mm) ** 2, beta + 0.5)) / 2,
	};
}

/**
 * A stroke with the fan across it: g(y), and G(y) − ½.
 * Source: elliptical double-β model, integrated along the stroke.
 */
export const across = (fan: Fan): Profile => double(fan.width_mm / 2, fan.beta1);

/** Volume under a fan whose highest film is 1, mm². */
const whole_mm2 = ({ width_mm, depth_mm, beta1, beta2 }: Fan): number =>
	((width_mm * depth_mm) / 4) * betaHalf(beta2) * betaHalf(beta1 + 0.5);

/**
 * Share of the footprint that lies within so many mm of its middle along the stroke, at a place across it.
 * @returns −½ to ½
 */
export function reached(fan: Fan, x_mm: number, y_mm: number): number {
	const left = 1 - (y_mm / (fan.width_mm / 2)) ** 2;
	if (left <= 0) return Math.sign(x_mm) / 2;
	const half = (fan.depth_mm / 2) ** 2 * left;
	return (Math.sign(x_mm) * insideShare(x_mm ** 2 / half, fan.beta2)) / 2;
}

/**
 * A stroke with the fan turned by an angle to the across direction, by quadrature of the model; 90°: along the stroke,
 * h(x) in place of g(y).
 */
export function turned(fan: Fan, angle_deg: number): Profile {
	const turn = (angle_deg * Math.PI) / 180;
	const half_mm = Math.hypot((fan.width_mm / 2) * Math.cos(turn), (fan.depth_mm / 2) * Math.sin(turn));
	if (angle_deg === 0) return across(fan);
	if (angle_deg === 90 && fan.beta1 === fan.beta2) return double(fan.depth_mm / 2, fan.beta1);
	const whole = whole_mm2(fan);
	const at = (y_mm: number) => (Math.abs(y_mm) >= half_mm ? 0 : strokeProfile(fan, angle_deg, y_mm) / whole);
	const from = (y_mm: number) => Math.sign(y_mm) * integrate(at, 0, Math.min(half_mm, Math.abs(y_mm)));
	return { half_mm, at, from };
}
