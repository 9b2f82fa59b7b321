import { leastUnasked, mostLaid } from '../../film/could-land.ts';
import { unmeasuredFlow } from '../../job/on-work.ts';
import { plannedPull_s } from '../../trade/pulls.ts';
import { about, shortFace } from '../../words/spoken.ts';
import { lateAfter_s } from '../allowed.ts';
import { gunNext } from '../guns.ts';
import { faceBook, faceState, laidOn, type Moment, nextCoat } from '../moment.ts';
import { paceLine } from '../pace.ts';
import { option, type Prompt, type Reply } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { isTimed, usualOf } from '../takes.ts';
import { stretchSaid } from './ready.ts';
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
	const all = { events: ends, notice: () => paceLine(moment, faces) };
	const isSoon = cannotBeAll(moment, faces, elapsed / 1000);
	const said = stretchSaid(faces);
	return {
		state: 'spraying',
		ask: 'spraying',
		say: about(said.name, `coat ${laidOn(moment, first) + 1}.`),
		lines: said.lines,
		face: first,
		coat: laidOn(moment, first) + 1,
		options: [
			{
				...{ code: 'finished', text: 'FINISHED' },
				...(isSoon ? { next: () => soonPrompt(moment, faces, all) } : all),
			},
			// The corner of START stays empty: struck twice, it stops nothing.
			{ ...inTrouble(moment), at: 'bottomLeft' },
		],
	};
}

/** FINISHED so soon that, whatever was laid, it can hardly have been the whole film is asked about: of two keys no more is said. */
function cannotBeAll(moment: Moment, faces: readonly string[], between_s: number): boolean {
	const { opened } = moment.state.book;
	const [first = ''] = faces;
	const { transfer, transfer_tolerance, flow_tolerance = unmeasuredFlow } = gunNext(moment, first);
	const trigger_s = faces.reduce((sum, face) => {
		const coat = nextCoat(moment, face);
		const given_s = faceBook(moment, face).pass?.spray_s ?? coat.spray_s;
		/** A shop that is usually quicker than its sheet is not asked each time. */
		return sum + Math.min(given_s, plannedPull_s(given_s, coat, usualOf(opened, coat.material)));
	}, 0);
	const spread = { transfer: transfer_tolerance / transfer, flow: flow_tolerance };
	return mostLaid(between_s, trigger_s, spread) < leastUnasked;
}

/**
 * Sooner than can be believed: how much is on is asked. The corner of FINISHED stays empty, and ALL stands where nothing
 * stands while it is sprayed.
 */
function soonPrompt(
	moment: Moment,
	faces: readonly string[],
	all: Extract<Reply, { events: DayEvent[] }>,
): Prompt {
	const [first = ''] = faces;
	const coat = laidOn(moment, first) + 1;
	const none = faces.map(
		(face): DayEvent => ({
			...{ type: 'face.ended', face, coat: laidOn(moment, face) + 1 },
			...{ extent: 'none', lastStroke: null, estimated: false },
		}),
	);
	return {
		state: 'spraying.soon',
		ask: 'last-face',
		say: about(shortFace(first), `so soon? How much of coat ${coat} is on?`),
		face: first,
		coat,
		options: [
			{ code: 'all', text: 'ALL', at: 'topRight', ...all },
			{ ...option('part', 'PART', { type: 'break.began', kind: 'hold', by: 'painter' }), at: 'bottomLeft' },
			{ ...option('none', 'NOTHING', ...none), at: 'bottomRight' },
		],
	};
}

/** When the faces under way were begun, wall clock ms, and the seconds that they take together. */
export const underWay = (moment: Moment) => {
	const faces = moment.state.book.stretch.filter(face => faceState(moment, face).matches('spraying'));
	return {
		faces,
		total_s: faces.reduce((sum, face) => sum + (faceBook(moment, face).pass?.spray_s ?? 0), 0),
		began: faceBook(moment, faces[0] ?? '').pass?.began.wall ?? moment.now.wall,
	};
};

/** When the pass under way is late, wall clock ms. */
export const lateAt = (moment: Moment): number => {
	const { faces, total_s, began } = underWay(moment);
	const { opened } = moment.state.book;
	const timed = faces.every(face => isTimed(opened, nextCoat(moment, face).material));
	return began + lateAfter_s(total_s, timed) * 1000;
};
