import { batchInHand } from '../../machines/day-context.ts';
import { noUse } from '../film/odds.ts';
import { type PlannedCoat, withGunOf } from '../job/job.ts';
import { riskOf } from '../job/on-work.ts';
import { lifeClock } from '../job/process-clocks.ts';
import { firstBursts_mL, leftBehind_mL, plannedBursts_mL } from '../plan/batches.ts';
import {
	cupLife_s,
	gunClock,
	isMixedFor,
	levelFor_mL,
	lifeLeft_s,
	livesNow_h,
	potsOf,
	standsNow_min,
	stoodAt,
	stopsAt,
	wantedFor,
} from './allowed.ts';
import { type Book, emptyCup } from './book.ts';
import { cupRoom } from './cup-room.ts';
import { gunNext, isInOtherGun } from './guns.ts';
import { fullFor_mL } from './level.ts';
import { contextOf, faceOf, jobOf, laidOn, type Moment, materialOf, nextCoat } from './moment.ts';
import { pending } from './order.ts';
import { hasPot } from './pours.ts';

/** The paint that a face wants: in the cup, in a pot, or still to be mixed. */

export type PaintStep =
	| {
			kind: 'empty';
			why: 'too-old' | 'short-lived' | 'other-material' | 'other-mix' | 'other-gun' | 'stood-too-long';
	  }
	| { kind: 'mix'; face: string }
	| { kind: 'resume'; batch: string }
	| { kind: 'load'; batch: string; to_mL: number; leaned: boolean; gun: string | undefined }
	| { kind: 'wait'; face: string; due: number; why: 'stand' };

/** Less than this is not worth a stop at the gun, mL: neither poured, nor left behind in a pot. This project's own choice. */
const leastPoured_mL = 50;

const pot_mL = ({ state }: Moment, letter: string): number => state.book.batches.get(letter)?.pot_mL ?? 0;

