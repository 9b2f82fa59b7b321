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

/** A small sign at a place across, `right` px further right. */
export function mark(kind: MarkKind, x: number, y: number, right = 0): Markup {
	const turn = kind === 'aside' || kind === 'broken' ? 45 : 0;
	const d = symbol(shapes[kind], 60)() ?? '';
	return at(
		x,
		y,
		html`<path d="${d}" class="mark ${kind}" transform="translate(${right}) rotate(${turn})"/>`,
	);
}
