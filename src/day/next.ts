import { knownOf } from '../../machines/day-context.ts';
import { stageAt } from '../job/places.ts';
import {
	cupLife_s,
	isMissed,
	isShutPart,
	isWet,
	outlookOf,
	reworkDue,
	stopsAt,
	waitEnds,
	wetUntil,
} from './allowed.ts';
import { turnsFluid } from './fluid.ts';
import { atLeast_s, isLater } from './instant.ts';
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
import { otherGunFirst, type PaintStep, paintFor, workOn_s } from './paint.ts';
import { dries_s, finishingIn_s, plannedPrep } from './prep.ts';
import { clearOfWet, mayNow, mustWait, type Work, workableAt, workOn } from './work.ts';

/** The one thing that comes next, worked out from where the day stands; nothing of it is stored. */
export type Step =
	| { kind: 'account'; faces: string[] }
	| { kind: 'one-go' }
	| { kind: 'stray'; face: string | null }
	| { kind: 'list'; list: 'before-spraying' | 'clean-up' }
	| { kind: 'air' }
	| { kind: 'edge'; face: string }
	| { kind: 'shut'; face: string }
	/** Their recoat window shut before their next coat, and nobody has said what now. */
	| { kind: 'missed'; faces: string[] }
	| PaintStep
	| ({ kind: 'prep'; faces: string[] } & Pick<Work, 'step' | 'grit' | 'rule'>)
	| { kind: 'stuck'; face: string }
	| { kind: 'wait'; face: string | null; due: number; why: 'flash' | 'window' | 'touch' | 'stand' | 'rework' }
	| { kind: 'touch'; faces: string[]; coat: number }
	/** A part is to be turned over by a face that has a tab: is it dry to handle? */
	| { kind: 'dry'; face: string }
	| { kind: 'check'; face: string }
	| { kind: 'turn'; face: string; why: 'cap-turn' | 'knob' | 'age' }
	| { kind: 'ready'; face: string }
	| { kind: 'rework'; face: string; step: 'set-up' | 'sand' | 'clean' }
	| { kind: 'one-more'; face: string }
	| { kind: 'finish' };

/** Beyond this a wait is no wait of the day but the end of it, ms. */
const longWait_ms = 4 * 3_600_000;

/** Checked, or wanting the short check alone: it waits loaded, and nobody is called from it to sand. */
const isGunAtHand = (moment: Moment): boolean =>
	knownOf(contextOf(moment)) !== null || contextOf(moment).gun.matches('shortCheckDue');

/** Faces that the sheet puts before this one, that have yet to get this coat today. */
const goesBefore = (moment: Moment, faces: readonly Candidate[], { face, round }: Candidate): string[] =>
	faces
		.filter(one => one.round === round && faceOf(moment, face).after.includes(one.face))
		.map(one => one.face)
		.filter(one => (workableAt(moment, one) ?? Number.POSITIVE_INFINITY) <= moment.now.wall + longWait_ms);

/** The next thing to be done to the face is its coat, and others come before it. */
const goesAfter = (moment: Moment, faces: readonly Candidate[], one: Candidate): boolean =>
	(workOn(moment, one.face)?.isLast ?? true) && goesBefore(moment, faces, one).length > 0;

/** When something may be done to a face, wall clock ms: not before it may be done to those that come before it. */
function comesAt(moment: Moment, faces: readonly Candidate[], one: Candidate): number | null {
	const own = workableAt(moment, one.face);
	if (own === null || !goesAfter(moment, faces, one)) return own;
	return Math.max(own, ...goesBefore(moment, faces, one).map(face => workableAt(moment, face) ?? own));
}

/** The wet face first, then the first in order that need not wait; with the gun checked, one that nothing is done to. */
function chosen(moment: Moment, faces: readonly Candidate[]): string | undefined {
	const wet = faces.find(({ face }) => faceState(moment, face).matches('part') && isWet(moment, face));
	if (wet) return wet.face;
	const may = (one: Candidate) => mayNow(moment, one.face) && !goesAfter(moment, faces, one);
	const prepared = isGunAtHand(moment) ? faces.find(one => !workOn(moment, one.face) && may(one)) : undefined;
	return (prepared ?? faces.find(may))?.face;
}

function soonest(moment: Moment, faces: readonly Candidate[]) {
	const due = faces
		.map(one => ({ face: one.face, due: comesAt(moment, faces, one) }))
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
		const { step, due } = reworkDue(moment, id);
		const at = due !== null && step !== 'set-up' ? Math.max(due, wetUntil(moment) ?? due) : due;
		return at !== null && at <= moment.now.wall;
	});
	if (face === undefined) return oneMore(moment);
	return oneMore(moment) ?? { kind: 'rework', face, step: reworkDue(moment, face).step };
}

