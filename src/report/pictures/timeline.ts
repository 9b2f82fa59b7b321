import type { Markup, Piece } from '../page/markup.ts';
import { face as faceSaid } from '../said.ts';
import type { Tables } from '../tables/tables.ts';
import { type ClockAxis, clockMarks } from './clock-axis.ts';
import { mark } from './marks.ts';
import { bar, filled, inPieces, label, picture } from './picture.ts';

const top = 26;
const row_height = 36;
/** Faces that find room in one picture on one sheet. */
const most = 18;

/** From the end of a coat until the next may go on, or until it was laid. */
function flashes(tables: Tables, face: string, axis: ClockAxis, id: string, y: number): Piece {
	return tables.windows
		.filter(row => row.face === face)
		.map(({ windows, next }) => {
			const [wait] = windows;
			if (wait?.does !== 'wait') return null;
			const from = axis.at(wait.from);
			const until = Math.min(
				wait.until === null ? 100 : axis.at(wait.until),
				next ? axis.at(next.began) : 100,
				98,
			);
			return bar({ from, to: until, y: y + 4, height: 6, fill: filled(id, 'wait'), kind: 'flash' });
		});
}

function passes(tables: Tables, face: string, axis: ClockAxis, y: number): Piece {
	return tables.coats
		.filter(row => row.face === face)
		.map(({ coat, passes: parts }) => {
			const bars = parts.map(({ began, ended, extent }) =>
				bar({
					from: axis.at(began),
					to: axis.at(ended),
					y,
					height: 14,
					fill: extent === 'none' ? 'none' : 'currentColor',
					kind: `pass ${extent}`,
				}),
			);
			const first = parts[0];
			const number =
				first &&
				label(String(coat), { x: axis.at(first.began), y: y + 12, dx: -4, anchor: 'end', kind: 'coat' });
			return [bars, number ?? null];
		});
}

function marks(tables: Tables, face: string, axis: ClockAxis, y: number, until: string): Piece {
	const seen = tables.faults.filter(fault => fault.face === face && fault.at <= until);
	const aside = tables.aside.filter(({ faces }) => faces.includes(face));
	return [
		seen.map(({ at }) => mark('fault', axis.at(at), y - 5)),
		aside.map(({ at }) => mark('aside', axis.at(at), y - 5, 13)),
	];
}

/** Faces by coat over the day, in as many pictures as find room on paper. */
export function timeline(tables: Tables, faces: readonly string[], axis: ClockAxis, until: string): Markup[] {
	return inPieces(faces, most).map((some, nth, all) => {
		const id = `faces-${nth + 1}`;
		const height = top + some.length * row_height + 4;
		const rows = some.map((face, place) => {
			const y = top + place * row_height;
			return [
				label(faceSaid(face), { x: 0, y: y + 11, kind: 'name' }),
				flashes(tables, face, axis, id, y + 16),
				passes(tables, face, axis, y + 16),
				marks(tables, face, axis, y + 16, until),
			];
		});
		const part = all.length > 1 ? `, part ${nth + 1} of ${all.length}` : '';
		return picture(
			{
				id,
				title: `Faces by coat over the day${part}`,
				desc: `One row a face, ${some.length} of them: when each coat was sprayed and how long its flash lasted. The table below has every instant.`,
				height,
			},
			[clockMarks(axis, height - 4), rows],
		);
	});
}

/** The faces that a timeline has rows for. */
export const timelineFaces = (tables: Tables, sheet: readonly string[]): string[] => {
	const seen = [...tables.coats, ...tables.windows, ...tables.faults].flatMap(({ face }) =>
		face === null ? [] : [{ face }],
	);
	return sheet.filter(id => seen.some(({ face }) => face === id));
};
