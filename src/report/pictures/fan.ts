import { scaleLinear } from 'd3-scale';
import { area } from 'd3-shape';
import type { UnitSystem } from '../../trade/quantity.ts';
import { format } from '../../trade/shown.ts';
import { html, type Markup, type Piece, percent } from '../page/markup.ts';
import type { FanDrawn, Profile } from '../tables/fan.ts';
import { filled, inside, type Label, label, picture, roundTicks, rule } from './picture.ts';

/** Height of the highest film drawn, px. */
const tallest = 130;

type Panel = { says: string; profile: Profile; fill: 'spray' | 'break'; highest: number };

/** A level of film across a panel, with its name over or under the line. */
function level(says: string, y: number, kind: 'target' | 'sag'): Piece {
	const place: Label =
		kind === 'sag' ? { x: 100, y: y - 5, dx: -2, anchor: 'end' } : { x: 0, y: y + 14, dx: 2 };
	return [
		html`<line x1="0" x2="${percent(100)}" y1="${y}" y2="${y}" class="${kind}"/>`,
		label(says, { ...place, kind: 'value' }),
	];
}

/** Film of several strokes across a panel: the fan across them, and along them, on one scale. */
export function strokesAcross(fan: FanDrawn, sag_um: number | null, nth: number, units: UnitSystem): Markup {
	const id = `fan-${nth}`;
	const shown = (um: number) => format(um, 'film', units);
	const highest = Math.max(fan.peak_across_wet_um, fan.peak_along_wet_um, sag_um ?? 0);
	const px = (um: number) => (um / (highest * 1.05)) * tallest;
	const first = fan.across[0]?.at_mm ?? 0;
	const last = fan.across.at(-1)?.at_mm ?? 1;
	const along = scaleLinear().domain([first, last]).range([0, 1000]);
	const draw = ({ says, profile, fill, highest: top }: Panel, y: number): [Piece, number] => {
		const foot = Math.ceil(px(top)) + 36;
		const up = (um: number) => foot - px(um);
		const d =
			area<Profile[number]>()
				.x(({ at_mm }) => along(at_mm))
				.y0(foot)
				.y1(({ wet_um }) => up(wet_um))(profile) ?? '';
		const piece = [
			label(says, { x: 0, y: y + 11, kind: 'name' }),
			html`<svg x="0" y="${y}" width="100%" height="${foot}" viewBox="0 0 1000 ${foot}" preserveAspectRatio="none"><path d="${d}" fill="${filled(id, fill)}" class="film" vector-effect="non-scaling-stroke"/></svg>`,
			level(`mean ${shown(fan.mean_wet_um)}`, y + up(fan.mean_wet_um), 'target'),
			sag_um === null ? null : level(`runs over ${shown(sag_um)}`, y + up(sag_um), 'sag'),
		];
		return [piece, y + foot + 16];
	};
	const [even, next] = draw(
		{
			says: 'Fan across the stroke, as it should be',
			profile: fan.across,
			fill: 'spray',
			highest: Math.max(fan.peak_across_wet_um, sag_um ?? 0),
		},
		0,
	);
	const [ridges, foot] = draw(
		{ says: 'Fan along the stroke: the cap was not turned', profile: fan.along, fill: 'break', highest },
		next,
	);
	const marks = roundTicks(first, last, 'length', units).map(mm => {
		const x = along(mm) / 10;
		return [
			rule(x, foot - 16, foot - 10, 'grid'),
			label(format(mm, 'length', units), { x, y: foot + 3, anchor: inside(x), kind: 'tick' }),
		];
	});
	return picture(
		{
			id,
			title: `Wet film across strokes ${format(fan.spacing_mm, 'length', units)} apart, ${format(fan.fan_height_mm, 'length', units)} fan`,
			desc: `Above, the fan across the stroke: an even film of ${shown(fan.mean_wet_um)}. Below, the same paint with the fan along the stroke: narrow ridges of ${shown(fan.peak_along_wet_um)}. The table below has the figures.`,
			height: foot + 12,
		},
		[even, ridges, marks],
	);
}
