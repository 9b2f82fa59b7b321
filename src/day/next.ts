import type { Stop } from '../../machines/stops.ts';
import type { Prep } from '../job/job.ts';
import { isShutPart, isWet, reworkDue, stopsAt, waitEnds } from './allowed.ts';
import {
	contextOf,
	faceBook,
	faceOf,
	faceState,
	facesIn,
	jobOf,
	laidOn,
	type Moment,
	nextCoat,
} from './moment.ts';
import { type Candidate, pending } from './order.ts';
import { type PaintStep, paintFor, workOn_s } from './paint.ts';

/** The one thing that comes next, worked out from where the day stands; nothing of it is stored. */
export type Step =
	| { kind: 'account'; faces: string[] }
	| { kind: 'one-go' }
	| { kind: 'list'; list: 'before-spraying' | 'clean-up' }
	| { kind: 'air' }
	| { kind: 'edge'; face: string }
	| { kind: 'shut'; face: string }
	| PaintStep
	/** `rule`: whether the sheet asks for it, or the recoat window. */
	| {
			kind: 'prep';
			part: string;
			faces: string[];
			step: Prep;
			grit: number | null;
			rule: 'prep' | 'window';
	  }
	| { kind: 'stuck'; face: string }
	| { kind: 'wait'; face: string | null; due: number; why: 'flash' | 'window' | 'touch' | 'stand' | 'rework' }
	| { kind: 'touch'; faces: string[]; coat: number }
	| { kind: 'check'; face: string }
	| { kind: 'turn'; face: string; why: 'cap-turn' | 'knob' | 'age' }
	| { kind: 'ready'; face: string }
	| { kind: 'rework'; face: string; step: 'set-up' | 'sand' | 'clean' }
	| { kind: 'one-more'; face: string }
	| { kind: 'finish' };

/** Beyond this a wait is no wait of the day but the end of it, ms. */
const longWait_ms = 4 * 3_600_000;

const waits = ({ by, ...stop }: Stop): boolean => by === 'window' && 'is' in stop && stop.is === 'wait';

/** The wet face first, then the first in order that need not wait. */
function chosen(moment: Moment, faces: readonly Candidate[]): string | undefined {
	const wet = faces.find(({ face }) => faceState(moment, face).matches('part') && isWet(moment, face));
	return (wet ?? faces.find(({ face }) => mayNow(moment, face)))?.face;
}

const mayNow = (moment: Moment, id: string): boolean => !stopsAt(moment, id).some(waits);

function soonest(faces: string[], dueOf: (id: string) => number | null) {
	const due = faces
		.map(face => ({ face, due: dueOf(face) }))
		.filter((one): one is { face: string; due: number } => one.due !== null)
		.sort((one, other) => one.due - other.due);
	return due[0];
}

/** A face back from its own line with all its coats on. */
function oneMore(moment: Moment): Extract<Step, { kind: 'one-more' }> | null {
	const back = jobOf(moment).faces.find(({ id }) => faceBook(moment, id).again);
	return back ? { kind: 'one-more', face: back.id } : null;
}

/** What is next for a face that had a fault, where that is due. */
export function reworkNow(moment: Moment): Extract<Step, { kind: 'rework' | 'one-more' }> | null {
	const face = facesIn(moment, 'aside').find(id => {
		const at = reworkDue(moment, id).due;
		return at !== null && at <= moment.now.wall;
	});
	if (face === undefined) return oneMore(moment);
	return oneMore(moment) ?? { kind: 'rework', face, step: reworkDue(moment, face).step };
}

/** The work that stands between a face and its coat: planned, or asked for by its recoat window. */
function workOn(moment: Moment, id: string) {
	const stop = stopsAt(moment, id).find(one => one.by === 'prep' || (one.by === 'window' && !waits(one)));
	if (stop?.by === 'prep')
		return {
			step: stop.step,
			place: stop.place,
			grit: gritOf(moment, id, stop.place),
			rule: 'prep' as const,
		};
	if (stop?.by !== 'window' || stop.is === 'wait') return null;
	const { grit } = jobOf(moment).materials[nextCoat(moment, id).material] ?? { grit: null };
	return { step: stop.is, grit, rule: 'window' as const };
}

const gritOf = (moment: Moment, id: string, place: number): number | null =>
	nextCoat(moment, id).prep[place]?.grit ?? null;

/** Of faces in their order those that need not wait, or not beyond their turn. */
function byTheirTurn(moment: Moment, faces: readonly string[]): string[] {
	let turn = moment.now.wall;
	return faces.filter(face => {
		const isDue = mayNow(moment, face) || (waitEnds(moment, face) ?? Number.POSITIVE_INFINITY) <= turn;
		turn += workOn_s(moment, face) * 1000;
		return isDue;
	});
}

