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
	/** Its place in the sheet's list before the coat, from 0; null: it is no step of it. */
	place: number | null;
	grit: number | null;
	/** Whether the sheet asks for it, or the recoat window. */
	rule: 'prep' | 'window';
	/** The stage of the sheet that it is, or comes before: what is in no list lies between two of them. */
	stage: number;
	/** Left for last, just before the gun. */
	isLast: boolean;
};

const waits = ({ by, ...stop }: Stop): boolean => by === 'window' && 'is' in stop && stop.is === 'wait';

const isCleaning = ({ step }: { step: Prep }): boolean => step === 'wipe' || step === 'tack';

/** The stage of a step that is in no list: where the sheet has it before the coat, else behind every step before it. */
function stageOf(moment: Moment, id: string, at: number): number {
	const { stage } = nextCoat(moment, id);
	return at < 0 ? stage - 0.25 : stageAt(jobOf(moment), id, stage, at);
}

/** What a window asks for is done just before the wiping that the sheet has before the coat, for it leaves dust. */
const beforeWiping = (moment: Moment, id: string): number =>
	stageOf(moment, id, nextCoat(moment, id).prep.findIndex(isCleaning)) - 0.5;

/** The work that stands between a face and its coat: planned, or asked for by its recoat window. */
export function workOn(moment: Moment, id: string): Work | null {
	for (const stop of stopsAt(moment, id)) {
		const { prep, material } = nextCoat(moment, id);
		if (stop.by === 'prep' || stop.by === 'tack') {
			const { step, place, by } = stop;
			const stage = stageOf(moment, id, place ?? prep.findLastIndex(one => one.step === step));
			const grit = place === null ? null : (prep[place]?.grit ?? null);
			return { step, place, grit, rule: 'prep', stage, isLast: by === 'tack' };
		}
		if (stop.by !== 'window' || stop.is === 'wait') continue;
		const { grit } = jobOf(moment).materials[material] ?? { grit: null };
		const stage = beforeWiping(moment, id);
		return { step: stop.is, place: null, grit, rule: 'window', stage, isLast: false };
	}
	return null;
}

/** Work that raises dust, spills water or moves a part about: not beside a wet coat, nor while a checked gun waits. */
export const clearOfWet: readonly Prep[] = ['sand', 'scuff', 'fill', 'wipe', 'turn over'];
const keepsClear = (work: Work | null): boolean => work !== null && clearOfWet.includes(work.step);

/** A reason was given not to wait for a face. One for work left out is none: it speaks of no wet coat. */
export function waitReasoned(moment: Moment, id: string): boolean {
	const { context } = faceState(moment, id);
	return context.window.matches('wait') && windowReasoned(context);
}

/** When something may be done to a face by the clock, wall clock ms: its own wait, and for such work that of every wet coat. */
export function workableAt(moment: Moment, id: string): number | null {
	const own = mustWait(moment, id) ? waitEnds(moment, id) : moment.now.wall;
	if (own === null || !keepsClear(workOn(moment, id))) return own;
	/** Whoever gave a reason not to wait has asked for it. */
	if (waitReasoned(moment, id)) return own;
	return Math.max(own, wetUntil(moment) ?? own);
}

export const mustWait = (moment: Moment, id: string): boolean => stopsAt(moment, id).some(waits);
export const mayNow = (moment: Moment, id: string): boolean => {
	const at = workableAt(moment, id);
	return !mustWait(moment, id) && at !== null && at <= moment.now.wall;
};
