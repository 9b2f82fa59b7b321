import {
	type Balance,
	balanceOf,
	type Laid,
	laidOut,
	standardLead_mm,
	standardTurn_s,
} from '../../film/balance.ts';
import { fullLength_mm } from '../../film/capture.ts';
import { type FilmShares, filmOver, filmTurned } from '../../film/map.ts';
import { boundsOf, outOf } from '../../job/bounds.ts';
import { usualFan } from '../../trade/fan.ts';
import { parseQuantity } from '../../trade/quantity.ts';
import { within } from '../../trade/range.ts';
import { format, formatRange } from '../../trade/shown.ts';
import type { Given, Worked } from './part.ts';

/** What the map of a face is worked out from, besides the film. */
export const mapOptions = {
	map: { type: 'boolean', says: 'the film of a face, place by place' },
	size: { type: 'string', value: 'SIZE', says: 'of the face, width by height, as in "24 in x 20 in"' },
	stroke: { type: 'string', value: 'STROKE', says: 'side to side, up and down or to and fro' },
	flow: { type: 'string', value: 'FLOW', says: 'of paint, trigger pulled' },
	fan: { type: 'string', value: 'LENGTH', says: 'height of the fan on the work' },
	depth: { type: 'string', value: 'LENGTH', says: 'its depth; 0.3 of its height if left out' },
	feather: { type: 'string', value: 'NUMBERS', says: 'across and along, as in "3, 3"; 3, 3 if left out' },
	overlap: { type: 'string', value: 'SHARE', says: 'of the strokes; 50% if left out' },
	speed: { type: 'string', value: 'SPEED', says: 'what this speed lays, instead of the speed for the film' },
	sag: { type: 'string', value: 'FILM', says: 'wet film above which it runs' },
	turned: { type: 'string', value: 'DEGREES', says: 'the fan turned from across the stroke, 0 to 90' },
} as const;

function sizeOf(given: Given): [number, number] {
	const text = given.text('size');
	const halves = text.split(/\s*[x×]\s*/);
	const unit = /[a-z]+$/i.exec(text)?.[0] ?? '';
	const read = halves.map(half => parseQuantity(/[a-z]/i.test(half) ? half : `${half} ${unit}`, 'length'));
	const [width, height, ...more] = read.map(one => (one.ok ? one.value : Number.NaN));
	if (width === undefined || height === undefined || more.length > 0 || !(width > 0 && height > 0))
		throw new RangeError(`--size "${text}", column 1: width by height is wanted, as in "24 in x 20 in"`);
	for (const one of [width, height]) {
		const wrong = outOf(boundsOf.length, one);
		if (wrong) throw new RangeError(`--size "${text}": ${wrong}`);
	}
	return [width, height];
}

const strokes = ['side to side', 'up and down', 'to and fro'];

/** Whether the strokes go along the width. */
function goesAcross(given: Given): boolean {
	const stroke = given.text('stroke').replaceAll('-', ' ');
	if (!strokes.includes(stroke))
		throw new RangeError(`--stroke "${stroke}", column 1: ${strokes.join(', ')} are known`);
	return stroke === 'side to side';
}

function featherOf(given: Given): [number, number] {
	const text = given.has('feather') ? given.text('feather') : `${usualFan.feather}`;
	const [across = Number.NaN, along = across, ...more] = text.split(/[\s,]+/).map(Number);
	if (more.length > 0 || !Number.isFinite(across) || !Number.isFinite(along))
		throw new RangeError(`--feather "${text}", column 1: two numbers are wanted, as in "3, 3"`);
	return [within('--feather', across, [1, 10]), within('--feather', along, [1, 10])];
}

/** The lines of the face that the options tell. */
export function laidFor(given: Given): Laid {
	const [width, height] = sizeOf(given);
	const [along_mm, across_mm] = goesAcross(given) ? [width, height] : [height, width];
	const fan_mm = given.quantity('fan', 'length');
	const [beta1, beta2] = featherOf(given);
	const depth_mm = Math.min(fan_mm, given.quantityOr('depth', 'length', usualFan.depthOfHeight * fan_mm));
	const fan = { width_mm: fan_mm, depth_mm, beta1, beta2 };
	return laidOut(
		{ along_mm, across_mm, pieces: 1, area_m2: (along_mm * across_mm) / 1e6, corner: false },
		{
			...{ fan, lead_mm: standardLead_mm(fan), turn_s: standardTurn_s, held: false, first: null },
			overlap: given.quantityOr('overlap', 'share', 0.5),
			transfer: given.quantityOr('transfer', 'share', 1),
		},
	);
}

