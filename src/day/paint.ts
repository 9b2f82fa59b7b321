import { batchInHand } from '../../machines/day-context.ts';
import { withUse } from '../film/odds.ts';
import type { PlannedCoat } from '../job/job.ts';
import { lifeClock } from '../job/process-clocks.ts';
import { firstBursts_mL, inGunFor_mL, leftBehind_mL, plannedBursts_mL, unsureFor } from '../plan/batches.ts';
import {
	cupLife_s,
	gunClock,
	isMixedFor,
	lifeLeft_s,
	livesNow_h,
	potsOf,
	standsNow_min,
	stoodAt,
	stopsAt,
	wantedFor,
} from './allowed.ts';
import { type Book, emptyCup } from './book.ts';
import { type CupRoom, cupRoom } from './cup-room.ts';
import { contextOf, faceOf, jobOf, laidOn, type Moment, materialOf, nextCoat } from './moment.ts';
import { pending } from './order.ts';
import { hasPot } from './pours.ts';

/** The paint that a face wants: in the cup, in a pot, or still to be mixed. */

export type PaintStep =
	| { kind: 'empty'; why: 'too-old' | 'short-lived' | 'other-material' | 'other-mix' | 'stood-too-long' }
	| { kind: 'mix'; face: string }
	| { kind: 'resume'; batch: string }
	| { kind: 'load'; batch: string; room: CupRoom }
	| { kind: 'wait'; face: string; due: number; why: 'stand' };

/** Pots whose paint outlasts the face that comes next. */
const potsFor = (moment: Moment, id: string): string[] => {
	const { spray_s } = wantedFor(moment, id);
	return potsOf(moment, nextCoat(moment, id)).filter(letter => lifeLeft_s(moment, letter) > spray_s);
};

/** What a face takes with the walk, the turns and the checks around it, s: three times its spraying. */
export const workOn_s = (moment: Moment, id: string): number => wantedFor(moment, id).spray_s * 3;

/** Faces that follow in the same coat and can be sprayed within one pot life. */
export function restOfCoat(moment: Moment, id: string): string[] {
	const { stage, ofStage, material } = nextCoat(moment, id);
	const paint = materialOf(moment, material);
	const life_h = lifeClock(paint) ? livesNow_h(moment, paint) : paint.potLife.hours;
	const life_s = life_h * 3600 * 0.8;
	let seconds = 0;
	const faces = pending(moment).filter(({ face }) => {
		const coat = nextCoat(moment, face);
		return coat.stage === stage && coat.ofStage[0] === ofStage[0];
	});
	return faces
		.filter(({ face }, index) => {
			seconds += workOn_s(moment, face);
			return index === 0 || seconds <= life_s;
		})
		.map(({ face }) => face);
}

/** … in the order in which they are sprayed, the one that comes next first. */
const sprayedFrom = (moment: Moment, id: string): string[] => [
	id,
	...restOfCoat(moment, id).filter(other => other !== id),
];

/** Time until the rest of a coat is on, s. */
const coatTime_s = (moment: Moment, id: string): number =>
	restOfCoat(moment, id).reduce((sum, face) => sum + workOn_s(moment, face), 0);

/** What the gun holds for a coat, mL by the count of its cup; nothing where it holds other paint, or dead paint. */
function inCup(moment: Moment, coat: PlannedCoat): Book['cupSince'] {
	const { cup } = contextOf(moment);
	const isMine = cup.length > 0 && cup.every(letter => isMixedFor(moment, letter, coat));
	return isMine && cupLife_s(moment) > 0 ? moment.state.book.cupSince : emptyCup;
}

/** Paint, mixed and alive, that the rest of a coat is short of at the sheet's risk, mL. */
export const paintShort_mL = (moment: Moment, id: string): number =>
	shortOf_mL(moment, id, inCup(moment, nextCoat(moment, id)));

function shortOf_mL(moment: Moment, id: string, { uses, loaded_mL, bursts_mL }: Book['cupSince']): number {
	const coat = nextCoat(moment, id);
	const { batches, opened } = moment.state.book;
	const inPots_mL = potsFor(moment, id).reduce((sum, letter) => sum + (batches.get(letter)?.pot_mL ?? 0), 0);
	const rest = restOfCoat(moment, id).reduce(
		(row, face) => withUse(row, wantedFor(moment, face).volume_mL),
		uses,
	);
	const unsure = unsureFor(opened.sheet, coat.material, opened.rates ?? {});
	return inGunFor_mL(opened.sheet, rest, unsure) - (loaded_mL - bursts_mL) - inPots_mL;
}

