import { type Face, fanFor_mm, laidAs, type NamedGun, type PlannedCoat } from '../../job/job.ts';
import type { UnitSystem } from '../../trade/quantity.ts';
import { format } from '../../trade/shown.ts';
import { html, type Markup, type Piece } from '../page/markup.ts';
import { face as faceSaid, word } from '../said.ts';

/** One face as it is laid for one coat, seen from where the painter stands. */
export type FaceAsked = { face: Face; coat: PlannedCoat; gun: Pick<NamedGun, 'fanDepth_mm'> };

/** `longest_px`: what is longer is drawn with a break in it. */
export type FaceScale = { px_per_mm: number; longest_px: number; line_px: number };

export type Box = { x: number; y: number; width: number; height: number };

/** A face drawn: the room that it takes with the fan over its edges, and where the face itself lies in it, px. */
export type FaceDrawn = { width: number; height: number; face: Box; drawn: Markup };

/** What these pictures are coloured by; the page has `--ink`, `--paper`, `--spray` and `--target`. */
export const faceStyle = `
.face{fill:var(--paper);stroke:var(--ink)}.face.bare{stroke-dasharray:4 3}.stroke-line{stroke:var(--ink);stroke-opacity:.22}
.fan{fill:var(--spray);stroke:var(--ink);stroke-opacity:.6}.over-face{fill-opacity:.75}
.stroke path{fill:none;stroke:var(--target)}.stroke .halo{stroke:var(--paper)}.cut{fill:var(--paper);stroke:none}.cut-line{fill:none;stroke:var(--ink)}`;

const rounded = (value: number): number => Number(value.toFixed(1));

type Sides = [number, number];

/** Width and height of what is drawn, mm: its size, else one of its pieces, else a square of its area. */
function sides_mm({ face, coat }: FaceAsked): Sides {
	const { size_mm, strip_mm, area_m2 } = laidAs(face, coat);
	if (size_mm) return size_mm;
	const side = Math.sqrt(area_m2) * 1000;
	const [thick, long] = strip_mm ?? [side, side];
	return coat.stroke === 'side-to-side' ? [long, thick] : [thick, long];
}

/** Width and height of the fan on the work, mm: it lies across the stroke. */
function fan_mm({ face, coat, gun }: FaceAsked): Sides {
	const across = fanFor_mm(face, coat);
	const along = Math.min(gun.fanDepth_mm, across);
	return coat.stroke === 'side-to-side' ? [along, across] : [across, along];
}

/** No strip makes a scale smaller for more of its length than so many times its fan. This project's own choice. */
const longest = 2;

/** The longer side that a scale has to find room for, mm. */
function reach_mm(asked: FaceAsked): number {
	const [width, height] = sides_mm(asked);
	const across = Math.max(Math.min(width, height), ...fan_mm(asked));
	return Math.min(Math.max(width, height), longest * across);
}

/** One scale for several faces: the largest of them fills so many px. */
export const scaleFor = (all: readonly FaceAsked[], room_px: number): FaceScale => ({
	px_per_mm: room_px / Math.max(1, ...all.map(reach_mm)),
	longest_px: room_px,
	line_px: Math.max(2, room_px / 60),
});

/** Two ragged edges across a strip that is longer than it is drawn. */
function broken({ x, y, width, height }: Box, upright: boolean, line_px: number): Piece {
	const across = upright ? width : height;
	const at = upright ? y + height * 0.2 : x + width * 0.2;
	const [from, to] = [(upright ? x : y) - line_px, (upright ? x : y) + across + line_px];
	const middle = (from + to) / 2;
	const gap = 1.6 * line_px;
	const edge = (off: number): [number, number][] => [
		[at + off - line_px, from],
		[at + off + line_px, middle - line_px / 2],
		[at + off - line_px, middle + line_px / 2],
		[at + off + line_px, to],
	];
	const path = (points: [number, number][]): string =>
		`M${points.map(([along, over]) => (upright ? [over, along] : [along, over]).map(rounded).join(' ')).join('L')}`;
	return [
		html`<path class="cut" d="${path([...edge(-gap), ...edge(gap).reverse()])}Z"/>`,
		html`<path class="cut-line" d="${path(edge(-gap))}${path(edge(gap))}"/>`,
	];
}

/** Lines of the strokes over a face. */
function strokeLines({ coat }: FaceAsked, box: Box, px_per_mm: number): Piece {
	const { strokes, spacing_mm, first_mm } = coat;
	const sideways = coat.stroke === 'side-to-side';
	const across = sideways ? box.height : box.width;
	if (strokes === undefined || spacing_mm === undefined || first_mm === undefined) return null;
	return Array.from({ length: Math.floor(strokes) }, (_, nth) => {
		const off = (first_mm + nth * spacing_mm) * px_per_mm;
		if (off < 0 || off > across + 0.5) return null;
		const [x, y] = [rounded(box.x + off), rounded(box.y + off)];
		return sideways
			? html`<path class="stroke-line" d="M${rounded(box.x)} ${y}h${rounded(box.width)}"/>`
			: html`<path class="stroke-line" d="M${x} ${rounded(box.y)}v${rounded(box.height)}"/>`;
	});
}

