import { type Font, lowFont, tallFont } from '../../src/screen/glyphs.ts';

/** Reads block letters off a screen: what a person at the window does without noticing. */

const pixels: Record<string, [boolean, boolean]> = {
	'█': [true, true],
	'▀': [true, false],
	'▄': [false, true],
	' ': [false, false],
};

/** Rows of half blocks as a grid of pixels; null where something else stands among them. */
function gridOf(rows: readonly string[]): boolean[][] | null {
	const grid: boolean[][] = [];
	for (const row of rows) {
		const cells = [...row].map(character => pixels[character]);
		const known = cells.filter(cell => cell !== undefined);
		if (known.length < cells.length) return null;
		grid.push(
			known.map(([upper]) => upper),
			known.map(([, lower]) => lower),
		);
	}
	return grid;
}

/** The pixels of a column, as far down as a letter goes. */
const columnOf = (grid: boolean[][], x: number, height: number): string =>
	Array.from({ length: height }, (_, y) => (grid[y]?.[x] ? '#' : '.')).join('');

/** A letter's columns at a size, the gap after it included. */
function lettersOf(font: Font, scale: number): [string, string[]][] {
	const tallAs = (column: string) => [...column].map(pixel => pixel.repeat(scale)).join('');
	return [...font.glyphs].map(([letter, rows]) => {
		const width = rows[0]?.length ?? 0;
		const columns = Array.from({ length: width }, (_, x) => rows.map(row => row[x]).join(''));
		const gap = '.'.repeat(font.height);
		return [letter, [...columns, gap].flatMap(column => Array.from({ length: scale }, () => tallAs(column)))];
	});
}

/** One line of letters of one size, from its first column to its last; null where it is no such line. */
function readLine(grid: boolean[][], font: Font, scale: number): string | null {
	const height = font.height * scale;
	if (grid.slice(height).some(row => row.some(Boolean))) return null;
	const columns = (grid[0] ?? []).map((_, x) => columnOf(grid, x, height));
	const blank = '.'.repeat(height);
	const last = columns.findLastIndex(column => column !== blank);
	const first = columns.findIndex(column => column !== blank);
	if (first < 0) return null;
	const letters = lettersOf(font, scale);
	const dead = new Set<number>();
	const from = (x: number): string | null => {
		if (x > last) return '';
		if (dead.has(x)) return null;
		for (const [letter, shape] of letters) {
			if (!shape.every((column, index) => (columns[x + index] ?? blank) === column)) continue;
			const rest = from(x + shape.length);
			if (rest !== null) return letter + rest;
		}
		dead.add(x);
		return null;
	};
	return from(first)?.trim() ?? null;
}

const fonts = [tallFont, lowFont];
const scales = [1, 2, 3, 4, 5, 6, 7, 8];

const isBlank = (row: string) => row.trim() === '';

/** Cuts off blank rows above and below. */
function trimmed(rows: readonly string[]): string[] {
	const first = rows.findIndex(row => !isBlank(row));
	const last = rows.findLastIndex(row => !isBlank(row));
	return first < 0 ? [] : rows.slice(first, last + 1);
}

/** Letters as they were read, and how high one of them is in pixels. */
export type Read = { text: string; pixels: number };

/**
 * Reads one or two lines of block letters that fill a piece of the screen.
 *
 * @param rows the piece, row by row, with nothing else in it
 * @returns null where these are no block letters
 */
export function readBlock(rows: readonly string[]): Read | null {
	const block = trimmed(rows);
	if (block.length < 2) return null;
	for (const font of fonts)
		for (const scale of scales) {
			const high = Math.ceil((font.height * scale) / 2);
			const between = (font.height * scale) % 2 === 0 ? 1 : 0;
			for (const lines of [1, 2]) {
				if (block.length !== lines * high + (lines - 1) * between) continue;
				const texts = Array.from({ length: lines }, (_, line) => {
					const at = line * (high + between);
					const grid = gridOf(block.slice(at, at + high));
					return grid && readLine(grid, font, scale);
				});
				const known = texts.filter(text => text !== null);
				if (known.length === lines) return { text: known.join(' '), pixels: font.height * scale };
			}
		}
	return null;
}
