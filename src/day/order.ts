import type { Job } from '../job/job.ts';
import { type Moment, nextCoat } from './moment.ts';

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
