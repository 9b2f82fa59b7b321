import { riskOf } from '../job/on-work.ts';
import type { UnitSystem } from '../trade/shown.ts';
import { firstBursts_mL, leastBatch_mL, leftBehind_mL, plannedBursts_mL, reducerFor } from './batches.ts';
import { type Counted, type CupCount, fullFor_mL, type Shop, uncounted } from './cup-count.ts';
import type { Pass } from './gun.ts';

/** What is mixed next, and how far the cup is filled: the one rule that the day asks by and the plan plays forward. */

/** A face that still gets this coat: the paint and the time that it wants of it. */
export type Coming = { pass: Pass; wants_mL: number; spray_s: number };

/** Paint for this coat, mixed and alive, outside the gun; `untouched`: nobody poured from it. */
export type Pot = { letter: string; left_mL: number; untouched: boolean; life_s: number };

/** What of the cup stands between a face and its coat. */
export type CupStop = 'dead' | 'other-material' | 'other-mix' | 'stood' | 'dying' | 'empty' | 'short';

/** The paint of a moment, as a face finds it. */
export type Bench = Shop & {
	units: UnitSystem;
	/** What is left of the coat, in order, the face first; whether some of it is sprayed already. */
	coming: readonly [Coming, ...Coming[]];
	isBegun: boolean;
	/** `isMine`: it holds paint for this coat; how long that lives, and until the gun must be flushed, s. */
	cup: CupCount & { letters: readonly string[]; isMine: boolean; life_s: number; fresh_s: number };
	pots: readonly Pot[];
	/** How long a batch mixed now lives, and takes until it is sprayed, s. */
	batch: { life_s: number; takes_s: number };
	/** The check of the gun that is due anyhow. */
	check: 'full' | 'short' | null;
	stop: CupStop | null;
};

export type PaintAct =
	| { kind: 'empty'; why: 'too-old' | 'short-lived' | 'other-material' | 'other-mix' | 'stood-too-long' }
	| { kind: 'mix' }
	| { kind: 'load'; batch: string; to_mL: number; leaned: boolean };

/** Less than this is not worth a stop at the gun, mL: neither poured, nor left behind in a pot. This project's own choice. */
const leastPoured_mL = 50;

/** Less than this is not mixed, mL. This project's own choice. */
export const leastMixed_mL = 50;

/** Of the sheet's risk so much is taken where the pot still has paint, which helps no face there. This project's own choice. */
const whilePotHas = 0.1;

/** Of its life a batch is mixed for so much. This project's own choice. */
const lifeUsed = 0.8;

/** A cup fuller than this spills through its lid when the gun is laid over: common practice, no source. */
const leanedShare = 0.75;

/** Stirring, pouring, straining and timing of a batch, its standing left out, min. This project's own choice. */
export const mixing_min = 8;

/** What a face takes with the walk, the turns and the checks around it, s: three times its spraying. */
export const workOn_s = ({ spray_s }: Pick<Coming, 'spray_s'>): number => spray_s * 3;

/** Faces of the coat that can be sprayed within the life of one batch. */
function restOf({ coming, batch }: Bench): readonly Coming[] {
	let seconds = 0;
	const past = coming.findIndex(one => {
		seconds += workOn_s(one);
		return seconds > batch.life_s * lifeUsed;
	});
	return past < 0 ? coming : coming.slice(0, Math.max(1, past));
}

/** Time until they are sprayed, s. */
const coatTime_s = (bench: Bench): number => restOf(bench).reduce((sum, one) => sum + workOn_s(one), 0);

/** Paint in the gun for some faces of a coat, by the count since some moment. */
const fullOf_mL = (bench: Bench, faces: readonly Coming[], since: Counted, risk?: number): number =>
	fullFor_mL(
		bench,
		bench.coming[0].pass.coat.material,
		faces.map(({ wants_mL }) => wants_mL),
		since.uses,
		risk,
	);

/**
 * Paint, by the count of the cup, from which some faces of one coat may be sprayed: it runs short inside one no oftener than
 * the sheet's risk; nobody mixes for the bursts of one more check. A full cup, less these, is as much as there can be.
 */
