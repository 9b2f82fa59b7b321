import { stepsBefore } from '../../machines/face.ts';
import { isAt } from '../job/places.ts';
import type { FaceBook } from './book.ts';
import { isoAt } from './instant.ts';
import { besideOf } from './moment.ts';
import type { DayRecord, EventOf, FaceHistory } from './records.ts';
import { coldestSurface_C } from './ruling-surface.ts';
import { type DayState, foldAll } from './state.ts';

type Before = EventOf<'day.opened'>['before'];

/** Nothing has been sprayed on this job before. */
export const noHistory: Before = { faces: {}, letters: 0 };

/** What a reason left out before the coming coat of a face: the places that are passed and that no work took. */
function leftOutOn(state: DayState, id: string, { prep }: FaceBook): NonNullable<FaceHistory['leftOut']> {
	const context = state.machine.context.faces.find(one => one.context.rules.id === id)?.context;
	const steps = context ? stepsBefore(context) : [];
	return steps.flatMap((step, place) =>
		context?.places.includes(place) && !prep.some(told => isAt(told, step, place)) ? [{ step, place }] : [],
	);
}

function faceAfter(state: DayState, id: string): FaceHistory | null {
	const { book } = state;
	const face = book.faces.get(id);
	if (!face) return null;
	const held = besideOf({ state, now: book.now }, id);
	const shop_C = book.opened.sheet.shop.air_C;
	const leftOut = leftOutOn(state, id, face);
	const read_C = face.windows?.surfaceC ?? book.airs.at(-1)?.surfaceC;
	return {
		coats: face.laid.map(({ coat, ended, cup, ...carried }) => ({
			coat,
			ended: isoAt(ended.wall),
			cup: [...cup],
			surfaceC: read_C ?? carried.carried_C ?? shop_C,
			leastC: coldestSurface_C({ state, now: book.now }, carried, ended),
		})),
		prep: face.prep.map(({ step, place, at }) => ({
			step,
			...(place !== undefined && { place }),
			at: isoAt(at.wall),
		})),
		...(leftOut.length > 0 && { leftOut }),
		aside: held ? { why: held.why, at: isoAt(held.since.wall), done: [], beside: true } : asideAfter(face),
	};
}

/** A part set aside; one sanded flat and cleaned, but not sprayed again before the day ended, is cleaned once more. */
function asideAfter({ aside, respray, again, prep }: FaceBook): FaceHistory['aside'] {
	if (aside)
		return {
			why: aside.why,
			at: isoAt(aside.since.wall),
			...(aside.coat > 0 && { coat: aside.coat }),
			done: aside.rework.map(({ step }) => step),
			beside: false,
		};
	const cleaned = respray || again ? prep.at(-1) : undefined;
	return cleaned
		? { why: 'to be sprayed again', at: isoAt(cleaned.at.wall), done: ['set-up', 'sand'], beside: false }
		: null;
}

/**
 * Where a closed day leaves its faces: what the next day of the job begins with.
 * @param records of the last day of the job, which carries what came before it
 * @throws Error where they are no day
 */
export const historyAfter = (records: readonly DayRecord[]): Before => historyIn(foldAll(records));

/** The same, of a day that is folded. */
export function historyIn(state: DayState): Before {
	const faces = state.book.opened.sheet.faces.flatMap(({ id }) => {
		const after = faceAfter(state, id);
		return after ? [[id, after] as const] : [];
	});
	return { faces: Object.fromEntries(faces), letters: state.book.lettersBefore + state.book.batches.size };
}
