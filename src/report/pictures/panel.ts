import type { ScaleLinear } from 'd3-scale';
import { area } from 'd3-shape';
import { format, type UnitSystem } from '../../trade/shown.ts';
import { html, type Piece, percent } from '../page/markup.ts';
import { type Fill, filled, inside, type Label, label, narrowest_px, roundTicks, rule } from './picture.ts';
import { width_px } from './text-room.ts';

/** Film along a line over the work, drawn as high as it is thick. */

export type Place = { at_mm: number; wet_um: number };

export type Panel = {
	says: string;
	profile: readonly Place[];
	fill: Fill;
	/** The highest film that it must find room for, µm. */
	highest_um: number;
	/** What its highest place is called, where it is the point of the picture. */
	peak?: string;
	/** Levels of film across it, each with its name. */
	levels: readonly { says: string; um: number; kind: 'target' | 'sag' }[];
};

/** Where panels of one picture stand: its id, its places across (0 to 1000), its px for a film. */
export type Scales = {
	id: string;
	across: ScaleLinear<number, number>;
	px: (um: number) => number;
	units: UnitSystem;
};

/** Left of the film stands its scale, percent. */
const side = 17;

/** A place of 0 to 1000 across a panel, in percent of the picture. */
export const placeAcross = (place: number): number => side + ((100 - side) * place) / 1000;

/** A level of film across a panel, with its name over or under the line. */
function level(says: string, y: number, kind: 'target' | 'sag'): Piece {
	const place: Label =
		kind === 'sag' ? { x: 100, y: y - 5, dx: -2, anchor: 'end' } : { x: side, y: y + 14, dx: 3 };
	return [
		html`<line x1="${percent(side)}" x2="${percent(100)}" y1="${y}" y2="${y}" class="${kind}"/>`,
		label(says, { ...place, kind: 'value' }),
	];
}

/** Least way between two figures of the scale, px. */
const apart_px = 20;

/** Round figures of film up the side, with a line across at each. */
function scaleOf(highest_um: number, { px, units }: Scales, foot: number): Piece {
	const count = Math.max(1, Math.floor(px(highest_um) / apart_px));
	return roundTicks(0, highest_um, 'film', units, count).map(um => {
		const y = foot - px(um);
		return [
			html`<line x1="${percent(side)}" x2="${percent(100)}" y1="${y}" y2="${y}" class="grid"/>`,
			label(um === 0 ? '0' : format(um, 'film', units), {
				x: side,
				y: y + 4,
				dx: -5,
				anchor: 'end',
				kind: 'tick',
			}),
		];
	});
}

/** The highest place, that of several which lies nearest to a third of the way across. */
function peakOf(profile: readonly Place[], across: Scales['across']): Place | undefined {
	const most = Math.max(...profile.map(({ wet_um }) => wet_um));
	const off = ({ at_mm }: Place) => Math.abs(across(at_mm) - 333);
	return profile
		.filter(({ wet_um }) => wet_um > 0.995 * most)
		.toSorted((one, other) => off(one) - off(other))[0];
}

/** A panel at a height of the picture, and the height of its foot. */
export function panelAt(
	{ says, profile, fill, highest_um, peak, levels }: Panel,
	scales: Scales,
	y: number,
): [Piece, number] {
	const { id, across, px } = scales;
	const foot = Math.ceil(px(highest_um)) + 36;
	const up = (um: number) => foot - px(um);
	const d =
		area<Place>()
			.x(({ at_mm }) => across(at_mm))
			.y0(foot)
			.y1(({ wet_um }) => up(wet_um))([...profile]) ?? '';
	const top = peak === undefined ? undefined : peakOf(profile, across);
	return [
		[
			label(says, { x: 0, y: y + 11, kind: 'name' }),
			scaleOf(highest_um, scales, y + foot),
			html`<svg x="${percent(side)}" y="${y}" width="${percent(100 - side)}" height="${foot}" viewBox="0 0 1000 ${foot}" preserveAspectRatio="none"><path d="${d}" fill="${filled(id, fill)}" class="film" vector-effect="non-scaling-stroke"/></svg>`,
			levels.map(one => level(one.says, y + up(one.um), one.kind)),
			top && peak !== undefined
				? label(peak, {
						x: placeAcross(across(top.at_mm)),
						y: y + up(top.wet_um) - 5,
						anchor: across(top.at_mm) < 250 ? 'start' : across(top.at_mm) > 750 ? 'end' : 'middle',
						kind: 'coat',
					})
				: null,
		],
		y + foot,
	];
}

/** Round lengths under a panel, with the name of the axis beneath them; it takes 34 px. */
export function lengthsUnder(
	[from_mm, to_mm]: [number, number],
	{ across, units }: Scales,
	y: number,
): Piece {
	let taken_px = Number.NEGATIVE_INFINITY;
	const marks = roundTicks(from_mm, to_mm, 'length', units).map(mm => {
		const x = placeAcross(across(mm));
		const says = format(mm, 'length', units);
		const anchor = inside(x);
		const room_px = width_px(says, 12);
		const left_px = (x / 100) * narrowest_px - (anchor === 'end' ? room_px : room_px / 2);
		const free = left_px > taken_px + 4;
		if (free) taken_px = left_px + room_px;
		return [rule(x, y, y + 6, 'grid'), free ? label(says, { x, y: y + 18, anchor, kind: 'tick' }) : null];
	});
	return [
		marks,
		label('across the strokes', { x: placeAcross(500), y: y + 33, anchor: 'middle', kind: 'tick' }),
	];
}
