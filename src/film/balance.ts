import type { Fan } from '../trade/fan.ts';
import { positive, within } from '../trade/range.ts';
import { cornerWorth, fullLength_mm, linesWorth } from './capture.ts';
import { type FirstLine, type Lines, linesOf } from './lines.ts';
import { across } from './profile.ts';

/** A face as its strokes see it: `pieces` of one size, of which a share is there (openings are not). */
export type Shape = {
	along_mm: number;
	across_mm: number;
	pieces: number;
	area_m2: number;
	/** One edge along the strokes is sprayed first, straight at the corner. */
	corner: boolean;
};

/** What the gun is set to whatever the coat is, and how it is led. */
export type Setting = {
	fan: Fan;
	overlap: number;
	transfer: number;
	/** How far past each end, mm. */
	lead_mm: number;
	/** Time of a turn at the end of a stroke, s. */
	turn_s: number;
	/** The trigger is held through the turns. */
	held: boolean;
	first: FirstLine | null;
};

/** Strokes go past each end by this much, or half a fan's depth where that is more, mm. This project's own choice. */
const leastLead_mm = 50;
export const standardLead_mm = ({ depth_mm }: Fan): number => Math.max(leastLead_mm, depth_mm / 2);
/** Time of a turn where a sheet says none, s. This project's own choice. */
export const standardTurn_s = 0.5;
/** A pull of the trigger is no shorter, s. This project's own choice. */
const leastPull_s = 0.3;

/** A face under its lines: what follows from sizes alone. */
export type Laid = {
	shape: Shape;
	setting: Setting;
	lines: Lines;
	/** Strokes, and lines' worth of film that meets the face, the half of a corner pass with them. */
	strokes: number;
	worth: number;
};

/** Lays lines over a face. */
export function laidOut(shape: Shape, setting: Setting): Laid {
	const height_mm = positive('face across its strokes', shape.across_mm, 'mm');
	positive('face along its strokes', shape.along_mm, 'mm');
	positive('area', shape.area_m2, 'm²');
	const spacing_mm = setting.fan.width_mm * (1 - within('overlap', setting.overlap, [0, 0.95]));
	const profile = across(setting.fan);
	const lines = linesOf(height_mm, spacing_mm, profile, setting.first);
	const corner = shape.corner ? cornerWorth(profile, height_mm) : 0;
	return {
		...{ shape, setting, lines },
		strokes: lines.count + (shape.corner ? 0.5 : 0),
		worth: linesWorth(lines, profile) + corner,
	};
}

/** One coat of one face: paint, time and speed, which are one thing. */
export type Balance = {
	speed_mm_per_s: number;
	lead_mm: number;
	/** Trigger pulled, s; and with the turns at the ends, s. */
	trigger_s: number;
	elapsed_s: number;
	emitted_mL: number;
	landed_mL: number;
	/** Share of the landing stream that meets the face. */
	capture: number;
};

/** Speed at which a flow lays a film, mm/s, for strokes full over a length of the face. */
const speedFor = ({ shape, setting, worth }: Laid, flow_mm3_per_s: number, wet_mm: number, full_mm: number) =>
	(flow_mm3_per_s * setting.transfer * worth * full_mm) / (shape.across_mm * shape.along_mm * wet_mm);

/** Length of full film, mm, of strokes that lead so far. */
const fullOf = ({ shape, setting }: Laid, lead_mm: number): number =>
	fullLength_mm(setting.fan, shape.along_mm, lead_mm);

/**
 * Flow at which a face is sprayed at a speed, for a mean film.
 * @returns mL/min
 */
export function flowFor_mL_per_min(laid: Laid, wet_um: number, speed_mm_per_s: number): number {
	const perFlow = speedFor(laid, 1, wet_um / 1000, fullOf(laid, laid.setting.lead_mm));
	return ((speed_mm_per_s / perFlow) * 60) / 1000;
}

/** How far a stroke leads at a speed: as set, and further where the pull would be shorter than a hand can make it. */
const leadAt = ({ shape, setting }: Laid, speed_mm_per_s: number): number =>
	Math.max(setting.lead_mm, (leastPull_s * speed_mm_per_s - shape.along_mm) / 2);

/** Speed and lead of the strokes that lay a mean film: a lead that grows leaves more film at the ends. */
function speedAndLead(laid: Laid, flow_mm3_per_s: number, wet_mm: number): [number, number] {
	let lead_mm = laid.setting.lead_mm;
	let speed = 0;
	for (let round = 0; round < 50; round++) {
		speed = speedFor(laid, flow_mm3_per_s, wet_mm, fullOf(laid, lead_mm));
		const wanted = leadAt(laid, speed);
		if (wanted <= lead_mm * (1 + 1e-12)) break;
		lead_mm = wanted;
	}
	return [speed, lead_mm];
}

/**
 * The balance of one coat of one face: emitted = flow × trigger time, landed = emitted × transfer × capture,
 * landed = area × wet film.
 * @param wet_um mean wet film wanted
 * @param flow_mL_per_min trigger pulled
 * @throws RangeError for a quantity that is not above nought, a transfer outside 5 % to 100 %
 * Source: conservation of volume.
 */
export function balanceOf(laid: Laid, wet_um: number, flow_mL_per_min: number): Balance {
	const { shape, setting, strokes } = laid;
	within('transfer efficiency', setting.transfer, [0.05, 1]);
	const flow = (positive('flow', flow_mL_per_min, 'mL/min') * 1000) / 60;
	const [speed_mm_per_s, lead_mm] = speedAndLead(laid, flow, positive('wet film', wet_um, 'µm') / 1000);
	const pulled_s = (strokes * (shape.along_mm + 2 * lead_mm)) / speed_mm_per_s;
	const turns_s = (strokes - 1) * setting.turn_s;
	const trigger_s = shape.pieces * (pulled_s + (setting.held ? turns_s : 0));
	const landed_mL = shape.area_m2 * wet_um;
	const emitted_mL = (flow * trigger_s) / 1000;
	return {
		...{ speed_mm_per_s, lead_mm, trigger_s, emitted_mL, landed_mL },
		elapsed_s: trigger_s + (setting.held ? 0 : shape.pieces * turns_s),
		capture: landed_mL / (setting.transfer * emitted_mL),
	};
}
