import { batchInHand } from '../../machines/day-context.ts';
import type { PlannedCoat } from '../job/job.ts';
import { coatsBehind } from '../plan/coats-behind.ts';
import type { Pass } from '../plan/gun.ts';
import {
	type Bench,
	batchFor_mL,
	type Coming,
	isMixDue,
	mixing_min,
	type PaintAct,
	paintAct,
	toMix_mL,
	workOn_s as workWith_s,
} from '../plan/paint-rule.ts';
import {
	cupLife_s,
	gunClock,
	isMixedFor,
	lifeLeft_s,
	livesNow_h,
	potsOf,
	shopOf,
	standsNow_min,
	stoodAt,
	stopsAt,
	waitEnds,
	wantedFor,
} from './allowed.ts';
import { turnsFluid } from './fluid.ts';
import { gunNext, isInOtherGun } from './guns.ts';
import {
	contextOf,
	faceBook,
	faceOf,
	jobOf,
	laidOn,
	type Moment,
	materialOf,
	nextCoat,
	unitsOf,
} from './moment.ts';
import { passesBehind, pending } from './order.ts';
import { hasPot } from './pours.ts';
import { takes } from './takes.ts';

/** The paint that a face wants: in the cup, in a pot, or still to be mixed. */

export type PaintStep =
	| Exclude<PaintAct, { kind: 'mix' | 'load' }>
	| { kind: 'empty'; why: 'other-gun' }
	| (Extract<PaintAct, { kind: 'load' }> & { gun: string | undefined })
	| { kind: 'mix'; face: string }
	| { kind: 'resume'; batch: string }
	| { kind: 'wait'; face: string; due: number; why: 'stand' };

/** What a face takes with the walk, the turns and the checks around it, s. */
export const workOn_s = (moment: Moment, id: string): number => workWith_s(wantedFor(moment, id));

const passOf = (moment: Moment, id: string): Pass => ({
	face: faceOf(moment, id),
	coat: nextCoat(moment, id),
	count: laidOn(moment, id) + 1,
});

/** What a face wants of its next coat. */
function comingOn(moment: Moment, id: string): Coming {
	const { volume_mL, spray_s } = wantedFor(moment, id);
	return { pass: passOf(moment, id), wants_mL: volume_mL, spray_s };
}

/** … and the others that still get that coat, in the order in force. */
function comingFrom(moment: Moment, id: string): Bench['coming'] {
	const { stage, ofStage } = nextCoat(moment, id);
	const others = pending(moment).filter(({ face }) => {
		const coat = nextCoat(moment, face);
		return face !== id && coat.stage === stage && coat.ofStage[0] === ofStage[0];
	});
	return [comingOn(moment, id), ...others.map(({ face }) => comingOn(moment, face))];
}

/** What a later coat of a face takes. */
function comingLater({ state }: Moment, pass: Pass): Coming {
	const { volume_mL, spray_s } = takes(state.book.opened, pass.coat);
	return { pass, wants_mL: volume_mL, spray_s };
}

/** Whether a coat is on some face already, or a part of it. */
const isBegun = (moment: Moment, { stage, ofStage }: PlannedCoat): boolean =>
	jobOf(moment).faces.some(({ id, coats }) => {
		const { part, laid } = faceBook(moment, id);
		const on = coats[(laid.at(-1)?.coat ?? 0) - (part ? 0 : 1)];
		return on?.stage === stage && on.ofStage[0] >= ofStage[0];
	});

/** Until a batch mixed now has stood and can be sprayed, in the air as last read, min. */
export const mixTakes_min = (moment: Moment, { material }: PlannedCoat): number =>
	standsNow_min(moment, materialOf(moment, material)) + mixing_min;

/** The bench as a face finds it. */
function benchAt(moment: Moment, id: string): Bench {
	const { book } = moment.state;
	const { cup, gun } = contextOf(moment);
	const coat = nextCoat(moment, id);
	const stops = stopsAt(moment, id);
	const isChecked = stops.some(({ by }) => by === 'gun') || turnsFluid(moment, id);
	const flush = gunClock(moment)?.flush ?? Number.POSITIVE_INFINITY;
	return {
		...shopOf(book, coat),
		units: unitsOf(moment),
		coming: comingFrom(moment, id),
		isBegun: isBegun(moment, coat),
		later: () => {
			const surface_C = book.airs.at(-1)?.surfaceC ?? jobOf(moment).shop.air_C;
			const behind = passesBehind(moment, coat);
			return coatsBehind(jobOf(moment), passOf(moment, id), behind, surface_C, pass =>
				comingLater(moment, pass),
			);
		},
		cup: {
			...{ cup_mL: book.cup_mL, cupSince: book.cupSince, levelSince: book.levelSince, letters: cup },
			isMine:
				cup.length > 0 &&
				!isInOtherGun(moment, coat) &&
				cup.every(letter => isMixedFor(moment, letter, coat)),
			life_s: cupLife_s(moment),
			fresh_s: (flush - moment.now.wall) / 1000,
		},
		pots: potsOf(moment, coat).map(letter => {
			const { pot_mL, poured } = book.batches.get(letter) ?? { pot_mL: 0, poured: true };
			return { letter, left_mL: pot_mL ?? 0, untouched: !poured, life_s: lifeLeft_s(moment, letter) };
		}),
		batch: {
			life_s: livesNow_h(moment, materialOf(moment, coat.material)) * 3600,
			takes_s: Math.max(
				mixTakes_min(moment, coat) * 60,
				((waitEnds(moment, id) ?? moment.now.wall) - moment.now.wall) / 1000,
			),
		},
		check: gun.matches('fullCheckDue') ? 'full' : isChecked ? 'short' : null,
		stop: stops.find(one => one.by === 'cup')?.is ?? null,
	};
}

/** Whether the whole of a face's coat is short of paint, so that a batch is mixed for it in the wait before. */
export const isMixWanted = (moment: Moment, id: string): boolean =>
	!batchInHand(contextOf(moment)) && isMixDue(benchAt(moment, id));

/** What is mixed for a face, mL: what its coat is short of; and that, or the least above it that the marks of the pot give. */
export function amountFor_mL(moment: Moment, id: string): { wanted_mL: number; given_mL: number | null } {
	const bench = benchAt(moment, id);
	return { wanted_mL: toMix_mL(bench), given_mL: batchFor_mL(bench) };
}

/** Paint in the cup of a gun that the face is not sprayed with: that one is cleaned, whatever comes before the coat. */
export const otherGunFirst = (moment: Moment, id: string): PaintStep | null =>
	isInOtherGun(moment, nextCoat(moment, id))
		? { kind: 'empty', why: cupLife_s(moment) > 0 ? 'other-gun' : 'too-old' }
		: null;

/** Gun and paint for a face: nothing where the cup holds what it wants, and nothing worth it can be poured or mixed while the gun is checked. */
export function paintFor(moment: Moment, id: string): PaintStep | null {
	const other = otherGunFirst(moment, id);
	if (other) return other;
	const bench = benchAt(moment, id);
	const act = paintAct(bench);
	if (act?.kind === 'load') return { ...act, gun: gunNext(moment, id).called };
	if (act?.kind !== 'mix') return act;
	const inHand = batchInHand(contextOf(moment));
	if (!inHand) return { kind: 'mix', face: id };
	if (bench.stop === null) return null;
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
