import type { Report } from '../page/context.ts';
import type { Piece } from '../page/markup.ts';
import { plain } from '../said.ts';
import type { Tables } from '../tables/tables.ts';
import type { ClockAxis } from './clock-axis.ts';
import { coatMark } from './coat-mark.ts';
import { mark } from './marks.ts';
import { at, bar, label, narrowest_px, rule } from './picture.ts';

/** Rows of a day's chart: a face each, those of one part under its name. */

export type Row = { says: string; kind: 'row' | 'name'; height: number; face: string | null };

const name_height = 18;
const face_height = 24;

/** The faces given, with a line for the name of each part that has several. */
export function rowsOf(faces: readonly string[]): Row[] {
	const parts = new Map<string, string[]>();
	for (const id of faces) {
		const [part = ''] = id.split('/');
		parts.set(part, [...(parts.get(part) ?? []), id]);
	}
	return [...parts].flatMap(([part, ids]): Row[] => {
		const face = (id: string, says: string): Row => ({ says, kind: 'row', height: face_height, face: id });
		const [only] = ids;
		if (only !== undefined && ids.length === 1) return [face(only, plain(part))];
		const own = ids.map(id => face(id, plain(id.slice(part.length + 1))));
		return [{ says: plain(part), kind: 'name', height: name_height, face: null }, ...own];
	});
}

/** From the end of a coat until the next may go on, or until it was laid: a line that ends in a stop. */
function flashes({ windows }: Tables, face: string, axis: ClockAxis, y: number): Piece {
	return windows
		.filter(row => row.face === face)
		.map(({ windows: [wait], next }) => {
			if (wait?.does !== 'wait') return null;
			const ends = [axis.last, ...(wait.until === null ? [] : [axis.at(wait.until)])];
			const to = Math.min(...ends, ...(next ? [axis.at(next.began)] : []));
			const from = axis.at(wait.from);
			if (to <= from) return null;
			return [
				bar({ from, to, y: y - 1, height: 2, fill: 'currentColor', kind: 'flash' }),
				rule(to, y - 5, y + 5, 'flash-end'),
			];
		});
}

/** Least way between two marks with their numbers, px. */
const apart_px = 19;

/** Coats at the moment they were sprayed; two that stand too close for their numbers are bars alone. */
function coats({ tables, day }: Report, face: string, axis: ClockAxis, y: number): Piece {
	const materials = Object.keys(day.job.materials);
	const rows = tables.coats.filter(row => row.face === face);
	const middle = (row: (typeof rows)[number]) => (axis.at(row.began) + axis.at(row.ended)) / 2;
	return rows.map((row, nth) => {
		const x = middle(row);
		const [before, after] = [rows[nth - 1], rows[nth + 1]];
		const close = [before, after].some(
			other => other && (Math.abs(middle(other) - x) / 100) * narrowest_px < apart_px,
		);
		const passes = row.passes.map(({ began, ended, extent }) =>
			bar({
				...{ from: axis.at(began), to: axis.at(ended), y: y - 6, height: 12 },
				...{ fill: extent === 'none' ? 'none' : 'currentColor', kind: `pass ${extent}` },
			}),
		);
		const stands = row.extent === 'all' ? 'all' : row.extent === 'none' ? 'due' : 'part';
		const material = materials.indexOf(row.material);
		return [passes, close ? null : at(x, y, coatMark({ material, stands, says: String(row.coat) }, 0, 0))];
	});
}

/** Faults and what was passed over at the coat they are about; a part set aside at its hour. */
function signs({ tables, end }: Report, face: string, axis: ClockAxis, y: number): Piece {
	const coatAt = (coat: number | null, otherwise: string): number => {
		const row = tables.coats.find(one => one.face === face && one.coat === coat);
		return axis.at(row?.ended ?? (otherwise < end ? otherwise : end));
	};
	const own = <One extends { face: string | null }>(all: readonly One[]) =>
		all.filter(one => one.face === face);
	const later = (iso: string) => iso <= end;
	return [
		own(tables.overrides).map(one => mark('override', coatAt(one.coat, one.at), y - 7, -11)),
		own(tables.faults).map(one => mark('fault', coatAt(one.coat, one.at), y - 7, 11)),
		tables.aside
			.filter(({ faces, at: when }) => faces.includes(face) && later(when))
			.map(one => mark('aside', axis.at(one.at), y + 8)),
	];
}

/** The name of a row, right beside it. */
export const rowName = (says: string, kind: Row['kind'], { first, label_px }: ClockAxis, y: number): Piece =>
	label(says, { x: first, y, dx: -12, anchor: 'end', kind, room_px: label_px - 6 });

/** A row at a height of the chart. */
export function rowDrawn(
	report: Report,
	{ says, kind, face, height }: Row,
	axis: ClockAxis,
	y: number,
): Piece {
	const middle = y + height / 2;
	if (face === null) return label(says, { x: 0, y: middle + 4, kind });
	const name = rowName(says, kind, axis, middle + 4);
	return [
		name,
		flashes(report.tables, face, axis, middle),
		coats(report, face, axis, middle),
		signs(report, face, axis, middle),
	];
}
