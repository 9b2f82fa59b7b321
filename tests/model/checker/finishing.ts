import { lastLaid } from './coats.ts';
import { type Day, elapsed, type Face, type Material, type Step } from './day.ts';
import { dusty, wetAt } from './dust.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, is, type Note } from './notes.ts';
import { freshList, type Progress, struck, tooSoon } from './place.ts';
import { slower } from './recoat.ts';
import { toldEarlier, toldIn } from './told.ts';

/** Whether the painter gave the face a coat more since note `from`: what is told then belongs to that coat's list. */
const getsMore = (day: Day, face: string, from: number): boolean =>
	allOf(day.notes.slice(from), 'override.given').some(
		given => given.rule === 'coats' && given.face === face && given.reason.trim() !== '',
	);

/** How far the work behind the last coat of a face is, told before note `n`; null where that coat is not on, or not the last. */
function finishingBy(day: Day, face: Face, n: number): Progress | null {
	const laid = lastLaid(day, face.id, n);
	if (!face.finishing || !laid || laid.coat < face.coats.length) return null;
	if (getsMore(day, face.id, laid.n)) return null;
	const { wait_h, prep } = face.finishing;
	const wait = wait_h > 0 ? { from: laid.at, hours: wait_h, behind: 'the last coat' } : null;
	const told = [
		...toldEarlier(day, face.id, laid),
		...toldIn(
			day,
			face.id,
			day.notes.slice(laid.n, n),
			({ rule, face: of, reason }) => rule === 'prep' && of === face.id && reason.trim() !== '',
		),
	];
	return told.reduce((now, one) => struck(now, one, () => false), freshList(prep, wait));
}

/** A face set aside, or half sprayed, gets more coats: its last work may wait. */
const isOut = (day: Day, face: string, n: number): boolean => {
	const note = day.notes
		.slice(0, n)
		.findLast(
			one =>
				(is(one, 'part.setAside') && one.faces.includes(face)) ||
				(is(one, 'face.ended') && one.face === face && one.extent === 'all'),
		);
	return note === undefined ? day.before.faces[face]?.aside != null : is(note, 'part.setAside');
};

/** Whether a step cannot be asked for yet: beside a wet coat, or on one that is not dry enough for it. */
function isHeld(day: Day, face: Face, { step, dry }: Step, at: Note): boolean {
	if (dusty.stage.includes(step) && wetAt(day, at).length > 0) return true;
	const laid = lastLaid(day, face.id, at.n);
	const paint = day.sheet.materials[laid?.material ?? ''];
	const times: Record<string, Material['sandAfter']> = { sand: paint?.sandAfter, mask: paint?.dryTo?.tape };
	const wanted = dry ? paint?.dryTo?.[dry] : times[step];
	if (!wanted || !laid || !paint) return false;
	const read = allOf(day.notes.slice(laid.n, at.n), 'air.read').map(({ surfaceC }) => surfaceC);
	const coldest_C = Math.min(laid.surfaceC ?? Number.POSITIVE_INFINITY, ...read);
	const hours = wanted.map(
		one =>
			one.hours *
			Math.max(1, Number.isFinite(coldest_C) ? slower(paint.factorPer10C, one.at_C, coldest_C) : 1),
	);
	return elapsed(laid.at, at).least < Math.max(0, ...hours) * 3_600_000;
}

/** So long a step must have been due before it is missed: clocks are written to the second. */
const dueFor_ms = -2000;

/** Tape stays on a part while another face of it is not dry enough for it to come off, or waits for it yet. */
const isTapedBeside = (day: Day, face: Face, { step }: Step, at: Note): boolean =>
	step === 'unmask' &&
	day.sheet.faces.some(other => {
		const progress = other.part === face.part ? finishingBy(day, other, at.n) : null;
		const next = progress?.left[0];
		if (!progress || next?.step !== 'unmask') return false;
		return isHeld(day, other, next, at) || tooSoon(progress, at, dueFor_ms, '').length > 0;
	});

function closedOver(day: Day, face: Face, closed: Note): Finding[] {
	const progress = isOut(day, face.id, closed.n) ? null : finishingBy(day, face, closed.n);
	const next = progress?.left[0];
	if (!progress || !next || tooSoon(progress, closed, dueFor_ms, '').length > 0) return [];
	if (isHeld(day, face, next, closed) || isTapedBeside(day, face, next, closed)) return [];
	return [finding(16, closed, `the day is closed as done, ${next.step} on ${face.id} is due and not done`)];
}

/**
 * Work behind the last coat is done in its place and behind its wait, and a day that closes as done leaves none of it that is
 * due (property 16).
 */
export function finishingDone(day: Day): Finding[] {
	const closed = allOf(day.notes, 'day.closed').find(({ why }) => why === 'done');
	return day.sheet.faces.flatMap(face => {
		const end = day.notes.length;
		const wrong = isOut(day, face.id, end) ? [] : (finishingBy(day, face, end)?.wrong ?? []);
		return [
			...wrong.map(says => finding(16, closed ?? { line: end }, `${face.id}, all its coats on: ${says}`)),
			...(closed ? closedOver(day, face, closed) : []),
		];
	});
}
