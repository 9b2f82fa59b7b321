import { standardTurn_s } from '../film/balance.ts';
import { type Face, gunFor, type Job, laidAs, type NamedGun, type PlannedCoat } from '../job/job.ts';
import { linesOn } from '../job/on-work.ts';

/**
 * Strokes that a coat of a face takes: as planned, or by its lines where a day was begun before they were.
 * @param laid coats that are on the face
 */
export function strokesOf(face: Face, job: Job, laid: number): number {
	const coat = face.coats[laid] ?? face.coats.at(-1);
	if (!coat) return linesOn(job.gun, face, 'side-to-side').lines.count;
	return coat.strokes ?? linesOn(gunFor(job, coat), laidAs(face, coat), coat.stroke).lines.count;
}

/**
 * How long the trigger is pulled in one stroke of a planned coat, s: the turns left out, where it is held through them.
 * @returns null where a day was begun before strokes were planned
 */
export function oneStroke_s(coat: PlannedCoat, gun: NamedGun): number | null {
	const { strokes, trigger_s } = coat;
	if (strokes === undefined || trigger_s === undefined) return null;
	const turns_s = gun.held ? (strokes - 1) * (gun.turn_s ?? standardTurn_s) : 0;
	return (trigger_s - turns_s) / strokes;
}

/**
 * Share of a coat that is on a face broken off: at least a stroke is left. Where nobody can tell, half of what was left.
 * @param lastStroke counted from where the coat began
 * @param before share that was on already
 */
export const shareOn = (lastStroke: number | null, strokes: number, before: number): number =>
	lastStroke === null ? (1 + before) / 2 : lastStroke / Math.max(strokes, lastStroke + 1);
