import type { Face, Job } from '../job/job.ts';
import { linesOn } from '../job/on-work.ts';

/**
 * Strokes that a coat of a face takes: as planned, or by its lines where a day was begun before they were.
 * @param laid coats that are on the face
 */
export function strokesOf(face: Face, gun: Job['gun'], laid: number): number {
	const coat = face.coats[laid] ?? face.coats.at(-1);
	return coat?.strokes ?? linesOn(gun, face, coat?.stroke ?? 'side-to-side').lines.count;
}

/**
 * Share of a coat that is on a face broken off: at least a stroke is left. Where nobody can tell, half of what was left.
 * @param lastStroke counted from where the coat began
 * @param before share that was on already
 */
export const shareOn = (lastStroke: number | null, strokes: number, before: number): number =>
	lastStroke === null ? (1 + before) / 2 : lastStroke / Math.max(strokes, lastStroke + 1);