/** Stirring, pouring, straining and timing of a batch, its standing left out, min. This project's own choice. */
const mixing_min = 8;

/** … its standing counted, in the air as last read, min. */
export const mixTakes_min = (moment: Moment, { material }: PlannedCoat): number =>
	standsNow_min(moment, materialOf(moment, material)) + mixing_min;

/** What is in the cup once a batch mixed now is ready: nothing where it has stood too long by then, and is emptied. */
function inCupThen(moment: Moment, coat: PlannedCoat): Book['cupSince'] {
	const flush = gunClock(moment)?.flush ?? Number.POSITIVE_INFINITY;
	return flush <= moment.now.wall + mixTakes_min(moment, coat) * 60_000 ? emptyCup : inCup(moment, coat);
}

/** … with the bursts on paper that the rest of the coat asks for, and what a pot and its strainer keep. */
export function toMix_mL(moment: Moment, id: string): number {
	const sheet = jobOf(moment);
	const passes = restOfCoat(moment, id).map(face => ({
		face: faceOf(moment, face),
		coat: nextCoat(moment, face),
		count: laidOn(moment, face) + 1,
	}));
	const short_mL = shortOf_mL(moment, id, inCupThen(moment, nextCoat(moment, id)));
	return short_mL + plannedBursts_mL(sheet, passes) + leftBehind_mL(sheet);
}

/** After a wait the gun is checked in full anyhow: then is the time to mix what the whole coat is short of, but no bursts alone. */
function mixesAhead(moment: Moment, id: string): boolean {
	const context = contextOf(moment);
	const isShort = paintShort_mL(moment, id) > firstBursts_mL(jobOf(moment), nextCoat(moment, id));
	return context.gun.matches('fullCheckDue') && !batchInHand(context) && isShort;
}

/** The pot that the cup is filled from: any into an empty cup; another batch only where both outlast the coat. */
function potFor(moment: Moment, id: string): string | undefined {
	const { cup } = contextOf(moment);
	const coat_s = coatTime_s(moment, id);
	const lasts = (letter: string) => Math.min(cupLife_s(moment), lifeLeft_s(moment, letter)) > coat_s;
	return potsFor(moment, id).find(letter => cup.length === 0 || cup.includes(letter) || lasts(letter));
}

const emptied = {
	dead: 'too-old',
	'other-material': 'other-material',
	'other-mix': 'other-mix',
	stood: 'stood-too-long',
	dying: 'short-lived',
} as const;

/** Gun and paint for a face: nothing where the cup holds what it wants. */
export function paintFor(moment: Moment, id: string): PaintStep | null {
	const { book } = moment.state;
	const stop = stopsAt(moment, id).find(one => one.by === 'cup');
	const short = stop?.is === 'empty' || stop?.is === 'short';
	if (stop && stop.is !== 'empty' && stop.is !== 'short') return { kind: 'empty', why: emptied[stop.is] };
	if (!short && !mixesAhead(moment, id)) return null;
	const pot = potFor(moment, id);
	const room = cupRoom(moment, sprayedFrom(moment, id));
	if (pot && (short || room.most_mL - book.cup_mL > 0.5)) return { kind: 'load', batch: pot, room };
	if (stop?.is === 'short' && cupLife_s(moment) <= coatTime_s(moment, id))
		return { kind: 'empty', why: 'short-lived' };
	const inHand = batchInHand(contextOf(moment));
	if (!inHand) return { kind: 'mix', face: id };
	const due = stoodAt(moment, inHand[0]);
	return due <= moment.now.wall
		? { kind: 'resume', batch: inHand[0] }
		: { kind: 'wait', face: id, due, why: 'stand' };
}

/** Batches outside the gun that have died, mixed or half mixed. */
export const deadPots = (moment: Moment): string[] =>
	Object.entries(contextOf(moment).batches)
		.filter(([letter, batch]) => {
			const pot = moment.state.book.batches.get(letter);
			if (batch.matches('inCup') || batch.matches('discarded')) return false;
			return pot !== undefined && hasPot(pot) && lifeLeft_s(moment, letter) <= 0;
		})
		.map(([letter]) => letter);
