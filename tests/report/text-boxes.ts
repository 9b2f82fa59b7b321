import { type DefaultTreeAdapterMap, parse } from 'parse5';
import { width_px } from '../../src/report/pictures/text-room.ts';

/** Where the letters of a page's pictures stand, worked out without a browser: places in percent, shifts, anchors. */

type Node = DefaultTreeAdapterMap['node'];
type Element = DefaultTreeAdapterMap['element'];
export type TextBox = { says: string; left: number; right: number; top: number; bottom: number };
type Origin = { x: number; y: number };

const isElement = (node: Node): node is Element => 'tagName' in node;
const attribute = (element: Element, name: string) => element.attrs.find(one => one.name === name)?.value;
const childrenOf = (node: Node): Node[] => ('childNodes' in node ? node.childNodes : []);
const textOf = (node: Node): string => ('value' in node ? node.value : childrenOf(node).map(textOf).join(''));

const px = (value: string | undefined, of_px: number): number =>
	value?.endsWith('%') ? (Number.parseFloat(value) / 100) * of_px : Number(value ?? 0);

const size_px = 12;

function moved(element: Element, { x, y }: Origin, of_px: number): Origin {
	const [, right = '0', down = '0'] =
		/translate\(([-\d.]+)[ ,]*([-\d.]*)\)/.exec(attribute(element, 'transform') ?? '') ?? [];
	const nested = element.tagName === 'svg';
	return {
		x: x + Number(right) + (nested ? px(attribute(element, 'x'), of_px) : 0),
		y: y + Number(down || 0) + (nested ? px(attribute(element, 'y'), of_px) : 0),
	};
}

function boxOf(element: Element, { x, y }: Origin, of_px: number): TextBox {
	const says = textOf(element);
	const width = width_px(says, size_px);
	const at = x + px(attribute(element, 'x'), of_px) + Number(attribute(element, 'dx') ?? 0);
	const anchor = attribute(element, 'text-anchor') ?? 'start';
	const left = anchor === 'start' ? at : anchor === 'end' ? at - width : at - width / 2;
	const foot = y + px(attribute(element, 'y'), of_px);
	return { says, left, right: left + width, top: foot - 0.75 * size_px, bottom: foot + 0.2 * size_px };
}

function boxesIn(node: Node, origin: Origin, of_px: number): TextBox[] {
	if (!isElement(node)) return [];
	if (node.tagName === 'text') return [boxOf(node, origin, of_px)];
	if (['title', 'desc', 'defs'].includes(node.tagName)) return [];
	const here = moved(node, origin, of_px);
	return childrenOf(node).flatMap(child => boxesIn(child, here, of_px));
}

/** The boxes of every picture of a page that names itself, at a width of the pictures' place, px. */
export function pictureTexts(
	page: string,
	of_px: number,
): { title: string; width: number; texts: TextBox[] }[] {
	const found: { title: string; width: number; texts: TextBox[] }[] = [];
	const walk = (node: Node): void => {
		if (isElement(node) && node.tagName === 'svg' && attribute(node, 'role') === 'img') {
			const own = attribute(node, 'width');
			const width = own === undefined || own.endsWith('%') ? of_px : Number(own);
			const title = childrenOf(node).find(child => isElement(child) && child.tagName === 'title');
			const texts = childrenOf(node).flatMap(child => boxesIn(child, { x: 0, y: 0 }, width));
			found.push({ title: title ? textOf(title) : '', width, texts });
		} else for (const child of childrenOf(node)) walk(child);
	};
	walk(parse(page));
	return found;
}

/** Letters that lie over others, or outside their picture. */
export function overlaps(page: string, of_px: number): string[] {
	return pictureTexts(page, of_px).flatMap(({ title, width, texts }) => [
		...texts.flatMap((one, nth) =>
			texts
				.slice(nth + 1)
				.filter(
					other =>
						Math.min(one.right, other.right) - Math.max(one.left, other.left) > 1 &&
						Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > 1,
				)
				.map(other => `${title}: "${one.says}" over "${other.says}"`),
		),
		...texts
			.filter(({ left, right }) => left < -1 || right > width + 9)
			.map(({ says }) => `${title}: "${says}" outside`),
	]);
}
