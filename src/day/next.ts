import { batchInHand } from '../../machines/day-context.ts';
import type { Prep } from '../job/job.ts';
import {
	airAged,
	airNow,
	checkAged,
	cupLife_s,
	gunClock,
	isMixedFor,
	isShutPart,
	isWet,
	lifeLeft_s,
	overridesOn,
	potsOf,
	reworkDue,
	stoodAt,
	waitEnds,
	wantedFor,
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
	materialOf,
	nextCoat,
	ruleOf,
} from './moment.ts';
import { orderOf } from './order.ts';
import { plannedPrep } from './prep.ts';

/** The one thing that comes next, worked out from where the day stands; nothing of it is stored. */
export type Step =
	| { kind: 'account'; faces: string[] }
	| { kind: 'one-go' }
	| { kind: 'list'; list: 'before-spraying' | 'clean-up' }
	| { kind: 'air' }
	| { kind: 'edge'; face: string }
	| { kind: 'shut'; face: string }
	| { kind: 'empty'; why: 'too-old' | 'other-material' | 'other-mix' | 'stood-too-long' }
	| { kind: 'mix'; face: string }
	| { kind: 'resume'; batch: string }
	| { kind: 'load'; batch: string }
	| { kind: 'prep'; part: string; faces: string[]; step: Prep; grit: number | null }
	| { kind: 'stuck'; face: string }
	| { kind: 'wait'; face: string | null; due: number; why: 'flash' | 'window' | 'touch' | 'stand' | 'rework' }
	| { kind: 'touch'; faces: string[]; coat: number }
	| { kind: 'check'; face: string }
	| { kind: 'turn'; face: string; why: 'cap-turn' | 'knob' | 'age' }
	| { kind: 'ready'; face: string }
	| { kind: 'rework'; faces: string[]; step: 'set-up' | 'sand' | 'clean' }
	| { kind: 'finish' };

/** Beyond this a wait is no wait of the day but the end of it, ms. */
const longWait_ms = 4 * 3_600_000;

type Candidate = { face: string; round: number; place: number };

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

/** Faces that follow in the same coat and can be sprayed within one pot life. */
export function restOfCoat(moment: Moment, id: string): string[] {
	const { stage, ofStage, material } = nextCoat(moment, id);
	const life_s = materialOf(moment, material).potLife.hours * 3600 * 0.8;
	let seconds = 0;
	const faces = pending(moment).filter(({ face }) => {
		const coat = nextCoat(moment, face);
		return coat.stage === stage && coat.ofStage[0] === ofStage[0];
	});
	return faces
		.filter(({ face }, index) => {
			seconds += wantedFor(moment, face).spray_s * 3;
			return index === 0 || seconds <= life_s;
		})
		.map(({ face }) => face);
}

/** Paint, mixed and alive, that the rest of a coat is short of, mL. */
export function paintShort_mL(moment: Moment, id: string): number {
	const coat = nextCoat(moment, id);
	const { book } = moment.state;
	const { cup } = contextOf(moment);
	const mine = cup.every(letter => isMixedFor(moment, letter, coat));
	const inCup = mine && cup.length > 0 && cupLife_s(moment) > 0 ? book.cup_mL : 0;
	const inPots = potsOf(moment, coat).reduce(
		(sum, letter) => sum + (book.batches.get(letter)?.pot_mL ?? 0),
		0,
	);
	const wanted = restOfCoat(moment, id).reduce((sum, face) => sum + wantedFor(moment, face).volume_mL, 0);
	return wanted - inCup - inPots;
}

/** Parts set aside whose next step is due. */
export function reworkNow(moment: Moment): Extract<Step, { kind: 'rework' }> | null {
	const due = facesIn(moment, 'aside').filter(id => {
		const at = reworkDue(moment, id).due;
		return at !== null && at <= moment.now.wall;
	});
	const first = due[0];
	if (!first) return null;
	const { part } = faceOf(moment, first);
	const { step } = reworkDue(moment, first);
	const faces = due.filter(id => faceOf(moment, id).part === part && reworkDue(moment, id).step === step);
	return { kind: 'rework', faces, step };
}

