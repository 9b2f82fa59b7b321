import { scaleLinear } from 'd3-scale';
import { area } from 'd3-shape';
import type { UnitSystem } from '../../trade/quantity.ts';
import { format } from '../../trade/shown.ts';
import { html, type Markup, type Piece, percent } from '../page/markup.ts';
import type { FanDrawn, Profile } from '../tables/fan.ts';
import { filled, inside, label, picture, rule } from './picture.ts';

const panel_height = 120;

/** Film of several strokes across a panel: the fan across them, and along them, on one scale. */
export function strokesAcross(fan: FanDrawn, sag_um: number | null, nth: number, units: UnitSystem): Markup {
	const id = `fan-${nth}`;
	const highest = Math.max(fan.peak_across_wet_um, fan.peak_along_wet_um, sag_um ?? 0);
	const up = scaleLinear()
		.domain([0, highest * 1.08])
		.range([panel_height, 0]);
	const first = fan.across[0]?.at_mm ?? 0;
	const last = fan.across.at(-1)?.at_mm ?? 1;
	const along = scaleLinear().domain([first, last]).range([0, 1000]);
	const shape = (profile: Profile): string =>
		area<Profile[number]>()
			.x(({ at_mm }) => along(at_mm))
			.y0(panel_height)
			.y1(({ wet_um }) => up(wet_um))(profile) ?? '';
	const shown = (um: number) => format(um, 'film', units);
	const panel = (profile: Profile, says: string, y: number, fill: 'spray' | 'break'): Piece => [
		label(says, { x: 0, y: y - 8, kind: 'name' }),
		html`<svg x="0" y="${y}" width="100%" height="${panel_height}" viewBox="0 0 1000 ${panel_height}" preserveAspectRatio="none"><path d="${shape(profile)}" fill="${filled(id, fill)}" class="film" vector-effect="non-scaling-stroke"/></svg>`,
		html`<line x1="0" x2="${percent(100)}" y1="${y + up(fan.mean_wet_um)}" y2="${y + up(fan.mean_wet_um)}" class="target"/>`,
		label(`mean ${shown(fan.mean_wet_um)}`, { x: 0, y: y + up(fan.mean_wet_um) - 4, dx: 2, kind: 'value' }),
		sag_um === null
			? null
			: [
					html`<line x1="0" x2="${percent(100)}" y1="${y + up(sag_um)}" y2="${y + up(sag_um)}" class="sag"/>`,
					label(`runs over ${shown(sag_um)}`, {
						x: 100,
						y: y + up(sag_um) - 4,
						dx: -2,
						anchor: 'end',
						kind: 'value',
					}),
				],
	];
	const foot = 2 * (panel_height + 40);
	const marks = scaleLinear()
		.domain([first, last])
		.range([0, 100])
		.ticks(5)
		.map(mm => {
			const x = along(mm) / 10;
			return [
				rule(x, foot - 6, foot, 'grid'),
				label(format(mm, 'length', units), { x, y: foot + 13, anchor: inside(x), kind: 'tick' }),
			];
		});
	return picture(
		{
			id,
			title: `Wet film across ${format(fan.spacing_mm, 'length', units)} strokes of a ${format(fan.fan_height_mm, 'length', units)} fan`,
			desc: `Above, the fan across the stroke: an even film of ${shown(fan.mean_wet_um)}. Below, the same paint with the fan along the stroke: narrow ridges of ${shown(fan.peak_along_wet_um)}. The table below has the figures.`,
			height: foot + 20,
		},
		[
			panel(fan.across, 'Fan across the stroke: as it should be', 28, 'spray'),
			panel(
				fan.along,
				'Fan along the stroke: what a cap not turned would lay',
				28 + panel_height + 40,
				'break',
			),
			marks,
		],
	);
}
