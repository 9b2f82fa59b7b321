import type { ScaleLinear } from 'd3-scale';
import { area } from 'd3-shape';
import { html, type Piece, percent } from '../page/markup.ts';
import { type Fill, filled, type Label, label } from './picture.ts';

/** Film along a line over the work, drawn as high as it is thick. */

export type Place = { at_mm: number; wet_um: number };

export type Panel = {
	says: string;
	profile: readonly Place[];
	fill: Fill;
	/** The highest film that it must find room for, µm. */
	highest_um: number;
	/** Levels of film across it, each with its name. */
	levels: readonly { says: string; um: number; kind: 'target' | 'sag' }[];
};

/** Where panels of one picture stand: its id, its places across (0 to 1000), its px for a film. */
export type Scales = { id: string; across: ScaleLinear<number, number>; px: (um: number) => number };

/** A level of film across a panel, with its name over or under the line. */
function level(says: string, y: number, kind: 'target' | 'sag'): Piece {
	const place: Label =
		kind === 'sag' ? { x: 100, y: y - 5, dx: -2, anchor: 'end' } : { x: 0, y: y + 14, dx: 2 };
	return [
		html`<line x1="0" x2="${percent(100)}" y1="${y}" y2="${y}" class="${kind}"/>`,
		label(says, { ...place, kind: 'value' }),
	];
}

/** A panel at a height of the picture, and the height of its foot. */
export function panelAt(
	{ says, profile, fill, highest_um, levels }: Panel,
	{ id, across, px }: Scales,
	y: number,
): [Piece, number] {
	const foot = Math.ceil(px(highest_um)) + 36;
	const up = (um: number) => foot - px(um);
	const d =
		area<Place>()
			.x(({ at_mm }) => across(at_mm))
			.y0(foot)
			.y1(({ wet_um }) => up(wet_um))([...profile]) ?? '';
	return [
		[
			label(says, { x: 0, y: y + 11, kind: 'name' }),
			html`<svg x="0" y="${y}" width="100%" height="${foot}" viewBox="0 0 1000 ${foot}" preserveAspectRatio="none"><path d="${d}" fill="${filled(id, fill)}" class="film" vector-effect="non-scaling-stroke"/></svg>`,
			levels.map(one => level(one.says, y + up(one.um), one.kind)),
		],
		y + foot,
	];
}
