import type { Laid } from './balance.ts';
import { alongAt, cornerAt, fullLength_mm } from './capture.ts';
import { type Cell, cellsOf, lineAt, summed } from './lines.ts';
import { across, type Profile, turned } from './profile.ts';

/** Film of a face as shares of the mean that is wanted, and of its area. */
export type FilmShares = {
	mean: number;
	least: number;
	most: number;
	/** Share of the face with less than 80 %, with more than 120 %, and with under 5 % of the film wanted. */
	under: number;
	over: number;
	bare: number;
	/** Share of the face above a limit. */
	overLimit: number;
};

/** Bounds of too little, too much and nothing, as shares of the film wanted. This project's own choice. */
const bounds = { under: 0.8, over: 1.2, bare: 0.05 };
/** So many cells to a spacing, and to half a fan's depth along the stroke. */
const perSpacing = 80;
const perHalfDepth = 8;

/** Film across the strokes, as a share of the mean wanted: what the lines and the corner pass come to. */
function shareAt({ shape, lines, worth }: Laid, profile: Profile, times = 1): (y_mm: number) => number {
	const scale = (times * shape.across_mm) / worth;
	return y_mm => scale * (summed(lines, profile, y_mm) + (shape.corner ? cornerAt(profile, y_mm) : 0));
}

/** A piece of the face, the film at its two edges, and how much of the face it is. */
type Strip = { ends: readonly [number, number]; weight: number };

/** Share of a strip whose film is below a bound, the film running evenly from edge to edge. */
function below({ ends: [one, other] }: Strip, bound: number): number {
	const [low, high] = one < other ? [one, other] : [other, one];
	if (bound <= low) return 0;
	return bound >= high ? 1 : (bound - low) / (high - low);
}

function gathered(strips: readonly Strip[], limit: number, mean: number): FilmShares {
	const whole = strips.reduce((sum, { weight }) => sum + weight, 0);
	const part = (bound: number) =>
		strips.reduce((sum, strip) => sum + below(strip, bound) * strip.weight, 0) / whole;
	return {
		mean,
		least: strips.reduce((least, { ends }) => Math.min(least, ...ends), Number.POSITIVE_INFINITY),
		most: strips.reduce((most, { ends }) => Math.max(most, ...ends), 0),
		under: part(bounds.under),
		over: 1 - part(bounds.over),
		bare: part(bounds.bare),
		overLimit: 1 - part(limit),
	};
}

/** Both halves of a face are alike, but for a corner pass, which lies at one of them. */
function cellsOver({ shape, lines, setting }: Laid, profile: Profile): Cell[] {
	const height_mm = shape.across_mm;
	const spacing_mm = setting.fan.width_mm * (1 - setting.overlap);
	const step_mm = Math.min(spacing_mm, profile.half_mm) / perSpacing;
	const cells = cellsOf(lines, profile, height_mm, step_mm);
	if (!shape.corner) return cells;
	return cells.flatMap(({ from_mm, to_mm, times }) => [
		{ from_mm, to_mm, times: times / 2 },
		{ from_mm: height_mm - to_mm, to_mm: height_mm - from_mm, times: times / 2 },
	]);
}

/** Strokes that stop short of a full end: place by place along them too. */
function withShortEnds(
	laid: Laid,
	cells: readonly Cell[],
	lead_mm: number,
	limit: number,
	times: number,
): FilmShares {
	const { shape, setting, lines } = laid;
	const profile = across(setting.fan);
	const half = setting.fan.depth_mm / 2;
	const full = fullLength_mm(setting.fan, shape.along_mm, lead_mm) / shape.along_mm;
	const scale = (times * shape.across_mm) / (laid.worth * full);
	const end_mm = Math.min(shape.along_mm / 2, half);
	const parts = Math.max(1, Math.ceil((end_mm / half) * perHalfDepth));
	const share = (x_mm: number, y_mm: number): number => {
		const near = (off_mm: number) => alongAt(setting.fan, shape.along_mm, lead_mm, x_mm, off_mm);
		let sum = shape.corner ? cornerAt(profile, y_mm) * near(y_mm * Math.SQRT1_2) : 0;
		const low = Math.max(0, Math.ceil((y_mm - profile.half_mm - lines.first_mm) / lines.spacing_mm));
		for (let index = low; index < lines.count; index++) {
			const off_mm = y_mm - lineAt(lines, index);
			if (off_mm < -profile.half_mm) break;
			sum += profile.at(off_mm) * near(off_mm);
		}
		return scale * sum;
	};
	const width_mm = end_mm / parts;
	const strips = cells.flatMap(({ from_mm, to_mm, times: again }): Strip[] => {
		const weight = (to_mm - from_mm) * again;
		const at = (x_mm: number): Strip['ends'] => [share(x_mm, from_mm), share(x_mm, to_mm)];
		const ends = Array.from({ length: parts }, (_, nth) => ({
			ends: at((nth + 0.5) * width_mm),
			weight: (weight * 2 * width_mm) / shape.along_mm,
		}));
		const rest = weight * (1 - (2 * end_mm) / shape.along_mm);
		return [{ ends: at(0), weight: 0 }, ...ends, { ends: at(shape.along_mm / 2), weight: rest }];
	});
	return gathered(strips, limit, times);
}

