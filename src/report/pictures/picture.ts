import { scaleLinear } from 'd3-scale';
import { fromUnit, inUnit, type Quantity, type UnitSystem } from '../../trade/quantity.ts';
import { entryUnit } from '../../trade/shown.ts';
import { html, type Markup, type Piece, percent } from '../page/markup.ts';
import { fitted } from './text-room.ts';

/**
 * Pictures stretch across and keep their height: places across are percentages, so that letters stay the size of
 * letters on a telephone and on paper. What has a shape of its own is nested and keeps it.
 */

/** Ways of filling that are told apart without colour. */
export const fills = ['wait', 'spray', 'scuff', 'sand', 'break'] as const;
export type Fill = (typeof fills)[number];

const line = (d: string): Markup => html`<path d="${d}" class="hatch"/>`;
const strokes: Record<Fill, Piece> = {
	wait: line('M0 8L8 0M-2 2L2 -2M6 10L10 6'),
	spray: null,
	scuff: html`<circle cx="2" cy="2" r="1.1" class="dot"/><circle cx="6" cy="6" r="1.1" class="dot"/>`,
	sand: line('M0 4H8M4 0V8'),
	break: line('M0 0L8 8M0 8L8 0'),
};

const patterns = (id: string): Piece =>
	fills.map(
		fill =>
			html`<pattern id="${id}-${fill}" width="8" height="8" patternUnits="userSpaceOnUse"><rect width="8" height="8" class="fill-${fill}"/>${strokes[fill]}</pattern>`,
	);

export type Picture = {
	/** Its own within the page. */
	id: string;
	title: string;
	/** What it shows, for who cannot see it; the table below it has the figures. */
	desc: string;
	height: number;
};

/** A picture with its names and patterns. */
export const picture = ({ id, title, desc, height }: Picture, content: Piece): Markup =>
	html`<svg role="img" aria-labelledby="${id}-title ${id}-desc" width="100%" height="${height}" xmlns="http://www.w3.org/2000/svg">
<title id="${id}-title">${title}</title>
<desc id="${id}-desc">${desc}</desc>
<defs>${patterns(id)}</defs>
${content}
</svg>`;

export const filled = (id: string, fill: Fill): string => `url(#${id}-${fill})`;

export type Bar = { from: number; to: number; y: number; height: number; fill: string; kind: string };

/** A bar from one place across to another, in percent; `kind` is its class. */
export const bar = ({ from, to, y, height, fill, kind }: Bar): Markup =>
	html`<rect x="${percent(from)}" y="${y}" width="${percent(Math.max(0, to - from))}" height="${height}" fill="${fill}" class="${kind}"/>`;

export const rule = (x: number, from: number, to: number, kind: string): Markup =>
	html`<line x1="${percent(x)}" x2="${percent(x)}" y1="${from}" y2="${to}" class="${kind}"/>`;

/** Width of a picture on the narrowest screen, px. */
export const narrowest_px = 328;

export type Label = {
	x: number;
	y: number;
	dx?: number;
	anchor?: 'start' | 'middle' | 'end';
	kind?: string;
	/** Left out: the whole width of the narrowest screen. The table below has the whole of what is cut. */
	room_px?: number;
};

export const label = (
	text: string,
	{ x, y, dx = 0, anchor = 'start', kind = 'label', room_px = narrowest_px }: Label,
): Markup =>
	html`<text x="${percent(x)}" y="${y}" dx="${dx}" text-anchor="${anchor}" class="${kind}">${fitted(text, room_px)}</text>`;

/** A shape of its own size at a place across. */
export const at = (x: number, y: number, content: Piece): Markup =>
	html`<svg x="${percent(x)}" y="${y}" overflow="visible" width="1" height="1">${content}</svg>`;

/** The anchor that keeps a label inside the picture. */
export const inside = (x: number): 'start' | 'middle' | 'end' =>
	x < 8 ? 'start' : x > 92 ? 'end' : 'middle';

/** Round figures in the unit that a reader sees, in the base unit of the kind. */
export function roundTicks(from: number, to: number, kind: Quantity, units: UnitSystem, count = 5): number[] {
	const { symbol } = entryUnit(kind, units);
	const scale = scaleLinear().domain([inUnit(from, kind, symbol), inUnit(to, kind, symbol)]);
	return scale.ticks(count).map(value => fromUnit(value, kind, symbol));
}

/** Rows in pieces that fit a sheet of paper. */
export function inPieces<Row>(rows: readonly Row[], most: number): Row[][] {
	const pieces = Math.max(1, Math.ceil(rows.length / most));
	const size = Math.ceil(rows.length / pieces);
	return Array.from({ length: pieces }, (_, nth) => rows.slice(nth * size, (nth + 1) * size));
}
