import type { Font, Glyph } from './glyphs.ts';

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
		.replaceAll('·', '-')
		.replaceAll('µ', 'U')
		.replaceAll('Μ', 'U');
}

function glyphsOf(text: string, font: Font): Glyph[] | null {
	const glyphs = [...drawable(text)].map(letter => font.glyphs.get(letter));
	const known = glyphs.filter(glyph => glyph !== undefined);
	return known.length > 0 && known.length === glyphs.length ? known : null;
}

/** Pixels that a line takes in a font at its own size, or null where a character has no glyph. */
export function pixelWidth(text: string, font: Font): number | null {
	const glyphs = glyphsOf(text, font);
	return glyphs ? glyphs.reduce((sum, glyph) => sum + (glyph[0]?.length ?? 0) + gap, -gap) : null;
}

function pixelRows(text: string, font: Font, scale: number): string[] | null {
	const glyphs = glyphsOf(text, font);
	if (!glyphs) return null;
	const between = '.'.repeat(gap);
	return Array.from({ length: font.height }, (_, row) => {
		const line = glyphs.map(glyph => glyph[row] ?? '').join(between);
		return scale === 1 ? line : line.replaceAll('#', '#'.repeat(scale)).replaceAll('.', '.'.repeat(scale));
	}).flatMap(row => Array.from({ length: scale }, () => row));
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
