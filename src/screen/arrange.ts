import { type Corner, corners, type View } from '../day/view.ts';
import {
	asksNumber,
	nameWays,
	statusParts,
	timerLine,
	timersShown,
	typingLines,
	wordOf,
} from './captions.ts';
import { type CornerAnswer, drawnEdge, type Edge, type EdgeSpec, writtenEdge } from './edges.ts';
import { fitAll, fitBlock, waysOf } from './fit.ts';
import { type Answering, hintsOf } from './hints.ts';
import { columnsOf, cutMiddle, cutTo, fold, inert } from './inert.ts';
import type { Block, GlyphStyle } from './letters.ts';
import { dots } from './marks.ts';
import { pictureOf } from './picture.ts';

/** The smallest terminal on which a day can be run. */
export const leastColumns = 40;
export const leastRows = 12;

export type Size = { columns: number; rows: number };

/** What only the screen knows: half-typed entries, a passing notice, a corner chosen but not confirmed, the keys. */
export type Passing = Answering & {
	typed: string;
	notice: string | null;
	chosen: Corner | null;
};

export const nothingPassing: Passing = { typed: '', notice: null, chosen: null, counted: false, keys: null };

/** A screen laid out: what stands where, and that it fits. */
export type Arrangement = {
	columns: number;
	/** One less than the terminal has. */
	height: number;
	style: GlyphStyle;
	/** The upper edge of the frame with its answers, and the lower one with what the space bar does. */
	top: string[];
	bottom: string[];
	/** The answers as they can be read: whole, or cut where nothing else is left. */
	answers: Partial<Record<Corner, string>>;
	/** Where the painter is in the day, where the upper edge has no room for it. */
	status: string[];
	word: string[];
	/** Height of a capital of the word in rows, for the reading distance. */
	wordRows: number;
	name: string[];
	say: string[];
	lines: string[];
	picture: string[];
};

export const tooSmall = ({ columns, rows }: Size): boolean => columns < leastColumns || rows < leastRows;

/** Short lines beside the one instruction, timers among them. */
const mostLines = 3;
const separators: Record<GlyphStyle, string> = { half: ' · ', ascii: ' - ' };

function plain(rows: string[]): Block {
	return { rows, width: Math.max(...rows.map(columnsOf)), pixels: 2 };
}

/** The answer of a corner, as the frame shows it. */
function answerAt(view: View, passing: Passing, corner: Corner): CornerAnswer | null {
	const choice = view.corners[corner];
	if (!choice) return null;
	const number = passing.counted ? `${corners.indexOf(corner) + 1} ` : '';
	const typed = view.ask === 'text' ? ['ESC'] : (passing.keys?.[corner] ?? []);
	const named = !passing.counted && !view.state.startsWith('keys.') && passing.keys !== null;
	return { text: number + inert(choice.text), keys: named ? typed : [], chosen: corner === passing.chosen };
}

type Frame = { top: Edge; bottom: Edge; status: string[] };

/** The frame around what is asked, its answers in plain letters or in blocks; null where blocks leave no room for keys. */
function frameOf(
	view: View,
	size: Size,
	passing: Passing,
	style: GlyphStyle,
	blocks: Map<string, Block> | null,
	named: boolean,
): Frame | null {
	const at = (corner: Corner) => answerAt(view, passing, corner);
	const common = { columns: size.columns, style };
	const parts = statusParts(view, passing.notice).map(inert);
	const whole = parts.join(separators[style]);
	const short = parts.filter(part => part !== inert(view.face ?? '')).join(separators[style]);
	const upper: EdgeSpec = {
		...common,
		side: 'top',
		left: at('topLeft'),
		right: at('topRight'),
		between: whole === '' ? [] : named && passing.notice === null ? [whole, short] : [whole],
	};
	const hints = hintsOf(view, passing);
	const lower: EdgeSpec = {
		...common,
		side: 'bottom',
		left: at('bottomLeft'),
		right: at('bottomRight'),
		between: hints,
	};
	const top = blocks ? drawnEdge(upper, blocks) : writtenEdge(upper, false);
	const bottom = blocks ? drawnEdge(lower, blocks) : writtenEdge(lower, true);
	if (!top || !bottom || (hints.length > 0 && bottom.said === '')) return null;
	return { top, bottom, status: top.said === '' ? statusRows(parts, size.columns, style) : [] };
}

