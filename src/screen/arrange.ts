import { type Corner, corners, type View } from '../day/view.ts';
import { asksNumber, nameWays, statusParts, timerLine, timersShown, wordOf } from './captions.ts';
import { fitAll, fitBlock, waysOf } from './fit.ts';
import { columnsOf, cutTo, inert, wrapWords } from './inert.ts';
import type { Block, GlyphStyle } from './letters.ts';
import { pictureOf } from './picture.ts';

/** The smallest terminal on which a day can be run. */
export const leastColumns = 40;
export const leastRows = 12;

export type Size = { columns: number; rows: number };

/** What only the screen knows: half-typed entries, a passing notice, a corner chosen but not confirmed. */
export type Passing = {
	typed: string;
	notice: string | null;
	chosen: Corner | null;
	/** The corners are chosen by counting presses, and carry their numbers. */
	counted: boolean;
};

export const nothingPassing: Passing = { typed: '', notice: null, chosen: null, counted: false };

/** A screen laid out: what stands where, and that it fits. */
export type Arrangement = {
	columns: number;
	/** One less than the terminal has. */
	height: number;
	style: GlyphStyle;
	/** Each answer as rows of text, and whether it is the one chosen. */
	answers: Partial<Record<Corner, { rows: string[]; chosen: boolean }>>;
	/** Rows of the two upper and of the two lower answers. */
	topRows: number;
	bottomRows: number;
	status: string;
	word: string[];
	/** Height of a capital of the word in rows, for the reading distance. */
	wordRows: number;
	name: string[];
	say: string[];
	lines: string[];
	picture: string[];
	hint: string;
};

export const tooSmall = ({ columns, rows }: Size): boolean => columns < leastColumns || rows < leastRows;

const separators: Record<GlyphStyle, string> = { half: ' · ', ascii: ' - ' };
const dots: Record<GlyphStyle, string> = { half: '…', ascii: '...' };

function plain(text: string): Block {
	return { rows: [text], width: columnsOf(text), pixels: 2 };
}

function answersOf(view: View, counted: boolean): [Corner, string][] {
	return corners.flatMap((corner, index) => {
		const choice = view.corners[corner];
		const number = counted ? `${index + 1} ` : '';
		return choice ? [[corner, number + inert(choice.text)] satisfies [Corner, string]] : [];
	});
}

const upper: Corner[] = ['topLeft', 'topRight'];
/** Columns that marks, blanks and the gap between two answers take. */
const besideAnswers = 8;

/** The answers in block letters, as large as lets each pair stand side by side; null where they do not fit. */
function drawAnswers(answers: [Corner, string][], size: Size, spare: number, style: GlyphStyle) {
	const edges = [answers.filter(([at]) => upper.includes(at)), answers.filter(([at]) => !upper.includes(at))];
	const used = edges.filter(edge => edge.length > 0).length;
	if (used === 0) return null;
	const rows = Math.min(Math.floor((size.rows - 1) / 6), Math.floor(spare / used));
	return fitAll(
		edges.map(edge => edge.map(([, text]) => text)),
		size.columns - besideAnswers,
		rows,
		style,
	);
}

function placeAnswers(
	answers: [Corner, string][],
	blocks: Map<string, Block> | null,
	size: Size,
	chosen: Corner | null,
	style: GlyphStyle,
): Arrangement['answers'] {
	const half = Math.floor(size.columns / 2) - 3;
	const across: Record<Corner, Corner> = {
		topLeft: 'topRight',
		topRight: 'topLeft',
		bottomLeft: 'bottomRight',
		bottomRight: 'bottomLeft',
	};
	const widthAt = new Map(answers.map(([corner, text]) => [corner, columnsOf(text)]));
	const roomAt = (corner: Corner) => Math.max(half, size.columns - 6 - (widthAt.get(across[corner]) ?? 0));
	return Object.fromEntries(
		answers.map(([corner, text]) => {
			const rows = blocks?.get(text)?.rows ?? [cutTo(text, roomAt(corner), dots[style])];
			return [corner, { rows, chosen: corner === chosen }];
		}),
	);
}

/** Rows still to give away, taken one want after another. */
type Purse = { left: number };
const spend = (purse: Purse, rows: number): void => {
	purse.left -= rows;
};

