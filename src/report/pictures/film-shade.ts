import { scaleThreshold } from 'd3-scale';
import { html, type Markup, type Piece } from '../page/markup.ts';
import type { Departure } from './departure.ts';

/** Film by shade: the thicker against its target, the stronger; what runs is crossed. */

export const shades = ['thin', 'lean', 'even', 'rich', 'thick', 'runs', 'unknown'] as const;
export type Shade = (typeof shades)[number];

/** Bounds between the first five, as shares of the target. This project's own choice. */
const bounds = [0.67, 0.85, 1.18, 1.5];
const shadeAt = scaleThreshold<number, Shade>().domain(bounds).range(shades.slice(0, 5));

/** The shade of a film; none: it is not known. */
export const shadeOf = (film: Departure | null): Shade =>
	film === null ? 'unknown' : film.lies === 'runs' ? 'runs' : shadeAt(film.share);

/** What each shade of the scale says under it: the bound that it begins with. */
const says: Record<Shade, string> = {
	thin: 'thin',
	lean: '⅔',
	even: 'target',
	rich: '1.2 ×',
	thick: '1½ ×',
	runs: 'runs',
	unknown: 'not known',
};

/** The pattern of what runs: ids are one a page. */
export const runsPattern: Piece = html`<defs><pattern id="shade-runs" width="6" height="6" patternUnits="userSpaceOnUse"><rect width="6" height="6" class="shade thick"/><path d="M0 0L6 6M0 6L6 0" class="cut-line"/></pattern></defs>`;

const step_px = 44;

/** The scale of the shades, thinnest first. */
export function shadeScale(): Markup {
	const width = shades.length * step_px + 12;
	return html`<svg role="img" aria-labelledby="shades-title shades-desc" width="${width}" height="34" viewBox="0 0 ${width} 34" xmlns="http://www.w3.org/2000/svg">
<title id="shades-title">Scale of the film shades</title>
<desc id="shades-desc">From under two thirds of the target, faintest, to over one and a half times it, strongest; crossed where it is over the film at which the face runs; empty where no film is known.</desc>
${runsPattern}
${shades.map((shade, nth) => {
	const x = nth * step_px + (shade === 'unknown' ? 10 : 0);
	return html`<rect x="${x}" y="1" width="${step_px - 2}" height="14" class="shade ${shade}"/><text x="${shade === 'unknown' ? width : x}" y="29" text-anchor="${shade === 'unknown' ? 'end' : 'start'}" class="tick">${says[shade]}</text>`;
})}
</svg>`;
}

/** What the shades are coloured by. */
export const shadeStyle = `
.shade{fill:var(--pass);stroke:var(--ink);stroke-opacity:.5}.shade.thin{fill-opacity:.08}.shade.lean{fill-opacity:.2}.shade.even{fill-opacity:.36}
.shade.rich{fill-opacity:.56}.shade.thick{fill-opacity:.8}.shade.runs{fill:url(#shade-runs)}.shade.unknown{fill:var(--paper)}`;
