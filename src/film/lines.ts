import type { Profile } from './profile.ts';

/** How the first line lies: on the edge of the face, or half a spacing in. */
export type FirstLine = 'on the edge' | 'half in';

/** Parallel lines over a face, the same from either edge. */
export type Lines = {
	first: FirstLine;
	count: number;
	/** From line to line, mm. */
	spacing_mm: number;
	/** The first one, from the edge of the face, mm. */
	first_mm: number;
};

/** Edge to edge the lines may lie as close as this share of their spacing; closer, one less is tried. This project's own choice. */
const closest = 0.8;
/** … and half in, the edge of the face must get this share of its highest film. This project's own choice. */
const leastEdge = 2 / 3;

/** Place of a line, counted from 0, mm from the edge of the face. */
export const lineAt = ({ first_mm, spacing_mm }: Lines, index: number): number =>
	first_mm + index * spacing_mm;

/** Film of all lines at a place, as a sum of the profile, per mm. */
export function summed(lines: Lines, profile: Profile, y_mm: number): number {
	const { count, spacing_mm, first_mm } = lines;
	const low = Math.ceil((y_mm - profile.half_mm - first_mm) / spacing_mm);
	const high = Math.floor((y_mm + profile.half_mm - first_mm) / spacing_mm);
	let sum = 0;
	for (let index = Math.max(0, low); index <= Math.min(count - 1, high); index++)
		sum += profile.at(y_mm - lineAt(lines, index));
	return sum;
}

/** A piece of a face between two places, and how often it comes again. */
export type Cell = { from_mm: number; to_mm: number; times: number };

/** Places where the film of the lines may bend, between two ends. */
function bends(lines: Lines, profile: Profile, from_mm: number, to_mm: number): number[] {
	const reach = profile.half_mm;
	const low = Math.max(0, Math.floor((from_mm - reach - lines.first_mm) / lines.spacing_mm));
	const high = Math.min(lines.count - 1, Math.ceil((to_mm + reach - lines.first_mm) / lines.spacing_mm));
	const places = new Set([from_mm, to_mm]);
	for (let index = low; index <= high; index++)
		for (const off of [-reach, 0, reach]) {
			const at = lineAt(lines, index) + off;
			if (at > from_mm && at < to_mm) places.add(at);
		}
	return [...places].sort((one, other) => one - other);
}

function cut(places: readonly number[], step_mm: number, times: number): Cell[] {
	return places.slice(1).flatMap((to, index) => {
		const from = places[index] ?? 0;
		const parts = Math.max(1, Math.ceil((to - from) / step_mm - 1e-9));
		const width = (to - from) / parts;
		return Array.from({ length: parts }, (_, nth) => ({
			from_mm: from + nth * width,
			to_mm: nth === parts - 1 ? to : from + (nth + 1) * width,
			times,
		}));
	});
}

/**
 * A face across its lines, cut at every line, at every edge of a fan and at its own edges. Its two halves are alike, and
 * so is each half spacing that no fan at an edge reaches: each comes once.
 * @param height_mm the face, across its lines
 * @param step_mm the widest cell
 */
export function cellsOf(lines: Lines, profile: Profile, height_mm: number, step_mm: number): Cell[] {
	const half = height_mm / 2;
	const again = lines.spacing_mm / 2;
	const reach = lines.first_mm + Math.max(profile.half_mm, lines.spacing_mm);
	const times = Math.floor((half - reach) / again - 1e-9);
	if (times < 2) return cut(bends(lines, profile, 0, half), step_mm, 2);
	const edge = half - times * again;
	return [
		...cut(bends(lines, profile, 0, edge), step_mm, 2),
		...cut(bends(lines, profile, edge, edge + again), step_mm, 2 * times),
	];
}

/** Film at the edge of a face, as a share of the highest on it. */
function edgeShare(lines: Lines, profile: Profile, height_mm: number, step_mm: number): number {
	const cells = cellsOf(lines, profile, height_mm, step_mm);
	const highest = Math.max(
		...cells.flatMap(({ from_mm, to_mm }) => [
			summed(lines, profile, from_mm),
			summed(lines, profile, to_mm),
		]),
	);
	return summed(lines, profile, 0) / highest;
}

/**
 * The lines of a face.
 * @param height_mm the face, across its lines
 * @param spacing_mm wanted from line to line
 * @param profile of one stroke
 * @param first as the sheet wants it; null: on the edge, unless they would lie too close and the edges get enough without
 */
export function linesOf(
	height_mm: number,
	spacing_mm: number,
	profile: Profile,
	first: FirstLine | null = null,
): Lines {
	const count = Math.max(1, Math.ceil(height_mm / spacing_mm - 0.001));
	const edge: Lines = { first: 'on the edge', count: count + 1, spacing_mm: height_mm / count, first_mm: 0 };
	const first_mm = (height_mm - (count - 1) * spacing_mm) / 2;
	const half: Lines = { first: 'half in', count, spacing_mm, first_mm };
	if (first) return first === 'half in' ? half : edge;
	const close = height_mm / count < closest * spacing_mm;
	return close && edgeShare(half, profile, height_mm, spacing_mm / 40) >= leastEdge ? half : edge;
}
