import type { Corner } from '../day/view.ts';
import { columnsOf, cutMiddle, fold } from './inert.ts';
import type { Block, GlyphStyle } from './letters.ts';
import { dots, type Marks, marksOf } from './marks.ts';

/**
 * The upper and the lower edge of a screen: two answers in their corners, the keys that give them named small in the
 * frame, and between them where the painter is or what the space bar does.
 */

export type CornerAnswer = {
	text: string;
	/** The keys of its corner, as they are printed on them; none where it is counted, or nothing is struck for it. */
	keys: readonly string[];
	chosen: boolean;
};

export type EdgeSpec = {
	side: 'top' | 'bottom';
	left: CornerAnswer | null;
	right: CornerAnswer | null;
	/** What stands between, the best liked first; where none fits, nothing does. */
	between: readonly string[];
	columns: number;
	style: GlyphStyle;
};

export type Edge = {
	rows: string[];
	/** What of `between` is shown. */
	said: string;
	/** The answers as they are shown: whole, or cut where even three rows do not hold them. */
	texts: [left: string, right: string];
};

const cornerAt = (side: EdgeSpec['side'], isLeft: boolean): Corner =>
	side === 'top' ? (isLeft ? 'topLeft' : 'topRight') : isLeft ? 'bottomLeft' : 'bottomRight';

/** Ways to name a corner's keys: all of them apart, close together where each is one letter, the first alone. */
function labelsOf(keys: readonly string[]): string[] {
	const [first] = keys;
	if (first === undefined) return [''];
	const close = keys.every(key => columnsOf(key) === 1) ? [keys.join('')] : [];
	return [...new Set([keys.join(' '), ...close, first])];
}

/** Blank columns between two answers in plain letters, that they are not read as one. */
const apart = 4;

/** Lays two texts at the ends of a row and one between them, or so many blanks; null where they do not fit. */
function laid(left: string, between: string, right: string, columns: number, blanks = 1): string | null {
	const [from, to] = [columnsOf(left), columns - columnsOf(right)];
	const width = columnsOf(between);
	if (width === 0)
		return from + (from > 0 && right !== '' ? blanks : 0) > to ? null : filled(left, right, columns);
	const first = from + (from > 0 ? 2 : 0);
	const last = to - width - (right === '' ? 0 : 2);
	if (first > last) return null;
	const at = Math.min(last, Math.max(first, Math.floor((columns - width) / 2)));
	const begun = left + ' '.repeat(at - from) + between;
	return filled(begun, right, columns);
}

const filled = (left: string, right: string, columns: number): string =>
	left + ' '.repeat(Math.max(0, columns - columnsOf(left) - columnsOf(right))) + right;

/** The line of the frame over or under an answer in block letters, with its keys. */
function bar(
	answer: CornerAnswer,
	side: EdgeSpec['side'],
	isLeft: boolean,
	marks: Marks,
	width: number,
): string {
	const line = side === 'top' ? marks.top : marks.bottom;
	const [label = ''] = labelsOf(answer.keys);
	const rest = Math.max(0, width - 2 - (label === '' ? 0 : columnsOf(label) + 2));
	const corner = marks.corner[cornerAt(side, isLeft)];
	const named = label === '' ? '' : ` ${label} `;
	return isLeft ? corner + line + named + line.repeat(rest) : line.repeat(rest) + named + line + corner;
}

/** An edge whose answers are drawn in block letters; null where not even its shortest frame leaves room for the keys. */
export function drawnEdge(spec: EdgeSpec, blocks: ReadonlyMap<string, Block>): Edge | null {
	const { side, left, right, columns, style, between } = spec;
	const block = (answer: CornerAnswer | null) => (answer ? blocks.get(answer.text) : undefined);
	const [leftBlock, rightBlock] = [block(left), block(right)];
	const height = Math.max(0, leftBlock?.rows.length ?? 0, rightBlock?.rows.length ?? 0);
	const barOf = (answer: CornerAnswer | null, isLeft: boolean, width: number) =>
		answer ? bar(answer, side, isLeft, marksOf(style, answer.chosen), width) : '';
	const bars = (whole: boolean): [string, string] => [
		barOf(left, true, whole && leftBlock ? leftBlock.width + 3 : 0),
		barOf(right, false, whole && rightBlock ? rightBlock.width + 3 : 0),
	];
	const sides = Array.from({ length: height }, (_, index) => {
		const row = (from: Block | undefined) => (from?.rows[index] ?? '').padEnd(from?.width ?? 0);
		const onLeft = left ? `${marksOf(style, left.chosen).left} ${row(leftBlock)}` : '';
		const onRight = right ? `${row(rightBlock)} ${marksOf(style, right.chosen).right}` : '';
		return filled(onLeft, onRight, columns);
	});
	for (const said of [...between, ''])
		for (const whole of [true, false]) {
			const frame = laid(bars(whole)[0], said, bars(whole)[1], columns);
			if (frame === null) continue;
			const rows = side === 'top' ? [frame, ...sides] : [...sides, frame];
			return { rows, said, texts: [left?.text ?? '', right?.text ?? ''] };
		}
	return null;
}