export function cupLevel_mL(
	shop: Shop,
	{ cup_mL, levelSince }: CupCount,
	{ coat }: Pass,
	wants_mL: readonly number[],
): number {
	const inGun_mL = fullFor_mL(shop, coat.material, wants_mL, levelSince.uses);
	const checks_mL = firstBursts_mL(shop.job, coat);
	const short_mL = inGun_mL - (levelSince.loaded_mL - levelSince.bursts_mL) - checks_mL;
	const most_mL = Math.max(0, shop.job.gun.cup_mL - checks_mL);
	return Math.min(most_mL, cup_mL + short_mL);
}

const levelForNext_mL = (bench: Bench): number =>
	cupLevel_mL(bench, bench.cup, bench.coming[0].pass, [bench.coming[0].wants_mL]);

/** Pots whose paint outlasts the face that comes next: enough of it for that face, or to be worth the pouring. */
function potsFor(bench: Bench): readonly Pot[] {
	const least_mL = Math.min(leastPoured_mL, levelForNext_mL(bench) - bench.cup.cup_mL);
	return bench.pots.filter(({ life_s, left_mL }) => life_s > bench.coming[0].spray_s && left_mL >= least_mL);
}

const sumOf_mL = (pots: readonly Pot[]): number => pots.reduce((sum, { left_mL }) => sum + left_mL, 0);

const emptied = { cupSince: uncounted, levelSince: uncounted };

/** What the cup counts for over the rest of a coat that begins so much later: nothing where it does not last until that is on. */
function countedIn(bench: Bench, later_s: number): Pick<CupCount, 'cupSince' | 'levelSince'> {
	const { cup } = bench;
	const lasts = cup.isMine && cup.life_s > later_s + coatTime_s(bench) && cup.fresh_s > later_s;
	return lasts ? cup : emptied;
}

/**
 * What the rest of a coat is short of at the sheet's risk, mL: by all that was mixed; by what the cup was seen to hold and
 * pots that nobody poured from; or as if the cup were empty, for it holds no less than nothing.
 */
function shortOf_mL(
	bench: Bench,
	{ cupSince, levelSince }: Pick<CupCount, 'cupSince' | 'levelSince'>,
	pots: readonly Pot[],
): number {
	const rest = restOf(bench);
	const short = (since: Counted, of: readonly Pot[]) =>
		fullOf_mL(bench, rest, since) - (since.loaded_mL - since.bursts_mL) - sumOf_mL(of);
	const untouched = pots.filter(pot => pot.untouched);
	return Math.min(short(cupSince, pots), short(levelSince, untouched), short(uncounted, untouched));
}

/** Pots that last until the rest of a coat is on that begins so much later. */
const lastingPots = (bench: Bench, later_s: number): Pot[] =>
	potsFor(bench).filter(({ life_s }) => life_s > later_s + coatTime_s(bench));

/**
 * What the whole of a coat is short of is worth a batch before its first face, where the gun is checked in full anyhow: no bursts
 * alone are, nor inside it what the odds of a batch just mixed for it leave open.
 */
export const isMixDue = (bench: Bench): boolean =>
	!bench.isBegun &&
	shortOf_mL(bench, countedIn(bench, 0), lastingPots(bench, 0)) >
		firstBursts_mL(bench.job, bench.coming[0].pass.coat);

const burstsOfRest_mL = (bench: Bench): number =>
	plannedBursts_mL(
		bench.job,
		restOf(bench).map(({ pass }) => pass),
	);

/** What is mixed for the rest of a coat, mL: what it is short of, its bursts on paper, and what pot and strainer keep; rounded up to 10 mL. */
export function toMix_mL(bench: Bench): number {
	const { takes_s } = bench.batch;
	const short_mL = shortOf_mL(bench, countedIn(bench, takes_s), lastingPots(bench, takes_s));
	const wanted_mL = short_mL + burstsOfRest_mL(bench) + leftBehind_mL(bench.job);
	return Math.max(leastMixed_mL, Math.ceil(wanted_mL / 10 - 1e-6) * 10);
}