/** An arrow with two heads through the middle of a face. */
function arrow({ coat }: FaceAsked, { x, y, width, height }: Box, line_px: number): Piece {
	const sideways = coat.stroke === 'side-to-side';
	const reach = Math.max(sideways ? width : height, 8 * line_px) * 0.42;
	const head = 2.2 * line_px;
	const [middle, along] = [`${rounded(x + width / 2)} ${rounded(y + height / 2)}`, rounded(reach)];
	const end = (side: number): string => {
		const [tip, back] = [rounded(side * reach), rounded(side * (reach - head))];
		return `M${back} ${rounded(-head)}L${tip} 0L${back} ${rounded(head)}`;
	};
	const d = `M${-along} 0H${along}${end(1)}${end(-1)}`;
	return html`<g class="stroke" transform="translate(${middle}) rotate(${sideways ? 0 : 90})"><path class="halo" stroke-width="${rounded(2.2 * line_px)}" d="${d}"/><path stroke-width="${rounded(line_px)}" d="${d}"/></g>`;
}

/**
 * A face to scale with its strokes, the fan across them and the way of the gun.
 * @param scale one for all the faces that stand side by side: `scaleFor`
 * @param kind class of the outline: `laid` or `bare`
 * @param film class of the film on it, where one is to be shown
 */
export function faceDrawn(
	asked: FaceAsked,
	scale: FaceScale,
	kind: 'laid' | 'bare',
	film: string | null = null,
): FaceDrawn {
	const { px_per_mm, longest_px, line_px } = scale;
	const sized = sides_mm(asked).map(mm => Math.max(3, mm * px_per_mm));
	const [width = 0, height = 0] = sized.map(px => Math.min(px, longest_px));
	const [fanWidth = 0, fanHeight = 0] = fan_mm(asked).map(mm => mm * px_per_mm);
	const room = (own: number, fan: number) => Math.max(own, fan) + 2 * line_px;
	const whole = { width: rounded(room(width, fanWidth)), height: rounded(room(height, fanHeight)) };
	const box = { x: (whole.width - width) / 2, y: (whole.height - height) / 2, width, height };
	const at = { x: rounded(box.x), y: rounded(box.y), width: rounded(width), height: rounded(height) };
	const [rx, ry] = [rounded(fanWidth / 2), rounded(fanHeight / 2)];
	const rect = (of: string) =>
		html`<rect x="${at.x}" y="${at.y}" width="${at.width}" height="${at.height}" class="${of}"/>`;
	const drawn = [
		rect(`face ${kind}`),
		film === null ? null : rect(film),
		strokeLines(asked, box, px_per_mm),
		sized.some(px => px > longest_px) ? broken(box, height > width, line_px) : null,
		html`<ellipse cx="${rounded(whole.width / 2)}" cy="${rounded(whole.height / 2)}" rx="${rx}" ry="${ry}" class="fan over-face"/>`,
		arrow(asked, box, line_px),
	];
	return { ...whole, face: at, drawn: html`<g stroke-width="${rounded(line_px / 1.6)}">${drawn}</g>` };
}

/** What a face's picture shows, in words: `22 in by 34 in, fan 8 in, strokes side to side`. */
export function faceWords(asked: FaceAsked, units: UnitSystem): string {
	const { face, coat } = asked;
	const length = (mm: number) => format(mm, 'length', units);
	const { size_mm, strip_mm, area_m2 } = laidAs(face, coat);
	const size = size_mm ?? strip_mm;
	const sized = size ? size.map(length).join(' by ') : format(area_m2, 'area', units);
	return `${sized}, fan ${length(fanFor_mm(face, coat))}, strokes ${word(coat.stroke)}`;
}

/**
 * One face as a picture of its own, as large as the box it is given: to be seen from across the shop. It stretches with its
 * place on the page; its lines grow with it. The page brings `faceStyle`.
 * @param id its own within the page
 * @param room_px the longer side of the picture, in its own px
 */
export function facePicture(asked: FaceAsked, id: string, units: UnitSystem, room_px = 600): Markup {
	const { width, height, drawn } = faceDrawn(asked, scaleFor([asked], room_px), 'laid');
	return html`<svg role="img" aria-labelledby="${id}-title ${id}-desc" viewBox="0 0 ${width} ${height}" xmlns="http://www.w3.org/2000/svg">
<title id="${id}-title">${faceSaid(asked.face.id)}, to scale</title>
<desc id="${id}-desc">${faceWords(asked, units)}. The oval is the fan on the work; the arrow is the way of the gun.</desc>
${drawn}
</svg>`;
}