/** Of faces in their order those that need not wait, or not beyond their turn. */
function byTheirTurn(moment: Moment, faces: readonly string[]): string[] {
	let turn = moment.now.wall;
	return faces.filter(face => {
		const isDue = mayNow(moment, face) || (workableAt(moment, face) ?? Number.POSITIVE_INFINITY) <= turn;
		turn += workOn_s(moment, face) * 1000;
		return isDue;
	});
}

/** Work is done on all faces of a coat at once: those that may be worked on already wait the minutes for the others. */
function untilAllMay(moment: Moment, faces: readonly { face: string }[]): Extract<Step, { kind: 'wait' }> {
	const [last] = faces
		.map(({ face }) => ({ face, due: workableAt(moment, face) ?? moment.now.wall }))
		.sort((one, other) => other.due - one.due);
	return { kind: 'wait', face: last?.face ?? null, due: last?.due ?? moment.now.wall, why: 'flash' };
}

/**
 * Work on every face of a coat before the first of them is sprayed, and what the sheet puts before that coat on others:
 * a step of the sheet on all of them before the next one, so that no face is sanded beside one that was wiped for the gun.
 */
function prepBefore(moment: Moment, faces: readonly Candidate[], face: string, isLast: boolean): Step | null {
	if (isGunAtHand(moment) && !workOn(moment, face)) return null;
	const round = faces.find(one => one.face === face)?.round;
	const { stage: coming } = nextCoat(moment, face);
	const isSame = new Map(faces.map(one => [one.face, one.round === round]));
	const some = [...isSame].filter(
		([one, same]) => same || (!isLast && nextCoat(moment, one).prep.length > 0),
	);
	const isDue = (one: string, work: Work) =>
		work.isLast === isLast && (isSame.get(one) === true || work.stage < coming);
	const wanted = byTheirTurn(
		moment,
		some.map(([one]) => one),
	)
		.map(one => ({ face: one, work: workOn(moment, one) }))
		.filter((one): one is { face: string; work: Work } => one.work !== null && isDue(one.face, one.work))
		.sort((one, other) => Math.sign(one.work.stage - other.work.stage) || 0);
	const [first] = wanted;
	if (!first) return null;
	const early = isLast ? [] : wanted.filter(one => !mayNow(moment, one.face));
	if (early.length > 0) return untilAllMay(moment, early);
	const { step, grit, rule, stage } = first.work;
	const isAlike = ({ work }: { work: Work }) =>
		work.stage === stage && work.step === step && work.grit === grit;
	const alike = wanted.filter(isAlike).map(one => one.face);
	const prep = { kind: 'prep' as const, faces: alike, step, grit, rule };
	return step === 'turn over' ? (untilDry(moment, alike) ?? prep) : prep;
}

/** The faces of today that their parts are picked up by when some others are turned up, where a tab was sprayed with them. */
function pickedUpBy(moment: Moment, turned: readonly string[]) {
	const parts = new Set(turned.map(id => faceOf(moment, id).part));
	return jobOf(moment).faces.flatMap(({ id, part, coats }) => {
		const last = faceBook(moment, id).laid.at(-1);
		const hasTab = (coats[(last?.coat ?? 0) - 1]?.ofStage[1] ?? 0) > 1;
		const isOfToday = last !== undefined && last.carried_C === null;
		return parts.has(part) && isOfToday && hasTab ? [{ id, ended: last.ended }] : [];
	});
}

/** What parts wait for before they are turned over: the minutes since their coat was found wet, then the tab. */
function untilDry(moment: Moment, turned: string[]): Step | null {
	const [first = ''] = turned;
	const wet = untilHandled(moment, turned) ?? whileTabWet(moment, first);
	if (wet) return wet;
	const { tabDry } = moment.state.book;
	const unsure = pickedUpBy(moment, turned).find(({ ended }) => !tabDry || isLater(ended, tabDry));
	return unsure ? { kind: 'dry', face: unsure.id } : null;
}

/** The wait until the coats that parts are picked up by are dry to handle, where their data sheets say when that is. */
function untilHandled(moment: Moment, turned: readonly string[]): Extract<Step, { kind: 'wait' }> | null {
	const parts = new Set(turned.map(id => faceOf(moment, id).part));
	const lefts = jobOf(moment).faces.flatMap(({ id, part }) => {
		const last = faceBook(moment, id).laid.at(-1);
		if (!last || !parts.has(part)) return [];
		const dry_s = dries_s(moment, id, ({ dryTo }) => dryTo?.handle);
		return Number.isFinite(dry_s) ? [dry_s - atLeast_s(last.ended, moment.now)] : [];
	});
	const left_s = Math.max(0, ...lefts);
	const due = moment.now.wall + left_s * 1000;
	return left_s > 0 ? { kind: 'wait', face: turned[0] ?? null, due, why: 'touch' } : null;
}

