import { openPlace } from '../../machines/face.ts';
import type { Material, PlannedCoat } from '../job/job.ts';
import { driesAt_h } from '../job/process-clocks.ts';
import { atLeast_s, type Instant } from './instant.ts';
import { faceBook, faceOf, faceState, laidOn, type Moment, materialOf, nextCoat } from './moment.ts';
import { coldestSurface_C } from './ruling-surface.ts';
import { waits_s } from './sheet-wait.ts';

/** The work that the sheet asks for before a coat. */

/** The work that the sheet asks for before the next coat of a face, or after its last, and the wait before it. */
export function listOf(moment: Moment, id: string): Pick<PlannedCoat, 'prep' | 'wait_h' | 'until_min'> {
	const { coats, finishing } = faceOf(moment, id);
	const { laid, overrides } = faceState(moment, id).context;
	if (laid < coats.length || overrides.includes('coats')) return nextCoat(moment, id);
	return finishing ?? { prep: [], wait_h: 0 };
}

/** The step that a face wants next, with its place; null: all are done, or left out with a reason. */
export function plannedPrep(moment: Moment, id: string) {
	const place = openPlace(faceState(moment, id).context);
	const step = listOf(moment, id).prep[place];
	return step ? { ...step, place } : null;
}

/** What is left of the wait that the sheet asks for after the step done last on a face, s. */
export function stepWait_s(moment: Moment, id: string): number {
	const last = faceBook(moment, id).prep.at(-1);
	const step = typeof last?.place === 'number' ? listOf(moment, id).prep[last.place] : undefined;
	if (!last || !step || step.step !== last.step) return 0;
	return Math.max(0, waitsFor_s(moment, step, last.at) - atLeast_s(last.at, moment.now));
}

/** How long the sheet waits after a coat or a step of some moment, s. */
export const waitsFor_s = ({ state }: Moment, wait: Parameters<typeof waits_s>[0], since: Instant): number =>
	waits_s(wait, since.wall, state.book.opened.zone);

/** When work after the last coat may be done on a face, s from now; null: none is left. */
export function finishingIn_s(moment: Moment, id: string): number | null {
	const { coats } = faceOf(moment, id);
	const { laid, overrides } = faceState(moment, id).context;
	const step = plannedPrep(moment, id);
	const last = faceBook(moment, id).laid.at(-1);
	if (laid < coats.length || overrides.includes('coats') || !step || !last) return null;
	const since_s = Math.max(waitsFor_s(moment, listOf(moment, id), last.ended), hardens_s(moment, id));
	return Math.max(0, stepWait_s(moment, id), since_s - atLeast_s(last.ended, moment.now));
}

/** How long a coat hardens before it is sanded, s; Infinity: its sheet gives no time for such a surface; null: none at all. */
export const hardening_s = (material: Material, surface_C: number): number | null =>
	drying_s(material, material.sandAfter, surface_C);

function drying_s(material: Material, points: Points, surface_C: number): number | null {
	try {
		const hours = driesAt_h(material, points, surface_C);
		return hours === null ? null : hours * 3600;
	} catch {
		return Number.POSITIVE_INFINITY;
	}
}

type Points = Material['sandAfter'];

/** How long the coat on a face takes to be dry to something, s; 0: none is on, or its sheet gives no time. */
export function dries_s(moment: Moment, id: string, to: (material: Material) => Points | undefined): number {
	const last = faceBook(moment, id).laid.at(-1);
	const under = faceOf(moment, id).coats[laidOn(moment, id) - 1];
	if (!last || !under) return 0;
	const surface_C = coldestSurface_C(moment, last, last.ended);
	const material = materialOf(moment, under.material);
	return drying_s(material, to(material) ?? [], surface_C) ?? 0;
}

/** What a coat must be dry to before a step: sanding, tape on it, or hands. */
const dryFor =
	({ step, dry }: Pick<PlannedCoat['prep'][number], 'step' | 'dry'>) =>
	({ sandAfter, dryTo }: Material): Points | undefined =>
		step === 'sand' ? sandAfter : step === 'mask' ? dryTo?.tape : dry && dryTo?.[dry];

/** The same for the step that is planned next, or is behind the turning that is: a part is turned when it is worked on. */
export function hardens_s(moment: Moment, id: string): number {
	const { prep } = listOf(moment, id);
	const next = prep.slice(plannedPrep(moment, id)?.place ?? prep.length);
	const work = next.find(({ step }) => step !== 'turn over');
	return work ? dries_s(moment, id, dryFor(work)) : 0;
}
