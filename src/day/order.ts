import type { Job, PlannedCoat } from '../job/job.ts';
import type { Pass } from '../plan/gun.ts';
import { overridesOn } from './allowed.ts';
import { faceOf, facesIn, laidOn, type Moment, nextCoat } from './moment.ts';

/** Place of a face in the order in force for a coat, its next one if none is named. */
export function orderOf(moment: Moment, id: string, { stage, ofStage } = nextCoat(moment, id)): number {
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

/** The passes of a stage behind one of its coats, on faces that are sprayed today, coat by coat in the order of that one. */
export function passesBehind(moment: Moment, coat: PlannedCoat): Pass[] {
	const behind = facesIn(moment, 'open', 'part').flatMap(id => {
		const face = faceOf(moment, id);
		const place = orderOf(moment, id, coat);
		return face.coats.flatMap((one, at) => {
			const isBehind = one.stage === coat.stage && one.ofStage[0] > coat.ofStage[0];
			return isBehind && at >= laidOn(moment, id)
				? [{ pass: { face, coat: one, count: at + 1 }, place, round: one.ofStage[0] }]
				: [];
		});
	});
	return behind
		.sort((one, other) => one.round - other.round || one.place - other.place)
		.map(({ pass }) => pass);
}

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
