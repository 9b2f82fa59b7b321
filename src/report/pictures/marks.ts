import { symbol, symbolCircle, symbolCross, symbolDiamond, symbolSquare, symbolTriangle } from 'd3-shape';
import { html, type Markup } from '../page/markup.ts';
import { at } from './picture.ts';

const shapes = {
	fault: symbolTriangle,
	aside: symbolCross,
	full: symbolCircle,
	short: symbolCircle,
	broken: symbolCross,
	good: symbolCircle,
	out: symbolSquare,
	differed: symbolDiamond,
	override: symbolTriangle,
};
export type MarkKind = keyof typeof shapes;

/** A small sign at a place across. */
export const mark = (kind: MarkKind, x: number, y: number): Markup =>
	at(
		x,
		y,
		html`<path d="${symbol(shapes[kind], 60)() ?? ''}" class="mark ${kind}"${
			kind === 'aside' || kind === 'broken' ? html` transform="rotate(45)"` : null
		}/>`,
	);

/** The same sign in a line of text, for the words under a picture. */
export const sign: Record<MarkKind, string> = {
	fault: '▲',
	aside: '✕',
	full: '●',
	short: '○',
	broken: '✕',
	good: '○',
	out: '■',
	differed: '◆',
	override: '△',
};
