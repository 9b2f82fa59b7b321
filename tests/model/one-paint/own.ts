import type { Face, Job, PlannedCoat } from '../../../src/job/job.ts';

/**
 * Paint of a coat from flow × time, worked out anew from the sheet: shares no code with the program. For faces of a known
 * size, strokes with full ends, no pull under 0.3 s.
 */

/** Even steps for an integral of a smooth function, by Simpson's rule. */
const steps = 200;
function simpson(of: (x: number) => number, from: number, to: number): number {
	const width = (to - from) / steps;
	let sum = of(from) + of(to);
	for (let at = 1; at < steps; at++) sum += (at % 2 === 1 ? 4 : 2) * of(from + at * width);
	return (sum * width) / 3;
}

/** Film of a stroke, its whole being 1, at y and up to y: (1 − y²/a²)^(β − ½), by y = a·sin θ. */
function strokeOf(a: number, beta: number) {
	const inner = (angle: number) => Math.cos(angle) ** (2 * beta);
	const half = simpson(inner, 0, Math.PI / 2);
	return {
		at: (y: number) => (Math.abs(y) >= a ? 0 : (1 - (y / a) ** 2) ** (beta - 0.5) / (2 * a * half)),
		upTo: (y: number) =>
			Math.abs(y) >= a ? (Math.sign(y) + 1) / 2 : 0.5 + simpson(inner, 0, Math.asin(y / a)) / (2 * half),
	};
}

/** Lines of a face, mm from its edge: on the edge, unless they lie too close and half in gives the edges enough. */
function linesOf(
	high: number,
	spacing: number,
	film: (y: number) => number,
	first: string | undefined,
): number[] {
	const gaps = Math.max(1, Math.ceil(high / spacing - 0.001));
	const onEdge = Array.from({ length: gaps + 1 }, (_, nth) => (nth * high) / gaps);
	const halfIn = Array.from({ length: gaps }, (_, nth) => high / 2 + (nth - (gaps - 1) / 2) * spacing);
	if (first !== undefined) return first === 'half in' ? halfIn : onEdge;
	const all = (y: number) => halfIn.reduce((sum, line) => sum + film(y - line), 0);
	const places = Array.from({ length: 400 }, (_, nth) => (nth * high) / 400);
	const highest = Math.max(...places.map(all), ...halfIn.filter(y => y >= 0 && y <= high).map(all));
	return high / gaps < 0.8 * spacing && all(0) >= (2 / 3) * highest ? halfIn : onEdge;
}

export type OwnPass = { emitted_mL: number; landed_mL: number; elapsed_s: number; pull_s: number };

/** One coat of one face at the flow that its knob is set to. */
export function ownPass({ gun, materials }: Job, face: Face, coat: PlannedCoat): OwnPass {
	const material = materials[coat.material];
	const kind = material?.coats[coat.kind];
	const size = face.size_mm;
	const flow = coat.flow_mL_per_min;
	if (!material || !kind || !size || flow === undefined) throw new Error(`no figures of ${face.id}`);
	const { base, hardener, accelerator = 0, flattener = 0 } = material.ratio;
	const others = base + hardener + accelerator + flattener;
	const solids = material.solids * (1 - kind.reducer_parts / (others + kind.reducer_parts));
	const wet_mm = kind.dry_um / solids / 1000;
	const [long, high] = coat.stroke === 'side-to-side' ? size : [size[1], size[0]];
	const stroke = strokeOf(face.fanHeight_mm / 2, gun.beta[0]);
	const lines = linesOf(high, face.fanHeight_mm * (1 - gun.overlap), stroke.at, gun.firstLine);
	const worth = lines.reduce((sum, line) => sum + stroke.upTo(high - line) - stroke.upTo(-line), 0);
	const lead = gun.lead_mm ?? Math.max(50, Math.min(gun.fanDepth_mm, face.fanHeight_mm) / 2);
	const perSecond_mm3 = (flow * 1000) / 60;
	const speed = (perSecond_mm3 * gun.transfer * worth) / (high * wet_mm);
	const pull_s = (long + 2 * lead) / speed;
	const turns_s = (lines.length - 1) * (gun.turn_s ?? 0.5);
	const trigger_s = lines.length * pull_s + (gun.held ? turns_s : 0);
	return {
		emitted_mL: (flow * trigger_s) / 60,
		landed_mL: face.area_m2 * wet_mm * 1000,
		elapsed_s: lines.length * pull_s + turns_s,
		pull_s,
	};
}

/** The value below which a share of the normal law lies: Abramowitz and Stegun 26.2.23 (from memory), then by Newton's rule. */
function normalBelow(share: number): number {
	const density = (x: number) => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
	const tail = Math.sqrt(-2 * Math.log(1 - share));
	let x =
		tail -
		(2.515517 + 0.802853 * tail + 0.010328 * tail ** 2) /
			(1 + 1.432788 * tail + 0.189269 * tail ** 2 + 0.001308 * tail ** 3);
	for (let round = 0; round < 4; round++) x -= (0.5 + simpson(density, 0, x) - share) / density(x);
	return x;
}

export type Rate = { factor: number; unsure: number };

/** Paint that must be in the gun for a row of faces at the sheet's risk, mL: what they take, and what stays in gun and cup. */
export function ownInGun_mL(
	{ gun, risk = 0.02 }: Job,
	uses_mL: readonly number[],
	rate: Rate | undefined,
): number {
	const sum = uses_mL.reduce((total, use) => total + use, 0);
	const even = uses_mL.reduce((total, use) => total + use ** 2, 0) / sum ** 2;
	const common = rate?.unsure ?? Math.hypot(gun.transfer_tolerance / gun.transfer, 0.05);
	const spread = Math.sqrt(common ** 2 + 0.1 ** 2 * even);
	const batch = sum * Math.exp(0.5 * 0.1 ** 2 * (1 - even) + normalBelow(1 - risk) * spread);
	return batch + (gun.losses?.gun_mL ?? 20);
}