/** Faces of the same part that want the same preparation now. */
function prepFor(moment: Moment, id: string): Step | null {
	const wantedBy = (face: string) => {
		const { done } = faceState(moment, face).context;
		const window = windowNow(moment, face);
		const coat = nextCoat(moment, face);
		const planned = plannedPrep(moment, face);
		if (planned) return planned;
		const wanted = window === 'scuff' || window === 'sand' ? window : null;
		const prepared =
			wanted === null || done.includes('sand') || (wanted === 'scuff' && done.includes('scuff'));
		const { grit } = jobOf(moment).materials[coat.material] ?? { grit: null };
		return prepared || windowReasoned(moment, face) ? null : { step: wanted, grit };
	};
	const wanted = wantedBy(id);
	if (!wanted) return null;
	const { part } = faceOf(moment, id);
	const faces = pending(moment)
		.map(({ face }) => face)
		.filter(face => faceOf(moment, face).part === part && wantedBy(face)?.step === wanted.step);
	return { kind: 'prep', part, faces, step: wanted.step, grit: wanted.grit };
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

/** After a wait the gun is checked in full anyhow: then is the time to mix what the whole coat is short of. */
function mixesAhead(moment: Moment, id: string): boolean {
	const { known, need } = contextOf(moment);
	return (
		known === null && need === 'full' && !batchInHand(contextOf(moment)) && paintShort_mL(moment, id) > 0
	);
}

/** Gun and paint for a face: nothing where the cup holds what it wants. */
function paintFor(moment: Moment, id: string): Step | null {
	const { cup } = contextOf(moment);
	const coat = nextCoat(moment, id);
	const { volume_mL, spray_s } = wantedFor(moment, id);
	const { book } = moment.state;
	const clock = gunClock(moment);
	if (cup.length > 0 && cupLife_s(moment) <= 0) return { kind: 'empty', why: 'too-old' };
	if (cup.some(letter => book.batches.get(letter)?.material !== coat.material))
		return { kind: 'empty', why: 'other-material' };
	if (!cup.every(letter => isMixedFor(moment, letter, coat))) return { kind: 'empty', why: 'other-mix' };
	if (clock && clock.flush <= moment.now.wall) return { kind: 'empty', why: 'stood-too-long' };
	if (cup.length > 0 && cupLife_s(moment) <= spray_s) return { kind: 'empty', why: 'too-old' };
	const short = book.cup_mL + 1e-9 < volume_mL;
	if (cup.length > 0 && !short && !mixesAhead(moment, id)) return null;
	const pot = potsOf(moment, coat).find(letter => lifeLeft_s(moment, letter) > spray_s);
	if (pot) return { kind: 'load', batch: pot };
	const inHand = batchInHand(contextOf(moment));
	if (!inHand) return { kind: 'mix', face: id };
	const due = stoodAt(moment, inHand[0]);
	return due <= moment.now.wall
		? { kind: 'resume', batch: inHand[0] }
		: { kind: 'wait', face: id, due, why: 'stand' };
}

/** The tape tab of the coat before: it speaks for every face that waits for the same coat and may be sprayed. */
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
	const faces = pending(moment)
		.map(({ face }) => face)
		.filter(face => laidOn(moment, face) + 1 === coat && asks(face));
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
	if (!listsDone.includes('before-spraying')) return { kind: 'list', list: 'before-spraying' };
	const faces = pending(moment);
	if (listsDone.includes('clean-up') || faces.length === 0) return whenNothingNow(moment, []);
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

/** Batches outside the gun that have died, mixed or half mixed. */
export const deadPots = (moment: Moment): string[] =>
	Object.entries(contextOf(moment).batches)
		.filter(
			([letter, batch]) =>
				!batch.matches('inCup') && !batch.matches('discarded') && lifeLeft_s(moment, letter) <= 0,
		)
		.map(([letter]) => letter);