function drawWord(text: string, size: Size, purse: Purse, cap: number, style: GlyphStyle): Block {
	const room = size.columns - 2;
	const block =
		fitBlock(waysOf(text), room, Math.min(cap, purse.left + 1), style) ??
		fitBlock(waysOf(text), room, purse.left + 1, style);
	spend(purse, block ? block.rows.length - 1 : 0);
	return block ?? plain(cutTo(text, room, dots[style]));
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

/** The short lines, broken where there is room for it and cut where there is not. */
function shortLines(view: View, width: number, room: number, style: GlyphStyle): string[] {
	const most = view.ask === 'closed' ? Math.max(3, room) : 3;
	const lines = view.lines.slice(0, most).map(inert);
	const broken = lines.flatMap(line => wrapWords(line, width));
	return (broken.length <= room ? broken : lines).map(line => cutTo(line, width, dots[style]));
}

/** What the space bar does, where there is room to say it between the lower answers. */
function hintOf(view: View, placed: Arrangement['answers'], columns: number): string {
	if (view.ask === 'hold' || view.state.startsWith('keys.')) return '';
	if (view.ask === 'closed') return 'any corner: leave';
	if (view.state.startsWith('pick.')) return 'space: back';
	const hint = view.rehearsal ? 'space: hold, right: +1 min' : 'space: hold';
	const widthAt = (corner: Corner) => columnsOf(placed[corner]?.rows[0] ?? '') + 2;
	const room = columns - widthAt('bottomLeft') - widthAt('bottomRight') - 2;
	return [hint, 'space: hold'].find(words => words.length <= room) ?? '';
}

function statusLine(view: View, passing: Passing, columns: number, style: GlyphStyle): string {
	const whole = statusParts(view, passing.notice).map(inert).join(separators[style]);
	const short = columnsOf(whole) > columns - 2 ? whole.replace(/(coat \d+) of (?=\d)/, '$1/') : whole;
	return cutTo(short, columns - 2, dots[style]);
}

/**
 * Lays a view out on a terminal of a given size: what must be read first gets its rows first, block letters take
 * what is left, and the whole is never higher than the terminal less one row.
 */
export function arrange(view: View, size: Size, passing: Passing, style: GlyphStyle): Arrangement {
	const height = size.rows - 1;
	const picture = size.columns >= 72 ? pictureOf(view, style) : [];
	const beside = picture.length > 0 ? columnsOf(picture[0] ?? '') + 4 : 0;
	const width = size.columns - 4 - beside;
	const say = wrapWords(inert(view.say), width)
		.slice(0, 4)
		.map(line => cutTo(line, width, dots[style]));
	const lines = shortLines(view, width, height - 6 - say.length, style);
	const purse: Purse = { left: height - 4 - say.length - lines.length };

	const text = inert(wordOf(view, passing.typed));
	const first = drawWord(text, size, purse, view.face !== null && purse.left < 6 ? 3 : 4, style);
	const name = drawName(view, size, purse, style);
	const answers = answersOf(view, passing.counted);
	const blocks = drawAnswers(answers, size, purse.left, style);
	const rowsOf = (edge: boolean) =>
		1 +
		Math.max(
			0,
			...answers
				.filter(([at]) => upper.includes(at) === edge)
				.map(([, text]) => blocks?.get(text)?.rows.length ?? 0),
		);
	const [topRows, bottomRows] = [rowsOf(true), rowsOf(false)];
	spend(purse, topRows + bottomRows - 2);
	const timers = timersShown(view)
		.slice(0, Math.max(0, Math.min(3, purse.left)))
		.map(timer => cutTo(inert(timerLine(timer)), width, dots[style]));
	spend(purse, timers.length);
	const body = say.length + lines.length + timers.length;
	const shown = picture.length - body <= purse.left ? picture : [];
	spend(purse, Math.max(0, shown.length - body));
	const word = grow(first, view, passing.typed, size, purse.left - (name.length > 0 ? 4 : 3), style);

	const placed = placeAnswers(answers, blocks, size, passing.chosen, style);
	return {
		columns: size.columns,
		height,
		style,
		answers: placed,
		topRows,
		bottomRows,
		status: statusLine(view, passing, size.columns, style),
		word: word.rows,
		wordRows: style === 'half' ? word.pixels / 2 : word.rows.length === 1 ? 1 : word.pixels,
		name,
		say,
		lines: [...lines, ...timers],
		picture: shown,
		hint: hintOf(view, placed, size.columns),
	};
}
