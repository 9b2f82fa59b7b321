import type { Corner } from '../day/view.ts';
import type { GlyphStyle } from './letters.ts';

/** What a corner's frame is drawn with. */
export type Marks = {
	corner: Record<Corner, string>;
	left: string;
	right: string;
	top: string;
	bottom: string;
};

const half: Marks = {
	corner: { topLeft: '▛', topRight: '▜', bottomLeft: '▙', bottomRight: '▟' },
	left: '▌',
	right: '▐',
	top: '▀',
	bottom: '▄',
};
const ascii: Marks = {
	corner: { topLeft: '/', topRight: '\\', bottomLeft: '\\', bottomRight: '/' },
	left: '|',
	right: '|',
	top: '-',
	bottom: '-',
};
const heavy = (mark: string): Marks => ({
	corner: { topLeft: mark, topRight: mark, bottomLeft: mark, bottomRight: mark },
	left: mark,
	right: mark,
	top: mark,
	bottom: mark,
});

/** The marks that hug a corner; the heavy ones say that its answer is the one chosen. */
export function marksOf(style: GlyphStyle, chosen: boolean): Marks {
	if (chosen) return heavy(style === 'half' ? '█' : '#');
	return style === 'half' ? half : ascii;
}

/** What stands for a piece cut out of a text. */
export const dots: Record<GlyphStyle, string> = { half: '…', ascii: '...' };
