import { scaleLinear } from 'd3-scale';
import { type FilmKind, type FilmPlace, filmKind } from '../../film/map.ts';
import type { UnitSystem } from '../../trade/quantity.ts';
import { format, formatRange } from '../../trade/shown.ts';
import type { Markup, Piece } from '../page/markup.ts';
import { spot } from '../said.ts';
import type { MapDrawn, MapRow } from '../tables/map.ts';
import { lengthsUnder, panelAt, placeAcross } from './panel.ts';
import { bar, type Fill, filled, label, picture } from './picture.ts';

/** Height of the highest film drawn, and of the strip under it, px. */
const tallest = 96;
const strip_height = 12;

/** Told apart without colour: a bare place is left empty. */
const fillOf: Record<Exclude<FilmKind, 'bare'>, Fill> = {
	under: 'scuff',
	even: 'spray',
	over: 'sand',
	'over-limit': 'break',
};

/** A row of places in runs of one kind, from and to in shares of the face. */
function runsOf(places: readonly FilmPlace[], limit: number): { kind: FilmKind; from: number; to: number }[] {
	const runs: { kind: FilmKind; from: number; to: number }[] = [];
	for (const [nth, { share }] of places.entries()) {
		const kind = filmKind(share, limit);
		const from = Math.max(0, nth - 0.5) / (places.length - 1);
		const to = Math.min(places.length - 1, nth + 0.5) / (places.length - 1);
		const last = runs.at(-1);
		if (last?.kind === kind) last.to = to;
		else runs.push({ kind, from, to });
	}
	return runs;
}

const strip = (places: readonly FilmPlace[], limit: number, y: number, id: string): Piece =>
	runsOf(places, limit).map(({ kind, from, to }) =>
		bar({
			...{ from: placeAcross(from * 1000), to: placeAcross(to * 1000), y, height: strip_height },
			kind: `film ${kind}`,
			fill: kind === 'bare' ? 'none' : filled(id, fillOf[kind]),
		}),
	);

const share = (value: number): string => format(value, 'share', 'metric');

/** What the two panels say under their strips. */
const evenSaid = ({ under, over }: MapRow): string =>
	`under 80 %: ${share(under)}, over 120 %: ${share(over)} of the face`;
const ridgeSaid = ({ turned_times, turned_bare }: MapRow, ridge: string): string =>
	`ridge ${ridge}, ${turned_times.toFixed(1)} times; bare ${share(turned_bare)}`;

/** Film over one face, across its strokes from edge to edge: as it should be, and with the fan turned wrong. */
export function filmMap(
	{ row, across_mm, sag_um, across, turned }: MapDrawn,
	spots: readonly Pick<MapRow, 'face' | 'coat'>[],
	nth: number,
	units: UnitSystem,
): Markup {
	const id = `map-${nth}`;
	const um = (value: number) => format(value, 'film', units);
	const highest_um = Math.max(row.most_wet_um, row.turned_wet_um, sag_um ?? 0);
	const px = (film_um: number) => (film_um / (highest_um * 1.05)) * tallest;
	const scale = scaleLinear().domain([0, across_mm]).range([0, 1000]);
	const scales = { id, across: scale, px, units };
	const limit = (sag_um ?? Number.POSITIVE_INFINITY) / row.wanted_wet_um;
	const wet = (places: readonly FilmPlace[]) =>
		places.map(({ at_mm, share: its }) => ({ at_mm, wet_um: its * row.wanted_wet_um }));
	const sag = sag_um === null ? [] : [{ says: `runs over ${um(sag_um)}`, um: sag_um, kind: 'sag' as const }];
	const between = formatRange(row.least_wet_um, row.most_wet_um, 'film', units);
	const levels = [
		{ says: `mean ${um(row.mean_wet_um)}, ${between}`, um: row.mean_wet_um, kind: 'target' as const },
		...sag,
	];
	const [even, foot] = panelAt(
		{
			...{ says: 'Fan across the stroke', profile: wet(across), fill: 'spray', levels },
			highest_um: Math.max(row.most_wet_um, sag_um ?? 0),
		},
		scales,
		0,
	);
	const second = foot + strip_height + 30;
	const [ridges, below] = panelAt(
		{
			...{ says: 'Fan turned wrong', profile: wet(turned), fill: 'break', highest_um, levels: sag },
			peak: `ridge ${um(row.turned_wet_um)}`,
		},
		scales,
		second,
	);
	const end = below + strip_height + 2;
	const where = spots.map(one => spot(one.face, one.coat)).join('; ');
	return picture(
		{
			id,
			title: `Film over ${where}`,
			desc: `From edge to edge across ${row.strokes} strokes. Above, the fan across them: mean ${um(row.mean_wet_um)}, ${between}; ${evenSaid(row)}. Below, the fan turned wrong: ${ridgeSaid(row, um(row.turned_wet_um))}. The table below has the figures.`,
			height: end + 56,
		},
		[
			even,
			strip(across, limit, foot + 2, id),
			label(evenSaid(row), { x: 0, y: foot + strip_height + 16, dx: 2, kind: 'value' }),
			ridges,
			strip(turned, limit, below + 2, id),
			label(ridgeSaid(row, um(row.turned_wet_um)), { x: 0, y: end + 50, dx: 2, kind: 'value' }),
			lengthsUnder([0, across_mm], scales, end),
		],
	);
}
