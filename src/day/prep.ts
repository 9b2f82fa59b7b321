import { openPlace } from '../../machines/face.ts';
import { timeAt_h } from '../trade/time.ts';
import { faceBook, faceOf, faceState, jobOf, laidOn, type Moment, nextCoat } from './moment.ts';
import { rulingSurface_C } from './ruling-surface.ts';

/** The work that the sheet asks for before a coat. */

/** The step that a face wants next before its coat, with its place; null: all are done, or left out with a reason. */
export function plannedPrep(moment: Moment, id: string) {
	const place = openPlace(faceState(moment, id).context);
	const step = nextCoat(moment, id).prep[place];
	return step ? { ...step, place } : null;
}

/** How long the coat on a face hardens before the sanding that is planned next, s; 0: no sanding is next. */
export function hardens_s(moment: Moment, id: string): number {
	const last = faceBook(moment, id).laid.at(-1);
	const under = jobOf(moment).materials[faceOf(moment, id).coats[laidOn(moment, id) - 1]?.material ?? ''];
	if (!last || !under || under.sandAfter.length === 0) return 0;
	if (plannedPrep(moment, id)?.step !== 'sand') return 0;
	try {
		return timeAt_h(under.sandAfter, rulingSurface_C(moment, last, last.ended), under.factorPer10C) * 3600;
	} catch {
		return Number.POSITIVE_INFINITY;
	}
}
