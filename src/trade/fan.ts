import { betaHalf, integrate } from './quadrature.ts';
import { positive, within } from './range.ts';

/** A fan on the work: full length and depth of its ellipse, and the exponents of the film across and along it. */
export type Fan = { width_mm: number; depth_mm: number; beta1: number; beta2: number };

/**
 * A fan that nobody measured, in sheets and sums alike. Feather 3 is the one at which strokes that overlap by half, as most
 * do, lie nearly as even as they can. This project's own choice.
 */
export const usualFan = { feather: 3, depthOfHeight: 0.3 };

const betas = [1, 10] as const;
const overlaps = [0, 0.95] as const;

function checked(fan: Fan): { a: number; b: number; beta1: number; beta2: number } {
	return {
		a: positive('fan width', fan.width_mm, 'mm') / 2,
		b: positive('fan depth', fan.depth_mm, 'mm') / 2,
		beta1: within('beta1', fan.beta1, betas),
		beta2: within('beta2', fan.beta2, betas),
	};
}

const power = (base: number, exponent: number): number =>
	exponent === 0 ? 1 : Math.max(0, base) ** exponent;

/**
 * Film of a stroke with the fan across it, at a distance from its middle: (1 − x²)^(β1 − ½).
 * @param x distance from the middle ÷ half the fan, any
 * @param beta1 1 (film full to the edge) to 10 (well feathered)
 * @returns share of the film in the middle; 0 outside the fan
 * Source: elliptical double-β model, in use in Coatings 2025, 15(5):581 (formula from memory).
 */
export const acrossFilm = (x: number, beta1: number): number =>
	Math.abs(x) >= 1 ? 0 : power(1 - x * x, within('beta1', beta1, betas) - 0.5);

/** Film of many parallel strokes at a place, as a share of the film in the middle of one; spacing in half fans. */
function layered(at: number, spacing: number, beta1: number): number {
	let sum = 0;
	for (let stroke = Math.ceil((at - 1) / spacing); stroke * spacing < at + 1; stroke++)
		sum += acrossFilm(at - stroke * spacing, beta1);
	return sum;
}

/**
 * Film across a panel of parallel strokes with the fan across them, from the edge of the first to that of the last.
 * @param beta1 1 to 10
 * @param overlap 0 to 0.95
 * @param strokes 1 to 200
 * @returns film at even distances, 200 to a fan, and the mean inside the panel, as shares of the film in the middle of one stroke
 */
export function layeredFilm(
	beta1: number,
	overlap: number,
	strokes: number,
): { film: number[]; mean: number } {
	const spacing = 2 * (1 - within('overlap', overlap, overlaps));
	const count = within('strokes', strokes, [1, 200]);
	const places = Math.round(100 * ((count - 1) * spacing + 2));
	const film = Array.from({ length: places }, (_, index) => {
		const at = (index + 0.5) / 100 - 1;
		let sum = 0;
		for (let stroke = 0; stroke < count; stroke++) sum += acrossFilm(at - stroke * spacing, beta1);
		return sum;
	});
	return { film, mean: betaHalf(beta1 + 0.5) / spacing };
}

/** From 0 to one spacing, with the places between at which the edge of a fan falls. */
function edges(spacing: number): number[] {
	const edge = 1 % spacing;
	return [0, edge, spacing - edge, spacing].sort((one, other) => one - other);
}

/**
 * Variation of the film over one spacing when many strokes overlap: standard deviation ÷ mean.
 * @param beta1 1 to 10
 * @param overlap (fan − spacing) ÷ fan, 0 to 0.95
 * @returns share; error below 1e-6
 * @throws RangeError outside the ranges
 */
export function variation(beta1: number, overlap: number): number {
	const spacing = 2 * (1 - within('overlap', overlap, overlaps));
	const mean = betaHalf(within('beta1', beta1, betas) + 0.5) / spacing;
	const places = edges(spacing);
	let squares = 0;
	for (const [index, to] of places.entries())
		squares += integrate(at => (layered(at, spacing, beta1) - mean) ** 2, places[index - 1] ?? 0, to);
	return Math.sqrt(squares / spacing) / mean;
}

/** Lowest point of a function between two places, to 1e-6, by golden section. */
function lowest(of: (at: number) => number, from: number, to: number): number {
	const golden = (Math.sqrt(5) - 1) / 2;
	let [low, high] = [from, to];
	while (high - low > 1e-6) {
		const left = high - golden * (high - low);
		const right = low + golden * (high - low);
		if (of(left) < of(right)) high = right;
		else low = left;
	}
	return (low + high) / 2;
}

/**
 * The widest good spacing: the first local minimum of the variation as the overlap grows from 0.
 * @param beta1 1 to 10
 * @returns overlap as a share; error below 1e-4
 * @throws RangeError outside the range
 */
