import { about, shortFace } from '../../words/spoken.ts';
import { lateAfter_s } from '../allowed.ts';
import { faceBook, faceState, laidOn, type Moment, nextCoat } from '../moment.ts';
import { paceLine } from '../pace.ts';
import { option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { isTimed } from '../takes.ts';
import { stretchLine } from './ready.ts';
import { inTrouble } from './trouble.ts';

/** While a face, or a stretch, is sprayed. */

/** The screen while a face, or a stretch, is sprayed: nothing else is asked or said. */
export function sprayingPrompt(moment: Moment): Prompt {
	const { stretch, now } = moment.state.book;
	const faces = stretch.filter(face => faceState(moment, face).matches('spraying'));
	const first = faces[0] ?? '';
	const total = faces.reduce((sum, face) => sum + (faceBook(moment, face).pass?.spray_s ?? 1), 0);
	const began = faceBook(moment, first).pass?.began ?? now;
	const elapsed = moment.now.wall - began.wall;
	let at = began.wall;
	const ends = faces.map((face): DayEvent => {
		const share = elapsed * ((faceBook(moment, face).pass?.spray_s ?? 1) / total);
		const from = at;
		at += share;
		return {
			type: 'face.ended',
			face,
			coat: laidOn(moment, face) + 1,
			extent: 'all',
			lastStroke: null,
			estimated: faces.length > 1,
			...(faces.length > 1 && { began: new Date(from).toISOString(), ended: new Date(at).toISOString() }),
		};
	});
	const more = faces.length > 1 ? ` and ${faces.length - 1} more` : '';
	return {
		state: 'spraying',
		ask: 'spraying',
		say: about(`${shortFace(first)}${more}`, `coat ${laidOn(moment, first) + 1}.`),
		lines: faces.length > 1 ? [stretchLine(faces)] : [],
		face: first,
		coat: laidOn(moment, first) + 1,
		options: [
			{ ...option('finished', 'FINISHED', ...ends), notice: () => paceLine(moment, faces) },
			{ ...inTrouble(moment), at: 'bottomRight' },
		],
	};
}

/** When the pass under way is late, wall clock ms. */
export const lateAt = (moment: Moment): number => {
	const faces = moment.state.book.stretch.filter(face => faceState(moment, face).matches('spraying'));
	const total = faces.reduce((sum, face) => sum + (faceBook(moment, face).pass?.spray_s ?? 0), 0);
	const began = faceBook(moment, faces[0] ?? '').pass?.began;
	const { opened } = moment.state.book;
	const timed = faces.every(face => isTimed(opened, nextCoat(moment, face).material));
	return (began?.wall ?? moment.now.wall) + lateAfter_s(total, timed) * 1000;
};