/** … or the least above it whose parts the marks of the pot give; null: none does. */
export function batchFor_mL(bench: Bench): number | null {
	const { coat } = bench.coming[0].pass;
	const material = bench.job.materials[coat.material];
	const wanted_mL = toMix_mL(bench);
	if (!material) return wanted_mL;
	return leastBatch_mL(material, reducerFor(bench.job, coat), wanted_mL, bench.units);
}

/** The pot that the cup is filled from: any into an empty cup; another batch only where both outlast the coat. */
function potFor(bench: Bench): Pot | undefined {
	const { letters, life_s } = bench.cup;
	const lasts = (pot: Pot) => Math.min(life_s, pot.life_s) > coatTime_s(bench);
	return potsFor(bench).find(pot => letters.length === 0 || letters.includes(pot.letter) || lasts(pot));
}

/**
 * How full the cup may be: as much as it takes, less where the gun is laid over for a face before the rest is sprayed; never
 * less than the next face wants at the sheet's risk.
 */
function cupRoom(bench: Bench): { most_mL: number; leaned: boolean } {
	const { cup_mL, cupKind } = bench.job.gun;
	const whole = { most_mL: cup_mL, leaned: false };
	if (cupKind === 'pressure') return whole;
	let sprayed_mL = 0;
	const room = restOf(bench).reduce((least, { pass, wants_mL }) => {
		const laidOver_mL = pass.face.tilt === 0 ? Number.POSITIVE_INFINITY : sprayed_mL + leanedShare * cup_mL;
		sprayed_mL += wants_mL;
		return laidOver_mL < least.most_mL ? { most_mL: laidOver_mL, leaned: true } : least;
	}, whole);
	const wanted_mL = Math.min(cup_mL, fullOf_mL(bench, [bench.coming[0]], uncounted));
	return { ...room, most_mL: Math.max(room.most_mL, wanted_mL) };
}

/** How full the cup is filled from a pot: as the rest of the coat wants it, or as far as it goes where little would be poured or left. */
function fillTo(bench: Bench, { left_mL }: Pot): { to_mL: number; leaned: boolean } {
	const { cup_mL } = bench.cup;
	const { most_mL, leaned } = cupRoom(bench);
	const all_mL = cup_mL + left_mL;
	const risk = riskOf(bench.job) * whilePotHas;
	const wants_mL = fullOf_mL(bench, restOf(bench), uncounted, risk) + burstsOfRest_mL(bench);
	const isLittle = Math.min(wants_mL - cup_mL, all_mL - wants_mL) < leastPoured_mL;
	const to_mL = Math.min(most_mL, isLittle ? all_mL : wants_mL);
	return { to_mL, leaned: leaned && to_mL === most_mL };
}

/** The gun is checked anyhow: in full, and the cup is short of the rest of the coat, or for a face that its bursts make it short of. */
function isTimeToFill(bench: Bench): boolean {
	const { check, cup, coming } = bench;
	if (check === 'full') return shortOf_mL(bench, cup.isMine ? cup : emptied, []) > 0;
	return (
		check !== null && cup.cup_mL < levelForNext_mL(bench) + firstBursts_mL(bench.job, coming[0].pass.coat)
	);
}

const whyEmptied = {
	dead: 'too-old',
	'other-material': 'other-material',
	'other-mix': 'other-mix',
	stood: 'stood-too-long',
	dying: 'short-lived',
} as const;

/** What is done next about a face's paint; null: the cup holds what it wants, and nothing worth it can be poured or mixed while the gun is checked. */
export function paintAct(bench: Bench): PaintAct | null {
	const { stop, cup } = bench;
	const isShort = stop === 'empty' || stop === 'short';
	if (stop !== null && stop !== 'empty' && stop !== 'short') return { kind: 'empty', why: whyEmptied[stop] };
	const pot = isShort || isTimeToFill(bench) ? potFor(bench) : undefined;
	const fill = pot && { kind: 'load' as const, batch: pot.letter, ...fillTo(bench, pot) };
	if (fill && (isShort || fill.to_mL - cup.cup_mL >= leastPoured_mL)) return fill;
	if (!isShort && !(bench.check === 'full' && isMixDue(bench))) return null;
	if (stop === 'short' && cup.life_s <= coatTime_s(bench)) return { kind: 'empty', why: 'short-lived' };
	return { kind: 'mix' };
}
