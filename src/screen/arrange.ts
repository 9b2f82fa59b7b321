import type { Corner, View } from '../day/view.ts';
import { asksNumber, nameWays, timerLine, timersShown, typingLines } from './captions.ts';
import { fitBlock, waysOf } from './fit.ts';
import { drawFrame, rowsIn, writeFrame } from './frame.ts';
import { columnsOf, cutTo, fold, inert } from './inert.ts';
import type { Block, GlyphStyle } from './letters.ts';
import { dots } from './marks.ts';
import type { Passing, Size } from './passing.ts';
import { pictureOf } from './picture.ts';
import { shorterWordOf, wordOf } from './word.ts';

/** The smallest terminal on which a day can be run. */
export const leastColumns = 40;
export const leastRows = 12;

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

function plain(rows: string[]): Block {
	return { rows, width: Math.max(...rows.map(columnsOf)), pixels: 2 };
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

/** @param texts the word and a shorter one */
function drawWord(texts: string[], size: Size, purse: Purse, cap: number, style: GlyphStyle): Block {
	const room = size.columns - 2;
	const fitting = (rows: number) =>
		texts.map(text => fitBlock(waysOf(text), room, rows, style)).find(Boolean);
	const [text = ''] = texts;
	const block = fitBlock(waysOf(text), room, Math.min(cap, purse.left + 1), style) ?? fitting(purse.left + 1);
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

/** The word as large as the rest allows; a number in letters that do not shrink while it is typed. */
function grow(word: Block, view: View, typed: string, size: Size, spare: number, style: GlyphStyle): Block {
	if (view.ask === 'text') return word;
	const room = size.columns - 2;
	const longest = inert(wordOf(view, asksNumber(view) ? typed.padEnd(5, '8') : typed));
	const measure = fitBlock(waysOf(longest), room, word.rows.length + Math.max(0, spare), style);
	if (!measure || measure.pixels <= word.pixels) return word;
	return fitBlock(waysOf(inert(wordOf(view, typed))), room, measure.rows.length, style) ?? word;
}

/** As many lines, in their order, as stand whole in so many rows. */
function wholeLines(lines: readonly string[], most: number, width: number, room: number): string[][] {
	const whole: string[][] = [];
	let left = room;
	for (const line of lines.slice(0, Math.max(0, most))) {
		const rows = fold(inert(line), width);
		if (rows.length > left) break;
		whole.push(rows);
		left -= rows.length;
	}
	return whole;
}

/** A text on so many rows at most, its end replaced by dots where it is longer. */
function onRows(text: string, width: number, most: number, style: GlyphStyle): string[] {
	const rows = fold(inert(text), width);
	if (rows.length <= most) return rows;
	const kept = rows.slice(0, most);
	return [...kept.slice(0, -1), cutTo(`${kept.at(-1)} ${rows[most]}`, width, dots[style])];
}

/** The instruction, whole, and the short lines: the first of them cut rather than left out, the others whole or not. */
function saidIn(view: View, width: number, room: number, style: GlyphStyle) {
	const say = onRows(view.say, width, Math.max(1, room), style);
	const left = room - say.length;
	const wanted = [...typingLines(view), ...view.lines];
	const lines = wholeLines(wanted, mostLines, width, left);
	const [first] = wanted;
	const isCut = lines.length === 0 && first !== undefined && left > 0;
	return { say, lines: isCut ? [onRows(first, width, left, style)] : lines };
}

/** Height of a capital in a terminal's own letters, rows. From memory: seven tenths of a letter's size, lines set apart. */
const plainRows = 0.6;

/** Rows that a countdown is high at least. */
const leastCountdown = 3;

/**
 * Lays a view out on a terminal of a given size: what must be read first gets its rows first, block letters take
 * what is left, and the whole is never higher than the terminal less one row.
 */
export function arrange(view: View, size: Size, passing: Passing, style: GlyphStyle): Arrangement {
	const height = size.rows - 1;
	const picture = size.columns >= 72 ? pictureOf(view, style) : [];
	const beside = picture.length > 0 ? columnsOf(picture[0] ?? '') + 4 : 0;
	const width = size.columns - (size.columns < 60 ? 2 : 4) - beside;
	const written = writeFrame({ view, columns: size.columns, passing, style, named: false });
	const least = view.ask === 'wait' ? leastCountdown : 1;
	const { say, lines } = saidIn(view, width, height - least - rowsIn(written), style);
	const purse: Purse = { left: height - 1 - rowsIn(written) - say.length - lines.flat().length };

	const text = inert(wordOf(view, passing.typed));
	const cap = view.face !== null && purse.left < 6 ? 3 : 4;
	const first =
		view.ask === 'text'
			? drawTyped(text, size.columns - 4, purse, style)
			: drawWord([text, inert(shorterWordOf(view, passing.typed))], size, purse, cap, style);
	const name = drawName(view, size, purse, style);
	const spare = purse.left + rowsIn(written) - 2;
	const drawn = drawFrame(
		{ view, columns: size.columns, passing, style, named: name.length > 0 },
		Math.floor(height / 6),
		spare,
	);
	const frame = drawn && rowsIn(drawn) - rowsIn(written) <= purse.left ? drawn : written;
	spend(purse, rowsIn(frame) - rowsIn(written));
	const timers = wholeLines(
		timersShown(view).map(timer => timerLine(timer, view)),
		mostLines - lines.length,
		width,
		purse.left,
	).flat();
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
		wordRows: word.rows.length === 1 ? plainRows : style === 'half' ? word.pixels / 2 : word.pixels,
		name,
		say,
		lines: [...lines.flat(), ...timers],
		picture: shown,
	};
}
