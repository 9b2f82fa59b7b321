import { plain } from '../said.ts';

/** Text that is markup already. Everything else is escaped on its way into a page. */
export type Markup = { readonly markup: string };
export type Piece = string | number | Markup | null | readonly Piece[];

const signs: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** Text as markup: no tag, no quote, no control character gets through. */
export const escaped = (text: string): string => plain(text).replace(/[&<>"']/g, sign => signs[sign] ?? sign);

function write(piece: Piece): string {
	if (piece === null) return '';
	if (typeof piece === 'string') return escaped(piece);
	if (typeof piece === 'number') return Number.isFinite(piece) ? String(piece) : '';
	if ('markup' in piece) return piece.markup;
	return piece.map(write).join('');
}

/** A template whose inserted texts are escaped: for HTML and for SVG alike. Attributes stand in double quotes. */
export const html = (text: TemplateStringsArray, ...pieces: Piece[]): Markup => ({
	markup: text.reduce((sum, part, index) => sum + write(pieces[index - 1] ?? null) + part),
});

/** A place across a picture, in percent of its width. */
export const percent = (value: number): string => `${Number(value.toFixed(3))}%`;