/** Pots whose paint outlasts the face that comes next: enough of it for that face, or to be worth the pouring. */
const potsFor = (moment: Moment, id: string): string[] => {
	const { spray_s } = wantedFor(moment, id);
	const least_mL = Math.min(leastPoured_mL, levelFor_mL(moment, [id]) - moment.state.book.cup_mL);
	return potsOf(moment, nextCoat(moment, id)).filter(
		letter => lifeLeft_s(moment, letter) > spray_s && pot_mL(moment, letter) >= least_mL,
	);
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

/** What each face of the rest of a coat takes, mL. */
const wantedByRest_mL = (moment: Moment, id: string): number[] =>
	restOfCoat(moment, id).map(face => wantedFor(moment, face).volume_mL);

type InCup = Pick<Book, 'cupSince' | 'levelSince'>;

const nothing: InCup = { cupSince: emptyCup, levelSince: emptyCup };

/** What the gun holds for a coat, by its count; nothing where it holds other paint, or dead paint. */
function inCup(moment: Moment, coat: PlannedCoat): InCup {
	const { cup } = contextOf(moment);
	const isMine = cup.length > 0 && cup.every(letter => isMixedFor(moment, letter, coat));
	return isMine && !isInOtherGun(moment, coat) && cupLife_s(moment) > 0 ? moment.state.book : nothing;
}

/** Paint, mixed and alive, that the rest of a coat is short of at the sheet's risk, mL. */
export const paintShort_mL = (moment: Moment, id: string): number =>
	shortOf_mL(moment, id, inCup(moment, nextCoat(moment, id)), potsFor(moment, id));

/** … with these pots: by all that was mixed, and by what the cup was seen to hold and pots that nobody poured from. */
function shortOf_mL(
	moment: Moment,
	id: string,
	{ cupSince, levelSince }: InCup,
	pots: readonly string[],
): number {
	const { batches } = moment.state.book;
	const rest = wantedByRest_mL(moment, id);
	const short = ({ uses, loaded_mL, bursts_mL }: Book['cupSince'], letters: readonly string[]) =>
		fullFor_mL(moment.state.book, nextCoat(moment, id), rest, uses) -
		(loaded_mL - bursts_mL) -
		letters.reduce((sum, letter) => sum + pot_mL(moment, letter), 0);
	const untouched = pots.filter(letter => batches.get(letter)?.poured === false);
	return Math.min(short(cupSince, pots), short(levelSince, untouched));
}

/** Stirring, pouring, straining and timing of a batch, its standing left out, min. This project's own choice. */
const mixing_min = 8;

/** … its standing counted, in the air as last read, min. */
export const mixTakes_min = (moment: Moment, { material }: PlannedCoat): number =>
	standsNow_min(moment, materialOf(moment, material)) + mixing_min;

/** What is in the cup once a batch mixed now is ready: nothing where it has stood too long by then, and is emptied. */
function inCupThen(moment: Moment, coat: PlannedCoat): InCup {
	const flush = gunClock(moment)?.flush ?? Number.POSITIVE_INFINITY;
	return flush <= moment.now.wall + mixTakes_min(moment, coat) * 60_000 ? nothing : inCup(moment, coat);
}

/** Bursts on paper that the rest of a coat asks for, mL. */
function burstsOfRest_mL(moment: Moment, id: string): number {
	const passes = restOfCoat(moment, id).map(face => ({
		face: faceOf(moment, face),
		coat: nextCoat(moment, face),
		count: laidOn(moment, face) + 1,
	}));
	return plannedBursts_mL(withGunOf(jobOf(moment), nextCoat(moment, id).stage), passes);
}

/** … of a full check and one more, mL. */
function checkBursts_mL(moment: Moment, id: string): number {
	const coat = nextCoat(moment, id);
	return firstBursts_mL(withGunOf(jobOf(moment), coat.stage), coat);
}

/** … with these bursts, and what a pot and its strainer keep. */
export function toMix_mL(moment: Moment, id: string): number {
	const short_mL = shortOf_mL(moment, id, inCupThen(moment, nextCoat(moment, id)), potsFor(moment, id));
	return short_mL + burstsOfRest_mL(moment, id) + leftBehind_mL(jobOf(moment));
}

/** After a wait the gun is checked in full anyhow: then is the time to mix what the whole coat is short of, but no bursts alone. */
function mixesAhead(moment: Moment, id: string): boolean {
	const context = contextOf(moment);
	const isShort = paintShort_mL(moment, id) > checkBursts_mL(moment, id);
	return context.gun.matches('fullCheckDue') && !batchInHand(context) && isShort;
}

/** The pot that the cup is filled from: any into an empty cup; another batch only where both outlast the coat. */
function potFor(moment: Moment, id: string): string | undefined {
	const { cup } = contextOf(moment);
	const coat_s = coatTime_s(moment, id);
	const lasts = (letter: string) => Math.min(cupLife_s(moment), lifeLeft_s(moment, letter)) > coat_s;
	return potsFor(moment, id).find(letter => cup.length === 0 || cup.includes(letter) || lasts(letter));
}

/** Paint in the cup of a gun that the face is not sprayed with: that one is cleaned, whatever comes before the coat. */
export const otherGunFirst = (moment: Moment, id: string): PaintStep | null =>
	isInOtherGun(moment, nextCoat(moment, id))
		? { kind: 'empty', why: cupLife_s(moment) > 0 ? 'other-gun' : 'too-old' }
		: null;

const emptied = {
	dead: 'too-old',
	'other-material': 'other-material',
	'other-mix': 'other-mix',
	stood: 'stood-too-long',
	dying: 'short-lived',
} as const;

/** Of the sheet's risk so much is taken where the pot still has paint, which helps no face there. This project's own choice. */
const whilePotHas = 0.1;

/** How full the cup is filled from a pot: as the rest of the coat wants it, or as far as it goes where little would be poured or left. */
function fillTo(moment: Moment, id: string, letter: string): { to_mL: number; leaned: boolean } {
	const { book } = moment.state;
	const { most_mL, leaned } = cupRoom(moment, sprayedFrom(moment, id));
	const all_mL = book.cup_mL + pot_mL(moment, letter);
	const coat = nextCoat(moment, id);
	const risk = riskOf(book.opened.sheet) * whilePotHas;
	const wants_mL =
		fullFor_mL(book, coat, wantedByRest_mL(moment, id), noUse, risk) + burstsOfRest_mL(moment, id);
	const isLittle = Math.min(wants_mL - book.cup_mL, all_mL - wants_mL) < leastPoured_mL;
	const to_mL = Math.min(most_mL, isLittle ? all_mL : wants_mL);
	return { to_mL, leaned: leaned && to_mL === most_mL };
}

/** The gun is checked anyhow: in full, and the cup is short of the rest of the coat, or for a face that its bursts make it short of. */
function isTimeToFill(moment: Moment, id: string): boolean {
	const { cup_mL } = moment.state.book;
	const coat = nextCoat(moment, id);
	if (contextOf(moment).gun.matches('fullCheckDue'))
		return shortOf_mL(moment, id, inCup(moment, coat), []) > 0;
	const isChecked = stopsAt(moment, id).some(({ by }) => by === 'gun');
	return isChecked && cup_mL < levelFor_mL(moment, [id]) + checkBursts_mL(moment, id);
}

/** Gun and paint for a face: nothing where the cup holds what it wants, and nothing worth it can be poured or mixed while the gun is checked. */
export function paintFor(moment: Moment, id: string): PaintStep | null {
	const other = otherGunFirst(moment, id);
	if (other) return other;
	const stop = stopsAt(moment, id).find(one => one.by === 'cup');
	const short = stop?.is === 'empty' || stop?.is === 'short';
	if (stop && stop.is !== 'empty' && stop.is !== 'short') return { kind: 'empty', why: emptied[stop.is] };
	const batch = short || isTimeToFill(moment, id) ? potFor(moment, id) : undefined;
	const gun = gunNext(moment, id).called;
	const fill =
		batch === undefined ? null : { kind: 'load' as const, batch, gun, ...fillTo(moment, id, batch) };
	if (fill && (short || fill.to_mL - moment.state.book.cup_mL >= leastPoured_mL)) return fill;
	if (!short && !mixesAhead(moment, id)) return null;
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