/** After so long a tab found wet is touched again, s. This project's own choice. */
const tabAgain_s = 300;

function whileTabWet(moment: Moment, face: string): Extract<Step, { kind: 'wait' }> | null {
	const { tabWet } = moment.state.book;
	const left_s = tabWet ? tabAgain_s - atLeast_s(tabWet, moment.now) : 0;
	return left_s > 0 ? { kind: 'wait', face, due: moment.now.wall + left_s * 1000, why: 'touch' } : null;
}

/** The tape tab of the coat before: it speaks for the faces of the coat that may be sprayed by when their turn comes. */
function touchFor(moment: Moment, id: string): Step | null {
	const asks = (face: string) => stopsAt(moment, face).some(({ by }) => by === 'touch');
	if (!asks(id)) return null;
	const coat = laidOn(moment, id) + 1;
	const wet = whileTabWet(moment, id);
	if (wet) return wet;
	const faces = pending(moment)
		.map(({ face }) => face)
		.filter(face => laidOn(moment, face) + 1 === coat && asks(face));
	return { kind: 'touch', faces: byTheirTurn(moment, faces), coat };
}

const turns = { horns: 'cap-turn', fan: 'knob', aged: 'age' } as const;

function gunFor(moment: Moment, id: string): Step {
	const stop = stopsAt(moment, id).find(one => one.by === 'gun');
	if (!stop)
		return turnsFluid(moment, id) ? { kind: 'turn', face: id, why: 'knob' } : { kind: 'ready', face: id };
	return stop.is === 'unknown'
		? { kind: 'check', face: id }
		: { kind: 'turn', face: id, why: turns[stop.is] };
}

/** Work on faces with all their coats that the sheet puts before what comes next on some other: masks, before another colour. */
function finishedBefore(moment: Moment, face: string): Step | null {
	if (isGunAtHand(moment)) return null;
	const { stages } = jobOf(moment);
	const coming = workOn(moment, face)?.stage ?? nextCoat(moment, face).stage;
	const before = facesIn(moment, 'open').flatMap(id => {
		const in_s = finishingIn_s(moment, id);
		const step = in_s === null ? null : plannedPrep(moment, id);
		const stage = step ? stageAt(jobOf(moment), id, stages.length, step.place) : coming;
		return in_s !== null && step && stage < coming ? [{ face: id, in_s, stage, ...step }] : [];
	});
	const [first, ...more] = before.sort((one, other) => one.stage - other.stage);
	if (!first) return null;
	const alike = [first, ...more.filter(({ stage }) => stage === first.stage)];
	const last = alike.reduce((late, one) => (one.in_s > late.in_s ? one : late), first);
	if (last.in_s > 0)
		return { kind: 'wait', face: last.face, due: moment.now.wall + last.in_s * 1000, why: 'window' };
	const { step, grit } = first;
	return { kind: 'prep', faces: alike.map(one => one.face), step, grit, rule: 'prep' };
}

/** Tape comes off a part in one go: another face of it is not dry enough to yet. */
const isTapedBeside = (moment: Moment, face: string, { step }: Pick<Work, 'step'>): boolean =>
	step === 'unmask' &&
	facesIn(moment, 'open').some(
		id =>
			faceOf(moment, id).part === faceOf(moment, face).part &&
			(finishingIn_s(moment, id) ?? 0) > 0 &&
			plannedPrep(moment, id)?.step === 'unmask',
	);

/** Work after the last coat, once the gun is clean: a step of the sheet on all faces at once. */
function finishing(moment: Moment): Step | null {
	const { gunWetSince } = moment.state.book;
	if (gunWetSince && !contextOf(moment).listsDone.includes('clean-up')) return null;
	const steps = facesIn(moment, 'open').flatMap(face => {
		const step = finishingIn_s(moment, face) === 0 ? plannedPrep(moment, face) : null;
		return step && !isTapedBeside(moment, face, step) ? [{ face, ...step }] : [];
	});
	const [first] = steps;
	if (!first || (clearOfWet.includes(first.step) && wetUntil(moment) !== null)) return null;
	const { step, grit } = first;
	const alike = steps.filter(one => one.step === step && one.grit === grit);
	return { kind: 'prep', faces: alike.map(({ face }) => face), step, grit, rule: 'prep' };
}

