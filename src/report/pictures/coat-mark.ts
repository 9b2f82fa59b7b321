import { type SymbolType, symbol, symbolCircle, symbolDiamond, symbolSquare, symbolStar } from 'd3-shape';
import { html, type Markup } from '../page/markup.ts';
import type { CoatTold } from './face-told.ts';

/** A coat as a mark with its number: its shape tells the material, its filling what is on. */

/** Shapes of the materials of a job, in the order of the sheet; a fifth begins again. */
const shapes: [SymbolType, number][] = [
	[symbolCircle, 165],
	[symbolSquare, 180],
	[symbolDiamond, 150],
	[symbolStar, 150],
];

/** The shape of a material in a line of text. */
export const glyphOf = (material: number): string => ['●', '■', '◆', '★'][material % shapes.length] ?? '●';

/** Side of the room that a mark takes, px. */
export const mark_px = 17;

/** How a coat stands, and how its mark is filled. */
export const standsSaid: Record<CoatTold['stands'], string> = {
	all: 'laid',
	part: 'laid in part',
	before: 'laid on a day before',
	due: 'not laid',
};

export type CoatMark = { material: number; stands: CoatTold['stands']; says: string };

/** A mark about a middle, px. */
export function coatMark({ material, stands, says }: CoatMark, x: number, y: number): Markup {
	const [shape, size] = shapes[Math.max(0, material) % shapes.length] ?? [symbolCircle, 165];
	return html`<g class="coat-mark ${stands}" transform="translate(${x} ${y})"><path d="${symbol(shape, size)() ?? ''}"/><text y="4" text-anchor="middle">${says}</text></g>`;
}

/** What the marks are coloured by. */
export const coatMarkStyle = `
.coat-mark path{fill:var(--pass);stroke:var(--pass);stroke-width:1.5}.coat-mark text{font-size:11px;font-weight:700;fill:var(--paper)}
.coat-mark.before path{fill:var(--soft);stroke:var(--soft)}.coat-mark.part path{fill:var(--spray);stroke-dasharray:3 2}.coat-mark.due path{fill:none;stroke-opacity:.5}
svg .coat-mark.part text,svg .coat-mark.due text{fill:var(--ink)}`;