/** Mean film that a speed lays, µm, instead of the speed that a film wants. */
function laidBy(laid: Laid, flow_mL_per_min: number, speed_mm_per_s: number): number {
	const { shape, setting, worth } = laid;
	const full = fullLength_mm(setting.fan, shape.along_mm, setting.lead_mm) / shape.along_mm;
	const landed_mm3_per_s = (flow_mL_per_min * 1000 * setting.transfer) / 60;
	return (1000 * landed_mm3_per_s * worth * full) / (shape.across_mm * speed_mm_per_s);
}

type Mapped = { laid: Laid; balance: Balance; wet_um: number; film: FilmShares };

function lines(given: Given, { laid, balance, wet_um, film }: Mapped, sag_um: number | null): string[] {
	const um = (value: number) => format(value, 'film', given.units);
	const share = (value: number) => format(value, 'share', 'metric');
	const { count, spacing_mm, first } = laid.lines;
	const one_s = balance.trigger_s / laid.strokes;
	return [
		`${count} strokes, ${format(spacing_mm, 'length', given.units)} apart, the first ${first}, at ${format(balance.speed_mm_per_s, 'speed', given.units)}: ${one_s.toFixed(1)} s each.`,
		`Trigger ${balance.trigger_s.toFixed(1)} s, with the turns ${balance.elapsed_s.toFixed(1)} s: ${format(balance.emitted_mL, 'volume', given.units)} leave the gun, ${format(balance.landed_mL, 'volume', given.units)} land (${share(balance.capture)} of the stream meets the face).`,
		`Wet film: mean ${um(film.mean * wet_um)}, ${formatRange(film.least * wet_um, film.most * wet_um, 'film', given.units)} from place to place.`,
		`Under 80 % of it ${share(film.under)} of the face, over 120 % ${share(film.over)}, bare ${share(film.bare)}.`,
		...(sag_um === null
			? []
			: [
					film.most * wet_um > sag_um
						? `It runs: ${share(film.overLimit)} of the face lies over ${um(sag_um)}.`
						: `Nowhere over ${um(sag_um)}.`,
				]),
	];
}

/** The film of a face from its strokes. @param wanted_um wet film wanted */
export function filmMap(given: Given, wanted_um: number): Worked {
	const laid = laidFor(given);
	const flow = given.quantity('flow', 'flow');
	const wet_um = given.has('speed') ? laidBy(laid, flow, given.quantity('speed', 'speed')) : wanted_um;
	const balance = balanceOf(laid, wet_um, flow);
	const sag_um = given.has('sag') ? given.quantity('sag', 'film') : null;
	const limit = sag_um === null ? Number.POSITIVE_INFINITY : sag_um / wet_um;
	const angle = within('--turned', given.numberOr('turned', 0), [0, 90], '°');
	const film = angle === 0 ? filmOver(laid, balance.lead_mm, limit) : filmTurned(laid, angle, limit);
	const mapped = { laid, balance, wet_um, film };
	return {
		keys: {
			strokes: laid.lines.count,
			spacing_mm: laid.lines.spacing_mm,
			first_mm: laid.lines.first_mm,
			speed_mm_per_s: balance.speed_mm_per_s,
			trigger_s: balance.trigger_s,
			elapsed_s: balance.elapsed_s,
			emitted_mL: balance.emitted_mL,
			landed_mL: balance.landed_mL,
			capture: balance.capture,
			mean_um: film.mean * wet_um,
			min_um: film.least * wet_um,
			max_um: film.most * wet_um,
			under: film.under,
			over: film.over,
			bare: film.bare,
			...(sag_um !== null && { over_sag: film.overLimit }),
		},
		lines: lines(given, mapped, sag_um),
		...(sag_um !== null && film.most * wet_um > sag_um && { status: 1 }),
	};
}
