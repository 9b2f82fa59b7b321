import { scaleLinear } from 'd3-scale';
import type { UnitSystem } from '../../trade/quantity.ts';
import { format } from '../../trade/shown.ts';
import type { Markup, Piece } from '../page/markup.ts';
import { face as faceSaid } from '../said.ts';
import type { FilmRow } from '../tables/film.ts';
import { bar, filled, inPieces, inside, label, picture, roundTicks, rule } from './picture.ts';

const top = 26;
const name_height = 20;
const coat_height = 20;
/** Faces that find room in one picture on one sheet. */
const most = 10;

type Group = { face: string; rows: FilmRow[] };

/** A dry gauge reads all coats together, so only wet readings stand beside one coat's bar. */
const measuredWet = ({ measured }: FilmRow): number[] => measured.flatMap(({ wet_um }) => wet_um ?? []);

export const paceSaid: Record<NonNullable<FilmRow['pace']>, string> = {
	fast: 'fast',
	right: 'as planned',
	slow: 'slow',
};

/** Whether a coat has a wet film to show: by its pulls, or read on the day. */
export const isShown = (row: FilmRow): boolean => row.laid_wet_um !== null || measuredWet(row).length > 0;

/** The film that the pulls of a coat come to, and what the transfer may be off by. */
function laidBars(row: FilmRow, x: (um: number) => number, y: number, id: string): Piece {
	const { laid_wet_um, laid_low_wet_um, laid_high_wet_um, over_sag } = row;
	if (laid_wet_um === null) return null;
	const fill = filled(id, over_sag ? 'break' : 'spray');
	const [low, high] = [x(laid_low_wet_um ?? laid_wet_um), x(laid_high_wet_um ?? laid_wet_um)];
	return [
		bar({ from: 0, to: x(laid_wet_um), y, height: 15, fill, kind: 'film' }),
		bar({ from: low, to: high, y: y + 12, height: 2, fill: 'currentColor', kind: 'span' }),
	];
}

function said(row: FilmRow, units: UnitSystem): string {
	const um = (value: number) => format(value, 'film', units);
	const { laid_wet_um, over_sag, pace } = row;
	if (laid_wet_um === null) return `read ${measuredWet(row).map(um).join(', ')}`;
	const tail = over_sag ? ', over its limit' : pace === null || pace === 'right' ? '' : `, ${paceSaid[pace]}`;
	return `${um(laid_wet_um)}${tail}`;
}

function coat(row: FilmRow, x: (um: number) => number, y: number, id: string, units: UnitSystem): Piece {
	const { target_wet_um, sag_um } = row;
	return [
		laidBars(row, x, y, id),
		rule(x(target_wet_um), y - 2, y + 17, 'target'),
		sag_um === null ? null : rule(x(sag_um), y - 2, y + 17, 'sag'),
		measuredWet(row).map(um => rule(x(um), y + 1, y + 14, 'measured')),
		label(`coat ${row.coat}: ${said(row, units)}`, {
			x: 0,
			y: y + 11,
			dx: 5,
			kind: 'value',
		}),
	];
}

/** Wet film of each coat given, against its target and the film at which it runs. */
export function film(rows: readonly FilmRow[], faces: readonly string[], units: UnitSystem): Markup[] {
	const groups: Group[] = faces
		.map(face => ({ face, rows: rows.filter(row => row.face === face) }))
		.filter(group => group.rows.length > 0);
	const highest = Math.max(
		...rows.flatMap(row => [
			row.laid_high_wet_um ?? 0,
			row.target_wet_um,
			row.sag_um ?? 0,
			...measuredWet(row),
		]),
	);
	const scale = scaleLinear()
		.domain([0, highest * 1.04])
		.range([0, 100]);
	const ticks = roundTicks(0, highest * 1.04, 'film', units);
	return inPieces(groups, most).map((some, nth, all) => {
		const id = `film-${nth + 1}`;
		let y = top;
		const drawn = some.map(group => {
			const pieces: Piece[] = [label(faceSaid(group.face), { x: 0, y: y + 13, kind: 'name' })];
			y += name_height;
			for (const row of group.rows) {
				pieces.push(coat(row, scale, y, id, units));
				y += coat_height;
			}
			return pieces;
		});
		const marks = ticks.map(um => [
			rule(scale(um), 18, y, 'grid'),
			label(format(um, 'film', units), { x: scale(um), y: 12, anchor: inside(scale(um)), kind: 'tick' }),
		]);
		const part = all.length > 1 ? `, part ${nth + 1} of ${all.length}` : '';
		return picture(
			{
				id,
				title: `Wet film against target${part}`,
				desc: 'One bar a coat, from nothing to the film worked out from flow, transfer, pulls and area, with its target and the film at which it runs. The table below has the figures.',
				height: y + 6,
			},
			[marks, drawn],
		);
	});
}