/** Where the painter is, on one line, or parted into two; a name that is too long for a line is cut in its middle. */
function statusRows(parts: string[], columns: number, style: GlyphStyle): string[] {
	const between = separators[style];
	const rows: string[] = [];
	for (const part of parts) {
		const last = rows.at(-1);
		const joined = last === undefined ? part : last + between + part;
		if (last !== undefined && columnsOf(joined) <= columns) rows[rows.length - 1] = joined;
		else rows.push(cutMiddle(part, columns, dots[style]));
	}
	if (rows.length < 2) return rows;
	const shorter = parts.map(part => part.replace(/^(coat \d+) of (?=\d)/, '$1/')).join(between);
	return columnsOf(shorter) <= columns ? [shorter] : rows;
}

/** Rows still to give away, taken one want after another. */
type Purse = { left: number };
const spend = (purse: Purse, rows: number): void => {
	purse.left -= rows;
};

/** Words typed so far, their end always in sight. */
function drawTyped(text: string, room: number, purse: Purse, style: GlyphStyle): Block {
	const lines = fold(text, room);
	const most = Math.max(1, purse.left + 1);
	const kept = lines.slice(-most);
	if (kept.length < lines.length) kept[0] = dots[style] + (kept[0] ?? '').slice(dots[style].length);
	spend(purse, kept.length - 1);
	return plain(kept);
}

function drawWord(text: string, size: Size, purse: Purse, cap: number, style: GlyphStyle): Block {
	const room = size.columns - 2;
	const block =
		fitBlock(waysOf(text), room, Math.min(cap, purse.left + 1), style) ??
		fitBlock(waysOf(text), room, purse.left + 1, style);
	spend(purse, block ? block.rows.length - 1 : 0);
	return block ?? plain([cutTo(text, room, dots[style])]);
}

function drawName(view: View, size: Size, purse: Purse, style: GlyphStyle): string[] {
	if (view.face === null || view.ask === 'closed') return [];
	const cap = Math.min(purse.left, size.rows >= 20 ? 7 : 3);
	const block = fitBlock(nameWays(inert(view.face)), size.columns - 2, cap, style);
	spend(purse, block?.rows.length ?? 0);
	return block?.rows ?? [];
}

/** Columns that marks, blanks and the gap between two answers take. */
const besideAnswers = 8;

/** The frame with its answers in block letters, as large as lets each pair stand side by side; null where they do not fit. */
function drawFrame(
	view: View,
	size: Size,
	passing: Passing,
	style: GlyphStyle,
	named: boolean,
	spare: number,
) {
	const texts = (['topLeft', 'topRight', 'bottomLeft', 'bottomRight'] as const).map(
		corner => answerAt(view, passing, corner)?.text,
	);
	const edges = [texts.slice(0, 2), texts.slice(2)].map(edge => edge.filter(text => text !== undefined));
	const used = edges.filter(edge => edge.length > 0).length;
	if (used === 0) return null;
	const rows = Math.min(Math.floor((size.rows - 1) / 6), Math.floor(spare / used));
	const blocks = fitAll(edges, size.columns - besideAnswers, rows, style);
	return blocks && frameOf(view, size, passing, style, blocks, named);
}

const rowsIn = (frame: Frame): number =>
	frame.top.rows.length + frame.bottom.rows.length + frame.status.length;

