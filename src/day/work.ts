import { windowReasoned } from '../../machines/face.ts';
import type { Stop } from '../../machines/stops.ts';
import type { Prep } from '../job/job.ts';
import { stageAt } from '../job/places.ts';
import { stopsAt, waitEnds, wetUntil } from './allowed.ts';
import { faceState, jobOf, type Moment, nextCoat } from './moment.ts';

/** Work on a face before its coat, and when it may be done. */

/** Work on a face before its coat. */
export type Work = {
	step: Prep;
	grit: number | null;
	/** Whether the sheet asks for it, or the recoat window. */
	rule: 'prep' | 'window';
	/** The stage of the sheet that it is; after all of them where the window asks for it. */
	stage: number;
	/** Left for last, just before the gun. */
	isLast: boolean;
};

const waits = ({ by, ...stop }: Stop): boolean => by === 'window' && 'is' in stop && stop.is === 'wait';

/** The work that stands between a face and its coat: planned, or asked for by its recoat window. */
export function workOn(moment: Moment, id: string): Work | null {
	for (const stop of stopsAt(moment, id)) {
		if (stop.by === 'prep' || stop.by === 'tack') {
			const { step, place, by } = stop;
			const { prep, stage } = nextCoat(moment, id);
			const its = stageAt(jobOf(moment), id, stage, place);
			return { step, grit: prep[place]?.grit ?? null, rule: 'prep', stage: its, isLast: by === 'tack' };
		}
		if (stop.by !== 'window' || stop.is === 'wait') continue;
		const { grit } = jobOf(moment).materials[nextCoat(moment, id).material] ?? { grit: null };
		return { step: stop.is, grit, rule: 'window', stage: Number.POSITIVE_INFINITY, isLast: false };
	}
	return null;
}

/** Work that raises dust, spills water or moves a part about: not beside a wet coat, nor while a checked gun waits. */
export const clearOfWet: readonly Prep[] = ['sand', 'scuff', 'fill', 'wipe', 'turn over'];
const keepsClear = (work: Work | null): boolean => work !== null && clearOfWet.includes(work.step);

/** When something may be done to a face by the clock, wall clock ms: its own wait, and for such work that of every wet coat. */
export function workableAt(moment: Moment, id: string): number | null {
	const own = mustWait(moment, id) ? waitEnds(moment, id) : moment.now.wall;
	if (own === null || !keepsClear(workOn(moment, id))) return own;
	/** Whoever gave a reason not to wait has asked for it. */
	if (windowReasoned(faceState(moment, id).context)) return own;
	return Math.max(own, wetUntil(moment) ?? own);
}

export const mustWait = (moment: Moment, id: string): boolean => stopsAt(moment, id).some(waits);
export const mayNow = (moment: Moment, id: string): boolean => {
	const at = workableAt(moment, id);
	return !mustWait(moment, id) && at !== null && at <= moment.now.wall;
};