/** Most rows that an answer in plain letters takes before it is cut. */
const mostRows = 3;

type Piece = { rows: string[]; text: string };

/** An answer in plain letters with its keys beside it, folded to a width. */
function piece(answer: CornerAnswer, spec: EdgeSpec, isLeft: boolean, label: string, width: number): Piece {
	const { side, style } = spec;
	const marks = marksOf(style, answer.chosen);
	const room = width - 2;
	const named = (text: string) =>
		label === '' ? text : isLeft ? `${text} (${label})` : `(${label}) ${text}`;
	const whole = fold(named(answer.text), room).length <= mostRows;
	const kept = room * (mostRows - 1) - columnsOf(named('')) - 2;
	const text = whole ? answer.text : cutMiddle(answer.text, Math.max(8, kept), dots[style]);
	const lines = fold(named(text), room).slice(0, mostRows);
	const rows = lines.map((line, index) => {
		const atCorner = index === (side === 'top' ? 0 : lines.length - 1);
		const mark = atCorner ? marks.corner[cornerAt(side, isLeft)] : isLeft ? marks.left : marks.right;
		return isLeft ? `${mark} ${line}` : `${line} ${mark}`;
	});
	return { rows, text };
}

function folded(spec: EdgeSpec, label: (answer: CornerAnswer) => string, width: number): Edge {
	const { side, left, right, columns, between } = spec;
	const onLeft = left ? piece(left, spec, true, label(left), width) : null;
	const onRight = right ? piece(right, spec, false, label(right), width) : null;
	const height = Math.max(onLeft?.rows.length ?? 0, onRight?.rows.length ?? 0);
	const blank = (of: Piece | null) => Array.from({ length: height - (of?.rows.length ?? 0) }, () => '');
	const padded = (of: Piece | null) =>
		side === 'top' ? [...(of?.rows ?? []), ...blank(of)] : [...blank(of), ...(of?.rows ?? [])];
	const [lefts, rights] = [padded(onLeft), padded(onRight)];
	const rowAt = (index: number, said: string) =>
		laid(lefts[index] ?? '', said, rights[index] ?? '', columns, apart);
	const texts: Edge['texts'] = [onLeft?.text ?? '', onRight?.text ?? ''];
	const plain = Array.from({ length: height }, (_, index) => rowAt(index, '') ?? '');
	const outer = side === 'top' ? 0 : height - 1;
	for (const said of between) {
		const row = rowAt(outer, said);
		if (row !== null) return { rows: plain.with(outer, row), said, texts };
	}
	return { rows: plain, said: '', texts };
}

/**
 * An edge in plain letters: on one row where the answers, keys named, stand side by side on it with what must stand
 * between them, else each folded into its half.
 *
 * @param must the last of `between` has to be said: keys are named shorter, or a row is added for it
 */
export function writtenEdge(spec: EdgeSpec, must: boolean): Edge {
	const { side, left, right, columns, between } = spec;
	if (!left && !right) {
		const said = between.find(words => columnsOf(words) <= columns) ?? '';
		return { rows: [laid('', said, '', columns) ?? ''], said, texts: ['', ''] };
	}
	const most = Math.max(labelsOf(left?.keys ?? []).length, labelsOf(right?.keys ?? []).length);
	const labelled = (nth: number) => (answer: CornerAnswer) => {
		const labels = labelsOf(answer.keys);
		return labels[Math.min(nth, labels.length - 1)] ?? '';
	};
	const last = between.at(-1) ?? '';
	const added = (edge: Edge): Edge => {
		if (!must || edge.said !== '' || last === '') return edge;
		const extra = laid('', last, '', columns) ?? '';
		return { ...edge, said: last, rows: side === 'top' ? [...edge.rows, extra] : [extra, ...edge.rows] };
	};
	const ways = Array.from({ length: most }, (_, nth) => folded(spec, labelled(nth), columns));
	const oneRow = ways.filter(({ rows }) => rows.length === 1 && rows[0] !== '');
	const whole = oneRow.find(({ said }) => !must || said !== '' || last === '') ?? oneRow[0];
	return added(whole ?? folded(spec, labelled(most - 1), Math.floor((columns - apart) / 2)));
}
