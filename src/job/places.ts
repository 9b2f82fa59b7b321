import { type Job, leavesOut } from './job.ts';

/**
 * Whether work told of a face was a step at its place in the list before a coat. Work without a place is of an older
 * day: it speaks of every step of its name.
 */
export const isAt = (
	told: { step: string; place?: number | null | undefined },
	step: string,
	place: number,
): boolean => told.step === step && (told.place === undefined || told.place === place);

/** The place of a stage of preparation among the steps between two coats of a face, or after its last; from 0. */
export function placeOf(job: Job, face: string, stage: number): number {
	let place = 0;
	for (const before of job.stages.slice(0, stage)) {
		if (leavesOut(before, face) || before.kind === 'wait') continue;
		place = before.kind === 'coats' ? 0 : place + 1;
	}
	return place;
}

/** The stage that is the step at a place before the coats of a stage on a face: where `placeOf` comes from. */
export function stageAt(job: Job, face: string, coats: number, place: number): number {
	const ofFace = [...job.stages.entries()].filter(([at, stage]) => at < coats && !leavesOut(stage, face));
	const from = ofFace.findLastIndex(([, stage]) => stage.kind === 'coats') + 1;
	return ofFace.slice(from).filter(([, stage]) => stage.kind === 'prep')[place]?.[0] ?? coats;
}
