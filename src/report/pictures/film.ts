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

export const paceSaid: Record<FilmRow['pace'], string> = {
	fast: 'fast',
	right: 'as planned',
	slow: 'slow',
};

function coat(row: FilmRow, x: (um: number) => number, y: number, id: string, units: UnitSystem): Piece {
	const { laid_wet_um, laid_low_wet_um, laid_high_wet_um, target_wet_um, sag_um, over_sag } = row;
	const tail = over_sag ? ', over its limit' : row.pace === 'right' ? '' : `, ${paceSaid[row.pace]}`;
	return [
		bar({
			from: 0,
			to: x(laid_wet_um),
			y,
			height: 15,
			fill: filled(id, over_sag ? 'break' : 'spray'),
			kind: 'film',
		}),
		bar({
			from: x(laid_low_wet_um),
			to: x(laid_high_wet_um),
			y: y + 12,
			height: 2,
			fill: 'currentColor',
			kind: 'span',
		}),
		rule(x(target_wet_um), y - 2, y + 17, 'target'),
		sag_um === null ? null : rule(x(sag_um), y - 2, y + 17, 'sag'),
		measuredWet(row).map(um => rule(x(um), y + 1, y + 14, 'measured')),
		label(`coat ${row.coat}: ${format(laid_wet_um, 'film', units)}${tail}`, {
			x: 0,
			y: y + 11,
			dx: 5,
			kind: 'value',
		}),
	];
}

/** Wet film of each coat against its target and the film at which it runs. */
export function film(rows: readonly FilmRow[], faces: readonly string[], units: UnitSystem): Markup[] {
	const groups: Group[] = faces
		.map(face => ({ face, rows: rows.filter(row => row.face === face) }))
		.filter(group => group.rows.length > 0);
	const highest = Math.max(
		...rows.flatMap(row => [row.laid_high_wet_um, row.target_wet_um, row.sag_um ?? 0, ...measuredWet(row)]),
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
				desc: 'One bar a coat, from nothing to the film worked out from flow, transfer, time and area, with its target and the film at which it runs. The table below has the figures.',
				height: y + 6,
			},
			[marks, drawn],
		);
	});
}
