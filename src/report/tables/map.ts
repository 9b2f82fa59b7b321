import { balanceOf } from '../../film/balance.ts';
import { type FilmPlace, filmAcross, filmOver, filmTurned } from '../../film/map.ts';
import { type Face, gunFor, laidAs, type PlannedCoat } from '../../job/job.ts';
import { linesOn, wanted_um } from '../../job/on-work.ts';
import { type Day, faceIn, plannedCoat } from './day.ts';
import type { FilmRow } from './film.ts';

/** The film of one coat over its face, place by place. Shares are of the face. */
export type MapRow = {
	face: string;
	coat: number;
	strokes: number;
	spacing_mm: number;
	first_mm: number;
	/** What it goes by: a wet film that was read, the pulls of a trigger line, or the plan alone. */
	by: 'read' | 'pulls' | 'planned';
	wanted_wet_um: number;
	mean_wet_um: number;
	least_wet_um: number;
	most_wet_um: number;
	/** Under 80 % and over 120 % of the film wanted, under 5 % of it, and over what the face holds; null: flat work. */
	under: number;
	over: number;
	bare: number;
	over_sag: number | null;
	/** The fan along the strokes: its ridges in times of the film wanted, and what lies bare between them. */
	turned_times: number;
	turned_wet_um: number;
	turned_bare: number;
};

/** … with its film across the strokes. */
export type MapDrawn = {
	row: MapRow;
	across_mm: number;
	sag_um: number | null;
	across: FilmPlace[];
	turned: FilmPlace[];
};

const mean = (values: readonly number[]): number =>
	values.reduce((sum, value) => sum + value, 0) / values.length;

/** The mean film that a map goes by: read, pulled, planned, in this order of worth. */
function meanOf(row: FilmRow, wanted: number): Pick<MapRow, 'by' | 'mean_wet_um'> {
	const read = row.measured.flatMap(({ wet_um }) => wet_um ?? []);
	if (read.length > 0) return { by: 'read', mean_wet_um: mean(read) };
	return row.laid_wet_um === null
		? { by: 'planned', mean_wet_um: wanted }
		: { by: 'pulls', mean_wet_um: row.laid_wet_um };
}

function drawnOf(day: Day, row: FilmRow, face: Face, coat: PlannedCoat): MapDrawn | null {
	const material = day.job.materials[coat.material];
	const wanted = material ? wanted_um(material, coat.kind) : null;
	if (wanted === null || coat.flow_mL_per_min === undefined) return null;
	const laid = linesOn(gunFor(day.job, coat), laidAs(face, coat), coat.stroke);
	const { lead_mm } = balanceOf(laid, wanted, coat.flow_mL_per_min);
	const its = meanOf(row, wanted);
	const times = its.mean_wet_um / wanted;
	const limit = (row.sag_um ?? Number.POSITIVE_INFINITY) / wanted;
	const film = filmOver(laid, lead_mm, limit, times);
	const { most: ridge, bare: turned_bare } = filmTurned(laid);
	const { count: strokes, spacing_mm, first_mm } = laid.lines;
	return {
		row: {
			...{ face: row.face, coat: row.coat, strokes, spacing_mm, first_mm, ...its, wanted_wet_um: wanted },
			least_wet_um: film.least * wanted,
			most_wet_um: film.most * wanted,
			...{ under: film.under, over: film.over, bare: film.bare },
			over_sag: row.sag_um === null ? null : film.overLimit,
			...{ turned_times: ridge, turned_wet_um: ridge * wanted, turned_bare },
		},
		sag_um: row.sag_um,
		across_mm: laid.shape.across_mm,
		across: filmAcross(laid, 0, times),
		turned: filmAcross(laid, 90),
	};
}

/** The maps of coats that were laid; none of a coat planned under older sums. */
export function mapsOf(day: Day, films: readonly FilmRow[]): MapDrawn[] {
	return films.flatMap(row => {
		const face = faceIn(day.job, row.face);
		const coat = plannedCoat(day.job, row.face, row.coat);
		return face && coat ? (drawnOf(day, row, face, coat) ?? []) : [];
	});
}

/** The same as figures alone. */
export const mapRows = (day: Day, films: readonly FilmRow[]): MapRow[] =>
	mapsOf(day, films).map(({ row }) => row);
