import { crossReach_mm, type PatternCard } from '../trade/pattern-cards.ts';
import { html, type Markup } from './page/markup.ts';

/** Pattern cards to print at life size: a cross with a letter at each end, one card a page. */

export type Paper = 'a4' | 'letter';

/** Width of the paper less 10 mm at either side, mm. */
const width_mm: Record<Paper, number> = { a4: 190, letter: 196 };

const round = (value: number) => Number(value.toFixed(2));

/**
 * How far the ends of the cross lie from its middle, mm: inside a tall or wide fan, outside a round pattern; a fan
 * larger than the paper gets the largest cross that fits.
 * @param fan_mm height of the fan at the gun's distance, more than 0
 */
export const reachOn_mm = (fan_mm: number, paper: Paper): number =>
	round(Math.min(crossReach_mm(fan_mm), (0.5 * width_mm[paper]) / (1 + letterShare)));

/** Height of a letter as a share of the reach. */
const letterShare = 0.24;

/** A letter upright at an end of the cross. */
const end = (letter: string, x: number, y: number, size: number): Markup =>
	html`<text x="${round(x)}" y="${round(y + 0.36 * size)}" font-size="${round(size)}">${letter}</text>`;

/** A line of 100 mm under the cross: by it a print that was scaled is seen. */
function ruler(side: number, y: number): Markup {
	const from = (side - 100) / 2;
	return html`<path class="rule" d="M${from} ${y} h100 M${from} ${y - 2} v4 M${from + 100} ${y - 2} v4"/>
<text class="small" x="${side / 2}" y="${y + 7}" font-size="4.5">this line is 100 mm long, else print again at 100 %</text>`;
}

/** One card as an SVG of its own, its measures in mm. */
export function cardSvg(card: PatternCard, fan_mm: number, paper: Paper): Markup {
	const reach = reachOn_mm(fan_mm, paper);
	const side = width_mm[paper];
	const size = round(letterShare * reach * 2);
	const [x, y] = [side / 2, side / 2 + 24];
	const arm = round(reach - size / 2 - 1);
	const tall = round(side + 48);
	return html`<svg xmlns="http://www.w3.org/2000/svg" width="${side}mm" height="${tall}mm" viewBox="0 0 ${side} ${tall}" role="img" aria-label="Pattern card ${card.number}: ${card.top} above, ${card.bottom} below, ${card.left} left, ${card.right} right">
<style>text{font-family:sans-serif;font-weight:700;text-anchor:middle}path{fill:none;stroke:#000;stroke-width:.8}.small{font-weight:400}.rule{stroke-width:.4}</style>
<path d="M${x - 5} 11 l5 -8 l5 8 M${x} 3 v14"/>
<text x="24" y="16" font-size="14">${card.number}</text>
<text class="small" x="${side - 30}" y="14" font-size="5">this side up</text>
<path d="M${x} ${round(y - arm)} V${round(y + arm)} M${round(x - arm)} ${y} H${round(x + arm)}"/>
${end(card.top, x, y - reach, size)}${end(card.bottom, x, y + reach, size)}${end(card.left, x - reach, y, size)}${end(card.right, x + reach, y, size)}
${ruler(side, side + 32)}
</svg>
`;
}

const pageSize: Record<Paper, string> = { a4: 'A4', letter: 'letter' };

/** All cards as one page to print from a browser, a sheet of paper each. */
export function cardsPage(cards: readonly PatternCard[], fan_mm: number, paper: Paper): string {
	return html`<!doctype html>
<html lang="en">
<meta charset="utf-8">
<title>Pattern cards</title>
<style>@page{size:${pageSize[paper]};margin:10mm}body{margin:0}svg{display:block;break-after:page;break-inside:avoid}svg:last-child{break-after:auto}</style>
${cards.map(card => cardSvg(card, fan_mm, paper))}</html>
`.markup;
}
