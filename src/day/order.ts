import type { Job } from '../job/job.ts';
import { overridesOn } from './allowed.ts';
import { faceOf, facesIn, laidOn, type Moment, nextCoat } from './moment.ts';

/** Place of a face in the order in force for its next coat. */
export function orderOf(moment: Moment, id: string): number {
	const { stage, ofStage } = nextCoat(moment, id);
	const { orders, opened } = moment.state.book;
	const coat = roundCoat(opened.sheet, stage, ofStage[0]);
	const planned = orders.find(order => order.stage === stage && order.coat === coat);
	const place = planned?.faces.indexOf(id) ?? -1;
	return place < 0 ? opened.sheet.faces.findIndex(face => face.id === id) : place;
}

/** Coat n of a stage, counted on a face that no stage leaves out. */
export const roundCoat = (job: Job, stage: number, ofStage: number): number =>
	job.stages
		.slice(0, stage)
		.reduce((sum, earlier) => sum + (earlier.kind === 'coats' ? earlier.coats.length : 0), ofStage);

export type Candidate = { face: string; round: number; place: number };

/** Faces that still want a coat today, in the order in force. */
export function pending(moment: Moment): Candidate[] {
	return facesIn(moment, 'open', 'part')
		.filter(
			id => laidOn(moment, id) < faceOf(moment, id).coats.length || overridesOn(moment, id).includes('coats'),
		)
		.map(id => {
			const { stage, ofStage } = nextCoat(moment, id);
			return { face: id, round: stage * 100 + ofStage[0], place: orderOf(moment, id) };
		})
		.sort((one, other) => one.round - other.round || one.place - other.place);
}