function whenNothingNow(moment: Moment, faces: readonly Candidate[]): Step {
	const { wall } = moment.now;
	const rework = reworkNow(moment);
	if (rework) return rework;
	const face = soonest(moment, faces);
	if (face && face.due - wall <= longWait_ms) {
		const other = otherGunFirst(moment, face.face);
		if (other) return other;
		const isOwn = mustWait(moment, face.face) && !faceBook(moment, face.face).part;
		return {
			kind: 'wait',
			...face,
			why: isOwn && face.due === waitEnds(moment, face.face) ? 'window' : 'flash',
		};
	}
	return finishing(moment) ?? { kind: 'finish' };
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

/**
 * Faces whose recoat window shut before their coat, those of one coat that the same is left for: asked about before
 * anything else is begun, but not between two passes of a coat that the gun is checked for.
 */
function missedFirst(moment: Moment, faces: readonly Candidate[], next: string | undefined): string[] {
	const missed = faces.filter(({ face }) => isMissed(moment, face));
	const [first] = missed;
	const coming = faces.find(({ face }) => face === next);
	if (!first || (isGunAtHand(moment) && coming && coming.round <= first.round)) return [];
	const leftFor = ({ face }: Candidate) => `${laidOn(moment, face)} ${outlookOf(moment, face)?.does}`;
	return missed.filter(one => leftFor(one) === leftFor(first)).map(({ face }) => face);
}

/** The wait that goes on where nothing can be done before it, the air read or not; null: something can. */
export function waitAhead(moment: Moment): Extract<Step, { kind: 'wait' }> | null {
	const next = nextStep(moment);
	const isOnlyAir = next.kind === 'air' && !chosen(moment, pending(moment));
	const step = isOnlyAir ? whenNothingNow(moment, pending(moment)) : next;
	return step.kind === 'wait' ? step : null;
}

/** So short a pull lays nothing worth a question, s. */
const leastPull_s = 1;

/** What comes next at the bench, or with the gun known. A pull that belongs to no pass is told before anything rests on it. */
export function nextStep(moment: Moment): Step {
	const step = stepOf(moment);
	const { stray } = moment.state.book;
	if (!stray || stray.on || stray.pulled_s < leastPull_s || step.kind === 'account' || step.kind === 'one-go')
		return step;
	return { kind: 'stray', face: step.kind === 'ready' ? step.face : null };
}

/** What puts right the first thing that stands before a face. */
function stepOf(moment: Moment): Step {
	const { late, listsDone } = contextOf(moment);
	const broken = facesIn(moment, 'broken');
	if (broken.length > 0) return { kind: 'account', faces: broken };
	if (late) return { kind: 'one-go' };
	const back = oneMore(moment);
	if (back) return back;
	const faces = pending(moment);
	const first = faces[0];
	if (listsDone.includes('clean-up') || !first) return whenNothingNow(moment, []);
	const seam = seamIn(moment, faces);
	if (seam) return seam;
	const line = cupIsEmpty(moment) ? reworkNow(moment) : null;
	if (line) return line;
	const face = chosen(moment, faces);
	const other = face === undefined ? null : otherGunFirst(moment, face);
	if (other) return other;
	const missed = missedFirst(moment, faces, face);
	if (missed.length > 0) return { kind: 'missed', faces: missed };
	if (!face) {
		/** A surface that is warmer now moves the window that is waited for. */
		const isStale = stopsAt(moment, first.face).some(stop => stop.by === 'air' && stop.is === 'stale');
		return isStale ? { kind: 'air' } : whenNothingNow(moment, faces);
	}
	return (
		workBefore(moment, faces, face) ??
		listAndAir(moment, face) ??
		paintAndTack(moment, faces, face) ??
		gunFor(moment, face)
	);
}

const cupIsEmpty = (moment: Moment): boolean => contextOf(moment).cup.length === 0;

/** Work at the parts before the coat; paint past its life sets in the gun and is emptied before it. */
function workBefore(moment: Moment, faces: readonly Candidate[], face: string): Step | null {
	if (!cupIsEmpty(moment) && cupLife_s(moment) <= 0) return null;
	return finishedBefore(moment, face) ?? prepBefore(moment, faces, face, false) ?? touchFor(moment, face);
}

/** The list and the air, before any paint is mixed. */
function listAndAir(moment: Moment, face: string): Step | null {
	for (const stop of stopsAt(moment, face)) {
		if (stop.by === 'list') return { kind: 'list', list: 'before-spraying' };
		if (stop.by === 'air') return stop.is === 'out' ? { kind: 'stuck', face } : { kind: 'air' };
	}
	return null;
}

/** Tacked once the pot has stood and the cup is filled, last of all before the gun: dust settles meanwhile. */
const paintAndTack = (moment: Moment, faces: readonly Candidate[], face: string): Step | null =>
	paintFor(moment, face) ?? prepBefore(moment, faces, face, true);