/** The word as large as the rest allows; a number in letters that do not shrink while it is typed. */
function grow(word: Block, view: View, typed: string, size: Size, spare: number, style: GlyphStyle): Block {
	if (view.ask === 'text') return word;
	const room = size.columns - 2;
	const longest = inert(wordOf(view, asksNumber(view) ? typed.padEnd(5, '8') : typed));
	const measure = fitBlock(waysOf(longest), room, word.rows.length + Math.max(0, spare), style);
	if (!measure || measure.pixels <= word.pixels) return word;
	return fitBlock(waysOf(inert(wordOf(view, typed))), room, measure.rows.length, style) ?? word;
}

/** The instruction, whole, and as many of the short lines as stand whole beside it, in their order. */
function saidIn(view: View, width: number, room: number, style: GlyphStyle) {
	const broken = fold(inert(view.say), width);
	const say = broken.slice(0, Math.max(1, room));
	const last = say.length - 1;
	if (broken.length > say.length) say[last] = cutTo(`${say[last]} ${broken[last + 1]}`, width, dots[style]);
	const lines: string[][] = [];
	let left = room - say.length;
	for (const line of [...typingLines(view), ...view.lines].slice(0, mostLines)) {
		const rows = fold(inert(line), width);
		if (rows.length > left) break;
		lines.push(rows);
		left -= rows.length;
	}
	return { say, lines };
}

/**
 * Lays a view out on a terminal of a given size: what must be read first gets its rows first, block letters take
 * what is left, and the whole is never higher than the terminal less one row.
 */
export function arrange(view: View, size: Size, passing: Passing, style: GlyphStyle): Arrangement {
	const height = size.rows - 1;
	const picture = size.columns >= 72 ? pictureOf(view, style) : [];
	const beside = picture.length > 0 ? columnsOf(picture[0] ?? '') + 4 : 0;
	const width = size.columns - (size.columns < 60 ? 2 : 4) - beside;
	const written = frameOf(view, size, passing, style, null, false);
	if (!written) throw new Error('a frame in plain letters always fits');
	const { say, lines } = saidIn(view, width, height - 1 - rowsIn(written), style);
	const purse: Purse = { left: height - 1 - rowsIn(written) - say.length - lines.flat().length };

	const text = inert(wordOf(view, passing.typed));
	const cap = view.face !== null && purse.left < 6 ? 3 : 4;
	const first =
		view.ask === 'text'
			? drawTyped(text, size.columns - 4, purse, style)
			: drawWord(text, size, purse, cap, style);
	const name = drawName(view, size, purse, style);
	const spare = purse.left + rowsIn(written) - 2;
	const drawn = drawFrame(view, size, passing, style, name.length > 0, spare);
	const frame = drawn && rowsIn(drawn) - rowsIn(written) <= purse.left ? drawn : written;
	spend(purse, rowsIn(frame) - rowsIn(written));
	const timers = timersShown(view)
		.slice(0, Math.max(0, Math.min(mostLines - lines.length, purse.left)))
		.map(timer => cutMiddle(inert(timerLine(timer)), width, dots[style]));
	spend(purse, timers.length);
	const body = say.length + lines.flat().length + timers.length;
	const shown = picture.length - body <= purse.left ? picture : [];
	spend(purse, Math.max(0, shown.length - body));
	const word = grow(first, view, passing.typed, size, purse.left - (name.length > 0 ? 4 : 3), style);

	const [topLeft, topRight] = frame.top.texts;
	const [bottomLeft, bottomRight] = frame.bottom.texts;
	const answers = Object.entries({ topLeft, topRight, bottomLeft, bottomRight });
	return {
		columns: size.columns,
		height,
		style,
		top: frame.top.rows,
		bottom: frame.bottom.rows,
		answers: Object.fromEntries(answers.filter(([, shownAs]) => shownAs !== '')),
		status: frame.status,
		word: word.rows,
		wordRows: style === 'half' ? word.pixels / 2 : word.rows.length === 1 ? 1 : word.pixels,
		name,
		say,
		lines: [...lines.flat(), ...timers],
		picture: shown,
	};
}
