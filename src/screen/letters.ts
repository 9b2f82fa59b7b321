import { type Font, lowFont, tallFont } from './glyphs.ts';

/** Text as block letters: rows of characters, all of one width. `pixels` is the height of a capital. */
export type Block = { rows: string[]; width: number; pixels: number };

/** `half`: two pixels to a character cell, one above the other; `ascii`: a cell for a pixel. */
export type GlyphStyle = 'half' | 'ascii';

const gap = 1;

/** Capitals without accents, so that a name in any Latin script can be drawn. */
function drawable(text: string): string {
	return text
		.normalize('NFD')
		.replace(/\p{Mn}/gu, '')
		.toUpperCase()
		.replaceAll('·', '-');
}

function pixelRows(text: string, font: Font, scale: number): string[] | null {
	const glyphs = [...drawable(text)].map(letter => font.glyphs.get(letter));
	if (glyphs.length === 0 || glyphs.includes(undefined)) return null;
	const between = '.'.repeat(gap);
	const rows = Array.from({ length: font.height }, (_, row) =>
		glyphs.map(glyph => glyph?.[row] ?? '').join(between),
	);
	return rows.flatMap(row => {
		const wide = [...row].map(pixel => pixel.repeat(scale)).join('');
		return Array.from({ length: scale }, () => wide);
	});
}

const halves: Record<string, string> = { '##': '█', '#.': '▀', '.#': '▄', '..': ' ' };

/** Turns rows of `#` and `.` into characters. */
export function drawPixels(rows: string[], style: GlyphStyle): string[] {
	if (style === 'ascii') return rows.map(row => row.replaceAll('.', ' '));
	return Array.from({ length: Math.ceil(rows.length / 2) }, (_, pair) => {
		const upper = rows[pair * 2] ?? '';
		const lower = rows[pair * 2 + 1] ?? '';
		return [...upper].map((pixel, column) => halves[pixel + (lower[column] ?? '.')] ?? ' ').join('');
	});
}

/** One line of text in one font at one size, or null where a character cannot be drawn. */
export function blockLine(text: string, font: Font, scale: number, style: GlyphStyle): Block | null {
	const pixels = pixelRows(text, font, scale);
	if (!pixels) return null;
	const rows = drawPixels(pixels, style);
	return { rows, width: rows[0]?.length ?? 0, pixels: font.height * scale };
}

/** The ways to lay words on one or two lines. */
function breaks(text: string): string[][] {
	const words = text.split(/(?<=[ /-])/).map(word => word.trim());
	const ways = [[text]];
	for (let cut = 1; cut < words.length; cut++)
		ways.push([words.slice(0, cut).join(' '), words.slice(cut).join(' ')]);
	return ways;
}

function stack(lines: string[], font: Font, scale: number, style: GlyphStyle): Block | null {
	const blocks = lines.map(line => blockLine(line, font, scale, style));
	const whole = blocks.filter(block => block !== null);
	if (whole.length < lines.length) return null;
	const width = Math.max(...whole.map(block => block.width));
	const blank = style === 'ascii' ? [' '.repeat(width)] : [];
	const rows = whole.flatMap((block, index) => [
		...(index > 0 ? blank : []),
		...block.rows.map(row => row.padEnd(width)),
	]);
	return { rows, width, pixels: font.height * scale };
}

/**
 * The largest block letters in which a text fits, on one line or two.
 *
 * @param columns, rows  the room there is, in character cells
 * @returns null where even the smallest do not fit or a character has no glyph
 */
export function fitBlock(text: string, columns: number, rows: number, style: GlyphStyle): Block | null {
	let best: Block | null = null;
	for (const font of [tallFont, lowFont])
		for (const lines of breaks(text))
			for (let scale = 1; scale <= 8; scale++) {
				const block = stack(lines, font, scale, style);
				if (!block || block.width > columns || block.rows.length > rows) break;
				if (!best || block.pixels > best.pixels) best = block;
			}
	return best;
}
