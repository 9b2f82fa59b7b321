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
type Way = { lines: string[]; widths: Map<Font, number | null> };
type Measured = Way[];

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

/** The ways that fit at one size, the best liked first; nothing is drawn to find them. */
function waysAt(measured: Measured, size: LetterSize, columns: number, rows: number, style: GlyphStyle) {
	const { font, scale } = size;
	const high = Math.ceil((font.height * scale) / (style === 'half' ? 2 : 1));
	const between = apart(size, style) ? 1 : 0;
	return measured.filter(({ lines, widths }) => {
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
		const [way] = waysAt(measured, size, columns, rows, style);
		if (way) return stack(way.lines, size, style);
	}
	return null;
}

type Pick = (ways: Way[]) => Way | undefined;
const first: Pick = ways => ways[0];
const narrowest =
	(width: (way: Way) => number): Pick =>
	ways =>
		[...ways].sort((one, other) => width(one) - width(other))[0];

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
		const width = ({ widths }: Way) => (widths.get(size.font) ?? Number.POSITIVE_INFINITY) * size.scale;
		const fitting = [...measured].map(
			([text, ways]) => [text, waysAt(ways, size, columns, rows, style)] as const,
		);
		const found = new Map(fitting);
		const widest = (pick: Pick, row: string[]) =>
			row.reduce((sum, text) => {
				const way = pick(found.get(text) ?? []);
				return sum + (way ? width(way) : Number.POSITIVE_INFINITY);
			}, 0);
		const picks = texts.map(row => [first, narrowest(width)].find(pick => widest(pick, row) <= columns));
		if (picks.some(pick => pick === undefined)) continue;
		const blocks = texts.flatMap((row, index) =>
			row.map(text => {
				const way = picks[index]?.(found.get(text) ?? []);
				return [text, way ? stack(way.lines, size, style) : null] as const;
			}),
		);
		return new Map(blocks.flatMap(([text, block]) => (block ? [[text, block]] : [])));
	}
	return null;
}
