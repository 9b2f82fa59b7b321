import type { Face, Job } from '../job/job.ts';
import { spacing_mm } from '../trade/film.ts';

/**
 * Strokes that a coat of a face takes at the gun's spacing, at the least one.
 * @param laid coats that are on the face
 */
export function strokesOf(face: Face, gun: Job['gun'], laid: number): number {
	const { stroke } = face.coats[laid] ?? face.coats.at(-1) ?? { stroke: 'side-to-side' };
	const [width, height] = face.size_mm ?? [Math.sqrt(face.area_m2) * 1000, Math.sqrt(face.area_m2) * 1000];
	const across = stroke === 'side-to-side' ? height : width;
	const spacing = spacing_mm({ fanHeight_mm: face.fanHeight_mm, overlap: gun.overlap });
	return Math.max(1, Math.ceil(across / spacing));
}

/**
 * Share of a coat that is on a face broken off: at least a stroke is left. Where nobody can tell, half of what was left.
 * @param lastStroke counted from where the coat began
 * @param before share that was on already
 */
export const shareOn = (lastStroke: number | null, strokes: number, before: number): number =>
	lastStroke === null ? (1 + before) / 2 : lastStroke / Math.max(strokes, lastStroke + 1);
