import { type Corner, corners, type View } from '../day/view.ts';
import { statusParts } from './captions.ts';
import { type CornerAnswer, drawnEdge, type Edge, type EdgeSpec, writtenEdge } from './edges.ts';
import { fitAll } from './fit.ts';
import { hintsOf } from './hints.ts';
import { columnsOf, cutMiddle, inert } from './inert.ts';
import type { Block, GlyphStyle } from './letters.ts';
import { dots } from './marks.ts';
import type { Passing } from './passing.ts';

/** The frame around what is asked: its answers with their keys, where the painter is, what the space bar does. */

export type FrameSpec = {
	view: View;
	columns: number;
	passing: Passing;
	style: GlyphStyle;
	/** The face stands in block letters, and may be left out of where the painter is. */
	named: boolean;
};

export type Frame = { top: Edge; bottom: Edge; status: string[] };

const separators: Record<GlyphStyle, string> = { half: ' · ', ascii: ' - ' };

/** The answer of a corner, as the frame shows it. */
function answerAt({ view, passing }: FrameSpec, corner: Corner): CornerAnswer | null {
	const choice = view.corners[corner];
	if (!choice) return null;
	const number = passing.counted ? `${corners.indexOf(corner) + 1} ` : '';
	const struck = view.ask === 'text' ? ['ESC'] : (passing.keys?.[corner] ?? []);
	const isNamed = !passing.counted && !view.state.startsWith('keys.') && passing.keys !== null;
	const text = number + inert(choice.text);
	return { text, keys: isNamed ? struck : [], chosen: corner === passing.chosen };
}

/** Where the painter is, on one line, or parted into two; a name that is too long for a line is cut in its middle. */
function statusRows(parts: string[], columns: number, style: GlyphStyle): string[] {
	const between = separators[style];
	const shorter = parts.map(part => part.replace(/^(coat \d+) of (?=\d)/, '$1/'));
	const ways = [parts, shorter, shorter.filter(part => !part.startsWith('open: '))];
	const fitting = ways.map(way => way.join(between)).find(line => columnsOf(line) <= columns);
	if (fitting !== undefined) return fitting === '' ? [] : [fitting];
	const rows: string[] = [];
	for (const part of parts) {
		const last = rows.at(-1);
		const joined = last === undefined ? part : last + between + part;
		if (last !== undefined && columnsOf(joined) <= columns) rows[rows.length - 1] = joined;
		else rows.push(cutMiddle(part, columns, dots[style]));
	}
	return rows;
}

const sidesOf = (spec: FrameSpec, side: EdgeSpec['side']) => ({
	side,
	left: answerAt(spec, side === 'top' ? 'topLeft' : 'bottomLeft'),
	right: answerAt(spec, side === 'top' ? 'topRight' : 'bottomRight'),
	columns: spec.columns,
	style: spec.style,
});

/** @param blocks the answers in block letters, or null for plain ones; null comes back where no room is left for keys */
function frameOf(spec: FrameSpec, blocks: ReadonlyMap<string, Block> | null): Frame | null {
	const { view, passing, style, columns, named } = spec;
	const parts = statusParts(view, passing.notice).map(inert);
	const whole = parts.join(separators[style]);
	const short = parts.filter(part => part !== inert(view.face ?? '')).join(separators[style]);
	const where = whole === '' ? [] : named && passing.notice === null ? [whole, short] : [whole];
	const hints = hintsOf(view, passing);
	const upper = { ...sidesOf(spec, 'top'), between: where };
	const lower = { ...sidesOf(spec, 'bottom'), between: hints };
	const status = statusRows(parts, columns, style);
	const bottom = blocks ? drawnEdge(lower, blocks) : writtenEdge(lower, true);
	if (!bottom || (hints.length > 0 && bottom.said === '')) return null;
	if (!upper.left && !upper.right) return { top: { rows: [], said: '', texts: ['', ''] }, bottom, status };
	const top = blocks ? drawnEdge(upper, blocks) : writtenEdge(upper, false);
	return top && { top, bottom, status: top.said === '' ? status : [] };
}

/** The frame with its answers in plain letters. */
export function writeFrame(spec: FrameSpec): Frame {
	const frame = frameOf(spec, null);
	if (!frame) throw new Error('a frame in plain letters always fits');
	return frame;
}

/** Columns that marks, blanks and the gap between two answers take: more than the gap between two words, or they are read as one. */
const besideAnswers = 10;

/**
 * The frame with its answers in block letters, as large as lets each pair stand side by side; null where they do not
 * fit.
 *
 * @param most rows that an answer may be high; one on two lines twice as many, where none fits on one
 * @param spare rows there are for all of them
 */
export function drawFrame(spec: FrameSpec, most: number, spare: number): Frame | null {
	const texts = corners.map(corner => answerAt(spec, corner)?.text);
	const edges = [texts.slice(0, 2), texts.slice(2)].map(edge => edge.filter(text => text !== undefined));
	const used = edges.filter(edge => edge.length > 0).length;
	if (used === 0) return null;
	for (const high of [most, most * 2]) {
		const rows = Math.min(high, Math.floor(spare / used));
		const blocks = fitAll(edges, spec.columns - besideAnswers, rows, spec.style);
		const frame = blocks && frameOf(spec, blocks);
		if (frame) return frame;
	}
	return null;
}

export const rowsIn = ({ top, bottom, status }: Frame): number =>
	top.rows.length + bottom.rows.length + status.length;
