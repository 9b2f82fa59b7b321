import { format, formatRange } from '../../trade/shown.ts';
import { filmMap } from '../pictures/film-map.ts';
import { spot } from '../said.ts';
import { type MapDrawn, type MapRow, mapsOf } from '../tables/map.ts';
import { figure, type Report, type Section } from './context.ts';
import { html, type Piece } from './markup.ts';
import { table } from './table.ts';

const by: Record<MapRow['by'], string> = {
	read: 'wet film read',
	pulls: "pulls, by the sheet's flow",
	planned: 'planned',
};

/** Coats whose film lies alike share a picture. */
function alike(maps: readonly MapDrawn[]): MapDrawn[][] {
	const found = new Map<string, MapDrawn[]>();
	for (const map of maps) {
		const { face: _face, coat: _coat, ...figures } = map.row;
		const key = JSON.stringify([figures, map.across_mm, map.sag_um]);
		found.set(key, [...(found.get(key) ?? []), map]);
	}
	return [...found.values()];
}

function pictures(maps: readonly MapDrawn[], units: Report['units']): Piece {
	if (maps.length === 0) return null;
	return [
		alike(maps).map((some, nth) => {
			const [first] = some;
			if (!first) return null;
			const spots = some.map(({ row }) => row);
			return [
				html`<h3>${spots.map(({ face, coat }) => spot(face, coat)).join('; ')}</h3>\n`,
				figure(filmMap(first, spots, nth + 1, units), `${first.row.strokes} strokes, ${by[first.row.by]}.`),
			];
		}),
		html`<p>Across the strokes, from one edge of the face to the other. The strip under the film, without colour: plain, as wanted; dots, under 80 %; squares, over 120 %; crosses, over the film at which it runs; empty, bare.</p>\n`,
	];
}

/** The film of each coat over its face, and what a fan turned wrong would have made of it. */
export function mapSection({ day, tables, units }: Report): Section {
	const um = (value: number) => format(value, 'film', units);
	const share = (value: number) => format(value, 'share', 'metric');
	return {
		id: 'map',
		title: 'Film over each face',
		content: [
			pictures(mapsOf(day, tables.film), units),
			table(
				'Film over each face',
				[
					{ head: 'Face', cell: row => spot(row.face, row.coat) },
					{ head: 'By', cell: row => by[row.by] },
					{ head: 'Mean, wet', cell: row => um(row.mean_wet_um), figure: true },
					{
						head: 'Least to most',
						cell: row => formatRange(row.least_wet_um, row.most_wet_um, 'film', units),
						figure: true,
					},
					{ head: 'Under 80 %', cell: row => share(row.under), figure: true },
					{ head: 'Over 120 %', cell: row => share(row.over), figure: true },
					{
						head: 'Runs on',
						cell: row => (row.over_sag === null ? 'flat work' : share(row.over_sag)),
						figure: true,
					},
					{
						head: 'Fan turned: ridge',
						cell: row => `${um(row.turned_wet_um)}, ${row.turned_times.toFixed(1)} times`,
						figure: true,
					},
					{ head: 'Fan turned: bare', cell: row => share(row.turned_bare), figure: true },
				],
				tables.map,
				'The sheet and the day give no film.',
			),
		],
	};
}
