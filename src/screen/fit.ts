import { type Font, lowFont, tallFont } from './glyphs.ts';
import { type Block, blockLine, type GlyphStyle, pixelWidth } from './letters.ts';

/** The ways to lay words on one line or two. */
export function waysOf(text: string): string[][] {
	const words = text.split(/(?<=[ /-])/).map(word => word.trim());
	const ways = [[text]];
	for (let cut = 1; cut < words.length; cut++)
		ways.push([words.slice(0, cut).join(' '), words.slice(cut).join(' ')]);
	return ways;
}

/** A blank row keeps two lines apart where the letters do not end in half a row of their own. */
const apart = ({ font, scale }: LetterSize, style: GlyphStyle): boolean =>
	style === 'ascii' || (font.height * scale) % 2 === 0;

function stack(lines: string[], size: LetterSize, style: GlyphStyle): Block | null {
	const { font, scale } = size;
	const blocks = lines.map(line => blockLine(line, font, scale, style));
	const whole = blocks.filter(block => block !== null);
	if (whole.length < lines.length) return null;
	const width = Math.max(...whole.map(block => block.width));
	const blank = apart(size, style) ? [' '.repeat(width)] : [];
	const rows = whole.flatMap((block, index) => [
		...(index > 0 ? blank : []),
		...block.rows.map(row => row.padEnd(width)),
	]);
	return { rows, width, pixels: font.height * scale };
}

type LetterSize = { font: Font; scale: number };

/** Every size of letters, the largest first. */
const sizes: LetterSize[] = [tallFont, lowFont]
	.flatMap(font => [1, 2, 3, 4, 5, 6, 7, 8].map(scale => ({ font, scale })))
	.sort((one, other) => other.font.height * other.scale - one.font.height * one.scale);

/** Ways to lay a text over lines, each with the pixels that its longest line takes in either font. */
type Measured = { lines: string[]; widths: Map<Font, number | null> }[];

function measure(ways: string[][]): Measured {
	const longest = (lines: string[], font: Font): number | null => {
		const widths = lines.map(line => pixelWidth(line, font));
		const known = widths.filter(width => width !== null);
		return known.length === widths.length ? Math.max(...known) : null;
	};
	return ways.map(lines => ({
		lines,
		widths: new Map([tallFont, lowFont].map(font => [font, longest(lines, font)])),
	}));
}

/** The first way that fits at one size; nothing is drawn to find it. */
function wayAt(measured: Measured, size: LetterSize, columns: number, rows: number, style: GlyphStyle) {
	const { font, scale } = size;
	const high = Math.ceil((font.height * scale) / (style === 'half' ? 2 : 1));
	const between = apart(size, style) ? 1 : 0;
	return measured.find(({ lines, widths }) => {
		const width = widths.get(font);
		if (width === null || width === undefined || width * scale > columns) return false;
		return lines.length * high + (lines.length - 1) * between <= rows;
	});
}

/**
 * The largest block letters in which a text fits.
 *
 * @param ways the ways to lay it over lines, the best liked first
 * @param columns, rows  the room there is, in character cells
 * @returns null where even the smallest do not fit or a character has no glyph
 */
export function fitBlock(ways: string[][], columns: number, rows: number, style: GlyphStyle): Block | null {
	const measured = measure(ways);
	for (const size of sizes) {
		const way = wayAt(measured, size, columns, rows, style);
		if (way) return stack(way.lines, size, style);
	}
	return null;
}

/**
 * The largest letters of one size in which every row of texts stands side by side.
 *
 * @param columns what each row of texts may take together
 * @param rows height of each text
 * @returns the blocks by their texts, or null
 */
export function fitAll(
	texts: string[][],
	columns: number,
	rows: number,
	style: GlyphStyle,
): Map<string, Block> | null {
	const measured = new Map(texts.flat().map(text => [text, measure(waysOf(text))]));
	for (const size of sizes) {
		const ways = new Map<string, Measured[number]>();
		for (const [text, widths] of measured) {
			const way = wayAt(widths, size, columns, rows, style);
			if (way) ways.set(text, way);
		}
		const takes = (text: string) =>
			(ways.get(text)?.widths.get(size.font) ?? Number.POSITIVE_INFINITY) * size.scale;
		if (!texts.every(row => row.reduce((sum, text) => sum + takes(text), 0) <= columns)) continue;
		const blocks = [...ways].map(([text, way]) => [text, stack(way.lines, size, style)] as const);
		return new Map(blocks.flatMap(([text, block]) => (block ? [[text, block]] : [])));
	}
	return null;
}
