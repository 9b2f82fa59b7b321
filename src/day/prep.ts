import { openPlace } from '../../machines/face.ts';
import type { Material } from '../job/job.ts';
import { timeAt_h } from '../trade/time.ts';
import { faceBook, faceOf, faceState, laidOn, type Moment, materialOf, nextCoat } from './moment.ts';
import { rulingSurface_C } from './ruling-surface.ts';

/** The work that the sheet asks for before a coat. */

/** The step that a face wants next before its coat, with its place; null: all are done, or left out with a reason. */
export function plannedPrep(moment: Moment, id: string) {
	const place = openPlace(faceState(moment, id).context);
	const step = nextCoat(moment, id).prep[place];
	return step ? { ...step, place } : null;
}

/** How long a coat hardens before it is sanded, s; Infinity: its sheet gives no time for such a surface; null: none at all. */
export function hardening_s({ sandAfter, factorPer10C }: Material, surface_C: number): number | null {
	if (sandAfter.length === 0) return null;
	try {
		return timeAt_h(sandAfter, surface_C, factorPer10C) * 3600;
	} catch {
		return Number.POSITIVE_INFINITY;
	}
}

/** The same of the coat on a face; 0: none is on, or its sheet gives no time. */
export function cures_s(moment: Moment, id: string): number {
	const last = faceBook(moment, id).laid.at(-1);
	const under = faceOf(moment, id).coats[laidOn(moment, id) - 1];
	if (!last || !under) return 0;
	const surface_C = rulingSurface_C(moment, last, last.ended);
	return hardening_s(materialOf(moment, under.material), surface_C) ?? 0;
}

/** The same where a sanding is planned next; 0: none is. */
export const hardens_s = (moment: Moment, id: string): number =>
	plannedPrep(moment, id)?.step === 'sand' ? cures_s(moment, id) : 0;