/** Faces of the same part that want the same preparation now. */
function prepFor(moment: Moment, id: string): Step | null {
	const wanted = workOn(moment, id);
	if (!wanted) return null;
	const { part } = faceOf(moment, id);
	const isAlike = (other: ReturnType<typeof workOn>) =>
		other?.step === wanted.step && other.grit === wanted.grit && other.rule === wanted.rule;
	const alike = pending(moment)
		.map(({ face }) => face)
		.filter(face => faceOf(moment, face).part === part && isAlike(workOn(moment, face)));
	const faces = byTheirTurn(moment, alike);
	const { step, grit, rule } = wanted;
	return { kind: 'prep', part, faces, step, grit, rule };
}

/** Every face of the coat is prepared before the first of them is sprayed: preparing is no work for a gun in the hand. */
function prepBefore(moment: Moment, faces: readonly Candidate[], face: string): Step | null {
	const round = faces.find(one => one.face === face)?.round;
	const same = faces.filter(one => one.round === round && mayNow(moment, one.face));
	for (const one of same) {
		const prep = prepFor(moment, one.face);
		if (prep) return prep;
	}
	return null;
}

/** The tape tab of the coat before: it speaks for the faces of the coat that may be sprayed by when their turn comes. */
function touchFor(moment: Moment, id: string): Step | null {
	const asks = (face: string) => stopsAt(moment, face).some(({ by }) => by === 'touch');
	if (!asks(id)) return null;
	const coat = laidOn(moment, id) + 1;
	const { tabWet } = moment.state.book;
	const again = tabWet ? tabWet.wall + 5 * 60_000 : 0;
	if (again > moment.now.wall) return { kind: 'wait', face: id, due: again, why: 'touch' };
	const faces = pending(moment)
		.map(({ face }) => face)
		.filter(face => laidOn(moment, face) + 1 === coat && asks(face));
	return { kind: 'touch', faces: byTheirTurn(moment, faces), coat };
}

const turns = { horns: 'cap-turn', fan: 'knob', aged: 'age' } as const;

function gunFor(moment: Moment, id: string): Step {
	const stop = stopsAt(moment, id).find(one => one.by === 'gun');
	if (!stop) return { kind: 'ready', face: id };
	return stop.is === 'unknown'
		? { kind: 'check', face: id }
		: { kind: 'turn', face: id, why: turns[stop.is] };
}

function whenNothingNow(moment: Moment, faces: string[]): Step {
	const { wall } = moment.now;
	const rework = reworkNow(moment);
	if (rework) return rework;
	const face = soonest(faces, id => waitEnds(moment, id));
	if (face && face.due - wall <= longWait_ms)
		return { kind: 'wait', ...face, why: faceBook(moment, face.face).part ? 'flash' : 'window' };
	return { kind: 'finish' };
}

/** A face broken off past its wet edge: nothing was said of it yet, or no waiting helps it any more. */
function seamIn(moment: Moment, faces: readonly Candidate[]): Step | null {
	const shut = faces.find(({ face }) => isShutPart(moment, face));
	if (shut) return { kind: 'shut', face: shut.face };
	const left = faces.find(
		({ face }) =>
			faceState(moment, face).matches('part') && !isWet(moment, face) && !faceBook(moment, face).part?.left,
	);
	return left ? { kind: 'edge', face: left.face } : null;
}

/** What comes next at the bench, or with the gun known: what puts right the first thing that stands before a face. */
export function nextStep(moment: Moment): Step {
	const { late, listsDone } = contextOf(moment);
	const broken = facesIn(moment, 'broken');
	if (broken.length > 0) return { kind: 'account', faces: broken };
	if (late) return { kind: 'one-go' };
	const back = oneMore(moment);
	if (back) return back;
	const faces = pending(moment);
	const first = faces[0];
	if (listsDone.includes('clean-up') || !first) return whenNothingNow(moment, []);
	const [stop] = stopsAt(moment, first.face);
	if (stop?.by === 'list') return { kind: 'list', list: 'before-spraying' };
	if (stop?.by === 'air' && stop.is !== 'out') return { kind: 'air' };
	const seam = seamIn(moment, faces);
	if (seam) return seam;
	const face = chosen(moment, faces);
	if (!face)
		return whenNothingNow(
			moment,
			faces.map(one => one.face),
		);
	if (stopsAt(moment, face)[0]?.by === 'air') return { kind: 'stuck', face };
	return (
		prepBefore(moment, faces, face) ??
		touchFor(moment, face) ??
		paintFor(moment, face) ??
		gunFor(moment, face)
	);
}