export function bestOverlap(beta1: number): number {
	const step = 0.01;
	let least = variation(beta1, 0);
	for (let overlap = step; overlap < overlaps[1]; overlap += step) {
		const here = variation(beta1, overlap);
		if (here > least) return lowest(at => variation(beta1, at), Math.max(0, overlap - 2 * step), overlap);
		least = here;
	}
	return overlaps[1];
}

/**
 * How many times higher the film stands on one line with the fan along the stroke than with it across:
 * (a/b) · B(½, β1) / B(½, β2).
 * @throws RangeError outside the ranges
 * Source: integral of the double-β model along either axis.
 */
export function alongToAcross(fan: Fan): number {
	const { a, b, beta1, beta2 } = checked(fan);
	return ((a / b) * betaHalf(beta1)) / betaHalf(beta2);
}

/**
 * Film of one stroke at a distance from its line, with the fan at any angle: by quadrature of the model.
 * @param fan the fan
 * @param angle_deg 0 across the stroke, 90 along it
 * @param at_mm distance from the middle of the stroke
 * @returns film per unit of Zmax ÷ speed, in mm; `strokeFilm_um` makes it a film
 */
export function strokeProfile(fan: Fan, angle_deg: number, at_mm: number): number {
	const { a, b, beta1, beta2 } = checked(fan);
	const turn = (within('angle', angle_deg, [-360, 360], '°') * Math.PI) / 180;
	const [along, across] = [Math.sin(turn), Math.cos(turn)];
	const [p, q] = [(at_mm * across) / a, along / a];
	const [r, t] = [(-at_mm * along) / b, across / b];
	const square = q * q + t * t;
	const middle = -(p * q + r * t) / square;
	const reach = (1 - (p * t - r * q) ** 2 / square) / square;
	if (reach <= 0) return 0;
	const film = (s: number): number => {
		const inside = 1 - (p + q * s) ** 2;
		return inside <= 0 ? 0 : power(inside, beta1 - 1) * power(1 - (r + t * s) ** 2 / inside, beta2 - 1);
	};
	return integrate(film, middle - Math.sqrt(reach), middle + Math.sqrt(reach));
}

/** What leaves the gun and lands, and how fast the gun goes. */
export type Stroke = { flow_mL_per_min: number; transfer: number; speed_mm_per_s: number };

/** Paint that lands per mm of stroke, mm², over the volume under the fan for Zmax = 1, mm². */
function scale(fan: Fan, stroke: Stroke): number {
	const { a, b, beta1, beta2 } = checked(fan);
	const landed = within('transfer efficiency', stroke.transfer, [0.05, 1]);
	const laid_mm2 =
		((positive('flow', stroke.flow_mL_per_min, 'mL/min') * 1000) /
			60 /
			positive('speed', stroke.speed_mm_per_s, 'mm/s')) *
		landed;
	return laid_mm2 / (a * b * betaHalf(beta2) * betaHalf(beta1 + 0.5));
}

/**
 * Wet film of one stroke at a distance from its line.
 * @param angle_deg of the fan to the across direction: 0 across the stroke, 90 along it
 * @returns µm
 * @throws RangeError outside the ranges
 */
export const strokeFilm_um = (fan: Fan, stroke: Stroke, angle_deg: number, at_mm: number): number =>
	1000 * scale(fan, stroke) * strokeProfile(fan, angle_deg, at_mm);

export type Panel = { angle_deg: number; spacing_mm: number; strokes: number; step_mm: number };

/**
 * Wet film across a panel that takes several parallel strokes, from one fan before the first to one after the last.
 * @param panel fan's angle; spacing of the strokes, their number (1 to 200), and the step of the answer
 * @returns places in mm from the first stroke, and wet film in µm
 * @throws RangeError outside the ranges
 */
export function filmProfile(fan: Fan, stroke: Stroke, panel: Panel): { at_mm: number; wet_um: number }[] {
	const strokes = within('strokes', panel.strokes, [1, 200]);
	const spacing = positive('spacing', panel.spacing_mm, 'mm');
	const step = positive('step', panel.step_mm, 'mm');
	const reach = Math.max(fan.width_mm, fan.depth_mm) / 2;
	const last = (strokes - 1) * spacing;
	const count = Math.ceil((last + 2 * reach) / step);
	const factor = 1000 * scale(fan, stroke);
	return Array.from({ length: count + 1 }, (_, index) => {
		const at_mm = -reach + index * step;
		let sum = 0;
		for (let nth = 0; nth < strokes; nth++) {
			const away = at_mm - nth * spacing;
			if (Math.abs(away) < reach) sum += strokeProfile(fan, panel.angle_deg, away);
		}
		return { at_mm, wet_um: factor * sum };
	});
}