/**
 * The film of a face: highest, lowest, and how much of it is thin, thick, bare or over a limit, as shares of the mean
 * wanted. The mean is the one wanted, worked out from the lines and not from the cells.
 * @param lead_mm how far the strokes go past the ends
 * @param limit film above which it runs, as a share of the mean wanted; left out: none
 * @param times what was laid ÷ what was wanted
 */
export function filmOver(
	laid: Laid,
	lead_mm: number,
	limit = Number.POSITIVE_INFINITY,
	times = 1,
): FilmShares {
	const profile = across(laid.setting.fan);
	const cells = cellsOver(laid, profile);
	if (lead_mm < laid.setting.fan.depth_mm / 2) return withShortEnds(laid, cells, lead_mm, limit, times);
	return alongCells(cells, shareAt(laid, profile, times), limit, times);
}

function alongCells(
	cells: readonly Cell[],
	share: (y_mm: number) => number,
	limit: number,
	mean: number,
): FilmShares {
	let last = { mm: Number.NaN, share: 0 };
	const strips = cells.map(({ from_mm, to_mm, times }): Strip => {
		const from = last.mm === from_mm ? last.share : share(from_mm);
		last = { mm: to_mm, share: share(to_mm) };
		return { ends: [from, last.share], weight: (to_mm - from_mm) * times };
	});
	return gathered(strips, limit, mean);
}

/** The same strokes, flow and speed with the fan turned by an angle: stripes, and bare face between them. */
export function filmTurned(laid: Laid, angle_deg = 90, limit = Number.POSITIVE_INFINITY): FilmShares {
	const profile = turned(laid.setting.fan, angle_deg);
	const cells = cellsOver(laid, profile);
	const share = shareAt(laid, profile);
	return alongCells(cells, share, limit, meanOf(cells, share));
}

/** Mean over cells, by Simpson's rule. */
export function meanOf(cells: readonly Cell[], of: (y_mm: number) => number): number {
	let [sum, whole] = [0, 0];
	for (const { from_mm, to_mm, times } of cells) {
		const width = (to_mm - from_mm) * times;
		sum += (width * (of(from_mm) + 4 * of((from_mm + to_mm) / 2) + of(to_mm))) / 6;
		whole += width;
	}
	return sum / whole;
}

/** Film across the strokes of a face at a place, as a share of the mean wanted. */
export const filmAt = (laid: Laid, y_mm: number): number => shareAt(laid, across(laid.setting.fan))(y_mm);

/** Places of a drawn film, and so many to a line where there are many. */
const drawnPlaces = 240;
const perLine = 24;

/** Film at a place across the strokes, as a share of the mean wanted. */
export type FilmPlace = { at_mm: number; share: number };

/**
 * The film across a face, from edge to edge, to be drawn: at the middle of its strokes.
 * @param angle_deg of the fan from across the strokes: 0 as it should be, 90 turned wrong
 * @param times what was laid ÷ what was wanted
 */
export function filmAcross(laid: Laid, angle_deg: number, times = 1): FilmPlace[] {
	const share = shareAt(laid, turned(laid.setting.fan, angle_deg), times);
	const places = Math.max(drawnPlaces, perLine * laid.lines.count);
	return Array.from({ length: places + 1 }, (_, nth) => {
		const at_mm = (laid.shape.across_mm * nth) / places;
		return { at_mm, share: share(at_mm) };
	});
}

/** What a film is at a place. */
export type FilmKind = 'bare' | 'under' | 'even' | 'over' | 'over-limit';

/** @param limit film above which it runs, as a share of the mean wanted */
export function filmKind(share: number, limit: number): FilmKind {
	if (share < bounds.bare) return 'bare';
	if (share > limit) return 'over-limit';
	if (share < bounds.under) return 'under';
	return share > bounds.over ? 'over' : 'even';
}
