import { scaleLinear } from 'd3-scale';
import type { UnitSystem } from '../../trade/quantity.ts';
import { format } from '../../trade/shown.ts';
import type { Markup } from '../page/markup.ts';
import type { FanDrawn } from '../tables/fan.ts';
import { lengthsUnder, panelAt } from './panel.ts';
import { picture } from './picture.ts';

/** Height of the highest film drawn, px. */
const tallest = 130;

/** Film of several strokes across a panel: the fan across them, and along them, on one scale. */
export function strokesAcross(fan: FanDrawn, sag_um: number | null, nth: number, units: UnitSystem): Markup {
	const id = `fan-${nth}`;
	const shown = (um: number) => format(um, 'film', units);
	const highest = Math.max(fan.peak_across_wet_um, fan.peak_along_wet_um, sag_um ?? 0);
	const px = (um: number) => (um / (highest * 1.05)) * tallest;
	const first = fan.across[0]?.at_mm ?? 0;
	const last = fan.across.at(-1)?.at_mm ?? 1;
	const along = scaleLinear().domain([first, last]).range([0, 1000]);
	const scales = { id, across: along, px, units };
	const levels = [
		{ says: `mean ${shown(fan.mean_wet_um)}`, um: fan.mean_wet_um, kind: 'target' as const },
		...(sag_um === null ? [] : [{ says: `runs over ${shown(sag_um)}`, um: sag_um, kind: 'sag' as const }]),
	];
	const [even, next] = panelAt(
		{
			...{ says: 'Fan across the stroke, as it should be', profile: fan.across, fill: 'spray', levels },
			highest_um: Math.max(fan.peak_across_wet_um, sag_um ?? 0),
		},
		scales,
		0,
	);
	const says = 'Fan along the stroke: the cap was not turned';
	const [ridges, below] = panelAt(
		{
			says,
			profile: fan.along,
			fill: 'break',
			highest_um: highest,
			levels,
			peak: `ridge ${shown(fan.peak_along_wet_um)}`,
		},
		scales,
		next + 16,
	);
	return picture(
		{
			id,
			title: `Wet film across strokes ${format(fan.spacing_mm, 'length', units)} apart, ${format(fan.fan_height_mm, 'length', units)} fan`,
			desc: `Above, the fan across the stroke: an even film of ${shown(fan.mean_wet_um)}. Below, the same paint with the fan along the stroke: narrow ridges of ${shown(fan.peak_along_wet_um)}. The table below has the figures.`,
			height: below + 42,
		},
		[even, ridges, lengthsUnder([first, last], scales, below)],
	);
}
