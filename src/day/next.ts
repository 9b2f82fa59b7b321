import type { Prep } from '../job/job.ts';
import {
	airAged,
	airNow,
	checkAged,
	isShutPart,
	isWet,
	overridesOn,
	reworkDue,
	waitEnds,
	windowNow,
	windowReasoned,
} from './allowed.ts';
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
	ruleOf,
} from './moment.ts';
import { type Candidate, pending } from './order.ts';
import { type PaintStep, paintFor, workOn_s } from './paint.ts';
import { plannedPrep } from './prep.ts';

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

const mayNow = (moment: Moment, id: string) => windowNow(moment, id) !== 'wait' || windowReasoned(moment, id);

/** The wet face first, then the first in order whose window is not *wait*. */
function chosen(moment: Moment, faces: Candidate[]): string | undefined {
	const wet = faces.find(({ face }) => faceState(moment, face).matches('part') && isWet(moment, face));
	return (wet ?? faces.find(({ face }) => mayNow(moment, face)))?.face;
}

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

/** Faces of the same part that want the same preparation now. */
function prepFor(moment: Moment, id: string): Step | null {
	const wantedBy = (face: string) => {
		const { done } = faceState(moment, face).context;
		const window = windowNow(moment, face);
		const coat = nextCoat(moment, face);
		const planned = plannedPrep(moment, face);
		if (planned) return { ...planned, rule: 'prep' as const };
		const wanted = window === 'scuff' || window === 'sand' ? window : null;
		const prepared =
			wanted === null || done.includes('sand') || (wanted === 'scuff' && done.includes('scuff'));
		const { grit } = jobOf(moment).materials[coat.material] ?? { grit: null };
		return prepared || windowReasoned(moment, face) ? null : { step: wanted, grit, rule: 'window' as const };
	};
	const wanted = wantedBy(id);
	if (!wanted) return null;
	const { part } = faceOf(moment, id);
	const isAlike = (other: ReturnType<typeof wantedBy>) =>
		other?.step === wanted.step && other.grit === wanted.grit && other.rule === wanted.rule;
	const faces = pending(moment)
		.map(({ face }) => face)
		.filter(face => faceOf(moment, face).part === part && isAlike(wantedBy(face)));
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
	const asks = (face: string) => {
		const { touched, overrides, done, partly } = faceState(moment, face).context;
		return (
			ruleOf(moment, face).touch &&
			!touched &&
			!partly &&
			!overrides.includes('touch') &&
			!done.includes('sand')
		);
	};
	if (!asks(id)) return null;
	const coat = laidOn(moment, id) + 1;
	const { tabWet } = moment.state.book;
	const again = tabWet ? tabWet.wall + 5 * 60_000 : 0;
	if (again > moment.now.wall) return { kind: 'wait', face: id, due: again, why: 'touch' };
	let turn = moment.now.wall;
	const faces = pending(moment)
		.map(({ face }) => face)
		.filter(face => laidOn(moment, face) + 1 === coat && asks(face))
		.filter(face => {
			const due = waitEnds(moment, face) ?? Number.POSITIVE_INFINITY;
			const isDue = mayNow(moment, face) || due <= turn;
			turn += workOn_s(moment, face) * 1000;
			return isDue;
		});
	return { kind: 'touch', faces, coat };
}

function gunFor(moment: Moment, id: string): Step {
	const { known } = contextOf(moment);
	const rule = ruleOf(moment, id);
	if (!known) return { kind: 'check', face: id };
	if (known.horns !== rule.horns) return { kind: 'turn', face: id, why: 'cap-turn' };
	if (known.fanHeight_mm !== rule.fanHeight_mm) return { kind: 'turn', face: id, why: 'knob' };
	return checkAged(moment) ? { kind: 'turn', face: id, why: 'age' } : { kind: 'ready', face: id };
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

/** What comes next at the bench, or with the gun known. */
export function nextStep(moment: Moment): Step {
	const { late, listsDone } = contextOf(moment);
	const broken = facesIn(moment, 'broken');
	if (broken.length > 0) return { kind: 'account', faces: broken };
	if (late) return { kind: 'one-go' };
	const back = oneMore(moment);
	if (back) return back;
	if (!listsDone.includes('before-spraying')) return { kind: 'list', list: 'before-spraying' };
	const faces = pending(moment);
	if (listsDone.includes('clean-up') || faces.length === 0) return whenNothingNow(moment, []);
	if (moment.state.book.wasAway) return { kind: 'list', list: 'before-spraying' };
	if (airAged(moment)) return { kind: 'air' };
	const shut = faces.find(({ face }) => isShutPart(moment, face));
	if (shut) return { kind: 'shut', face: shut.face };
	const left = faces.find(
		({ face }) =>
			faceState(moment, face).matches('part') && !isWet(moment, face) && !faceBook(moment, face).part?.left,
	);
	if (left) return { kind: 'edge', face: left.face };
	const face = chosen(moment, faces);
	if (!face)
		return whenNothingNow(
			moment,
			faces.map(one => one.face),
		);
	if (airNow(moment, face) === 'out' && !overridesOn(moment, face).includes('air'))
		return { kind: 'stuck', face };
	return (
		prepBefore(moment, faces, face) ??
		touchFor(moment, face) ??
		paintFor(moment, face) ??
		gunFor(moment, face)
	);
}
