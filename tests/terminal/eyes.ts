import type { Corner } from '../../src/day/view.ts';
import { type Read, readBlock } from './block-reading.ts';

/** What a person reads off the screen of a terminal, from its characters alone. */
export type Seen = {
	/** The answers by their corners, as words. */
	corners: Partial<Record<Corner, string>>;
	/** How high the letters of each answer are, pixels; 1 where it is plain text. */
	sizes: Partial<Record<Corner, number>>;
	/** The line that says where the day is: rehearsal, face, coat, or a passing notice. */
	status: string;
	/** What is written out in the middle, joined. */
	text: string;
	/** Everything read outside the corners: the lines, and the words in block letters. */
	outside: string[];
};

const blocks = '█▀▄▌▐▛▜▙▟';
const mark = new RegExp(`[${blocks}]`);

/** Rows that an edge of answers takes: its mark, and the letters under or over it. */
function edgeRows(rows: readonly string[], marks: RegExp): number {
	if (!marks.test(rows[0] ?? '')) return 0;
	let count = 1;
	while (/^▌|▐\s*$/.test(rows[count] ?? '')) count++;
	return count;
}

const reversed = (row: string) => [...row].reverse().join('');

/** The places where a row of letters may be cut in two, the widest blank first. */
function gaps(rows: readonly string[]): { at: number; wide: number }[] {
	const width = Math.max(...rows.map(row => row.length));
	const isBlank = (x: number) => rows.every(row => (row[x] ?? ' ') === ' ');
	const found: { at: number; wide: number }[] = [];
	for (let x = 0, wide = 0; x <= width; x++) {
		wide = x < width && isBlank(x) ? wide + 1 : 0;
		if (wide > 3 && (x + 1 === width || !isBlank(x + 1))) found.push({ at: x - Math.floor(wide / 2), wide });
	}
	return found.sort((one, other) => other.wide - one.wide);
}

type Pair = [left: Read | null, right: Read | null];

/** Columns that a blank between two words of one answer leaves, by the height of its letters. */
const betweenWords = (pixels: number) => (pixels % 7 === 0 ? (pixels / 7) * 5 : (pixels / 5) * 4);

/** Two answers in block letters, or one. */
function drawnPair(outer: string, sides: readonly string[], hasLeft: boolean, hasRight: boolean): Pair {
	const inside = sides.map(row => row.slice(hasLeft ? 2 : 0, hasRight ? -2 : undefined));
	if (!hasLeft || !hasRight) {
		const only = readBlock(inside);
		return hasLeft ? [only, null] : [null, only];
	}
	// The frame reaches just past the letters of its answer, where there is room for it.
	const [framed = ''] = /^[▛▙][▀▄]+(?: [^▀▄]* [▀▄]+)?/.exec(outer) ?? [];
	let wordGap: Pair = [null, null];
	for (const { at, wide } of [{ at: framed.length - 2, wide: 0 }, ...gaps(inside)]) {
		const left = readBlock(inside.map(row => row.slice(0, at)));
		const right = readBlock(inside.map(row => row.slice(at)));
		if (!left || !right) continue;
		if (wide !== betweenWords(left.pixels)) return [left, right];
		if (!wordGap[0]) wordGap = [left, right];
	}
	return wordGap;
}

const label = /\s*\([^()]*\)$/;

/** An answer in plain letters, its keys in brackets, over as many rows as it takes. */
function writtenAnswer(rows: readonly string[], isRight: boolean): Read | null {
	const pieces = rows.flatMap(row => {
		const own = isRight ? reversed(row).replace(/[()]/g, one => (one === '(' ? ')' : '(')) : row;
		const [, text] = /^[▛▜▙▟▌▐] (.*?(?:\([^()]*\)(?= |$)|(?= {2}|$)))/.exec(own) ?? [];
		return text === undefined
			? []
			: [isRight ? reversed(text).replace(/[()]/g, one => (one === '(' ? ')' : '(')) : text];
	});
	if (pieces.length === 0) return null;
	const whole = pieces.join(' ');
	return {
		text: (isRight ? whole.replace(/^\([^()]*\)\s*/, '') : whole.replace(label, '')).trim(),
		pixels: 1,
	};
}

/** The two answers of an edge, its outer row first. */
function edgeOf(rows: readonly string[], sides: readonly string[]): Pair {
	const [outer = ''] = rows;
	const [hasLeft, hasRight] = [/^[▛▙]/.test(outer), /[▜▟]$/.test(outer)];
	if (/^[▛▙][▀▄]|[▀▄][▜▟]$/.test(outer)) return drawnPair(outer, sides, hasLeft, hasRight);
	const down = /^▙|▟$/.test(outer) ? [...rows].reverse() : rows;
	return [writtenAnswer(down, false), writtenAnswer(down, true)];
}

/** Names of keys in the frame, alone or in brackets beside an answer. */
const keyNames = /^\(?(E ?R?|I ?(O ?P)?|X ?(C ?V)?)\)?$/;

/** The pieces of a row that are written in plain characters. */
const written = (row: string): string[] =>
	row
		.split(new RegExp(`[${blocks}]+| {2,}`))
		.map(piece => piece.trim())
		.filter(piece => /[\p{L}\d]/u.test(piece) && !keyNames.test(piece));

/** Words in block letters in the middle: each run of rows that holds nothing else. */
function drawn(rows: readonly string[]): string[] {
	const runs: string[][] = [[]];
	for (const row of rows) {
		if (mark.test(row) && /^[█▀▄ ]*$/.test(row)) runs.at(-1)?.push(row);
		else runs.push([]);
	}
	return runs.flatMap(wordsIn);
}

/** A run may be the word and the name under it: every way to cut it in two is tried. */
function wordsIn(run: string[]): string[] {
	if (run.length === 0) return [];
	const whole = readBlock(run);
	if (whole) return [whole.text];
	for (let cut = 2; cut < run.length - 1; cut++) {
		const [upper, lower] = [readBlock(run.slice(0, cut)), readBlock(run.slice(cut))];
		if (upper && lower) return [upper.text, lower.text];
	}
	return [];
}

/** A word broken over two rows after its own hyphen is one word. */
const mended = (text: string) => text.replaceAll(/(?<=\S-)\s+(?=\S)/g, '');

/**
 * Reads a screen.
 *
 * @param screen its rows, joined by line ends
 */
export function look(screen: string): Seen {
	const all = screen.split('\n').map(row => row.trimEnd());
	const width = Math.max(...all.map(row => row.length));
	const rows = all.map(row => row.padEnd(width));
	while (rows.length > 0 && rows.at(-1)?.trim() === '') rows.pop();
	const upsideDown = [...rows].reverse();
	const top = rows.slice(0, edgeRows(rows, /^▛|▜\s*$/));
	const lower = upsideDown.slice(0, edgeRows(upsideDown, /^▙|▟\s*$/));
	const [topLeft, topRight] = edgeOf(top, top.slice(1));
	const [bottomLeft, bottomRight] = edgeOf(lower, lower.slice(1).reverse());
	const found = { topLeft, topRight, bottomLeft, bottomRight };
	const given = Object.entries(found).flatMap(([corner, read]) => (read ? [[corner, read] as const] : []));
	const answers = given.map(([, { text }]) => text);
	const middle = rows.slice(top.length, rows.length - lower.length);
	const beside = written(top[0] ?? '').filter(text => !answers.some(answer => text.includes(answer)));
	const texts = [...beside, ...middle.flatMap(written)];
	const places = texts.filter(text => / · |^REHEARSAL|^coat \d+(\/| of )/.test(text));
	return {
		corners: Object.fromEntries(given.map(([corner, { text }]) => [corner, mended(text)])),
		sizes: Object.fromEntries(given.map(([corner, { pixels }]) => [corner, pixels])),
		status: places.join(' · '),
		text: texts.filter(text => !places.includes(text)).join(' '),
		outside: [...texts, ...drawn(middle)],
	};
}
