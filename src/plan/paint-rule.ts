import { riskOf } from '../job/on-work.ts';
import type { UnitSystem } from '../trade/shown.ts';
import { firstBursts_mL, leastBatch_mL, leftBehind_mL, plannedBursts_mL, reducerFor } from './batches.ts';
import { type Counted, type CupCount, fullFor_mL, type Shop, uncounted } from './cup-count.ts';
import type { Pass } from './gun.ts';

/** What is mixed next, and how far the cup is filled: the one rule that the day asks by and the plan plays forward. */

/** A face that still gets this coat: the paint and the time that it wants of it. */
export type Coming = { pass: Pass; wants_mL: number; spray_s: number };

/** A coat of the stage behind it that the same mix serves: its faces in order, and the wait before it, s. */
export type Later = { faces: readonly Coming[]; wait_s: number };

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
	later(): readonly Later[];
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

/** Of its life a batch is mixed for so much of one coat, and for so much of the coats behind it. This project's own choices. */
const lifeUsed = { byCoat: 0.8, byOthers: 0.5 };

/** Between a wait and the first stroke the gun stands so much longer, s. This project's own choice. */
const untilStroke_s = 300;

/** What a pour may stray by, as a share of a batch, and what is keyed all the same. Source: the day's own rule of pours. */
const pourStrays = 0.02;

/** A cup fuller than this spills through its lid when the gun is laid over: common practice, no source. */
const leanedShare = 0.75;

/** Stirring, pouring, straining and timing of a batch, its standing left out, min. This project's own choice. */
export const mixing_min = 8;

/** What a face takes with the walk, the turns and the checks around it, s: three times its spraying. */
export const workOn_s = ({ spray_s }: Pick<Coming, 'spray_s'>): number => spray_s * 3;

const worksOn_s = (faces: readonly Coming[]): number => faces.reduce((sum, one) => sum + workOn_s(one), 0);

/** Faces of the coat that can be sprayed within the life of one batch, and from the shop's largest pot. */
function restOf(bench: Bench): readonly Coming[] {
	const { coming, batch } = bench;
	let seconds = 0;
	const past = coming.findIndex(one => {
		seconds += workOn_s(one);
		return seconds > batch.life_s * lifeUsed.byCoat;
	});
	let count = past < 0 ? coming.length : Math.max(1, past);
	while (count > 1 && !isInPot(bench, coming.slice(0, count))) count -= 1;
	return count === coming.length ? coming : coming.slice(0, count);
}

/** Time until they are sprayed, s. */
const coatTime_s = (bench: Bench): number => worksOn_s(restOf(bench));

/** What one batch is mixed for, and the time from its first stroke until all of it is on, s. */
type Portion = { faces: readonly Coming[]; time_s: number };

/**
 * What a batch mixed now is mixed for: the rest of the coat, and, whole, each coat behind it that is on by half of the batch's
 * life, where the gun need not be flushed before it, which would throw away what the cup holds. No fewer pots serve them.
 */
function portionOf(bench: Bench): Portion {
	const { batch, coming, job } = bench;
	let faces = restOf(bench);
	let time_s = worksOn_s(faces);
	if (faces.length < coming.length) return { faces, time_s };
	const flush_s = (job.materials[coming[0].pass.coat.material]?.flush_min ?? 0) * 60;
	for (const coat of bench.later()) {
		const all = [...faces, ...coat.faces];
		const on_s = time_s + coat.wait_s + worksOn_s(coat.faces);
		const isOn = batch.takes_s + on_s <= batch.life_s * lifeUsed.byOthers;
		if (!isOn || coat.wait_s + untilStroke_s > flush_s || !isInPot(bench, all)) break;
		[faces, time_s] = [all, on_s];
	}
	return { faces, time_s };
}

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

/** What the cup counts for over some faces that are begun so much later: nothing where it does not last until they are on. */
function countedIn(
	{ cup }: Bench,
	later_s: number,
	{ time_s }: Portion,
): Pick<CupCount, 'cupSince' | 'levelSince'> {
	const lasts = cup.isMine && cup.life_s > later_s + time_s && cup.fresh_s > later_s;
	return lasts ? cup : emptied;
}

/**
 * What some faces are short of at the sheet's risk, mL: by all that was mixed; by what the cup was seen to hold and
 * pots that nobody poured from; or as if the cup were empty, for it holds no less than nothing.
 */
function shortOf_mL(
	bench: Bench,
	faces: readonly Coming[],
	{ cupSince, levelSince }: Pick<CupCount, 'cupSince' | 'levelSince'>,
	pots: readonly Pot[],
): number {
	const short = (since: Counted, of: readonly Pot[]) =>
		fullOf_mL(bench, faces, since) - (since.loaded_mL - since.bursts_mL) - sumOf_mL(of);
	const untouched = pots.filter(pot => pot.untouched);
	return Math.min(short(cupSince, pots), short(levelSince, untouched), short(uncounted, untouched));
}

/** Pots that last until some faces are on that are begun so much later. */
const lastingPots = (bench: Bench, later_s: number, { time_s }: Portion): Pot[] =>
	potsFor(bench).filter(({ life_s }) => life_s > later_s + time_s);

/**
 * What the whole of a coat is short of is worth a batch before its first face, where the gun is checked in full anyhow: no bursts
 * alone are, nor what the odds of a batch mixed for it, and the pours of that, leave open.
 */
export function isMixDue(bench: Bench): boolean {
	if (bench.isBegun) return false;
	const coat = { faces: restOf(bench), time_s: coatTime_s(bench) };
	const [counted, pots] = [countedIn(bench, 0, coat), lastingPots(bench, 0, coat)];
	const strays_mL = pourStrays * (counted.cupSince.loaded_mL + sumOf_mL(pots));
	const open_mL = firstBursts_mL(bench.job, bench.coming[0].pass.coat) + strays_mL;
	return shortOf_mL(bench, coat.faces, counted, pots) > open_mL;
}

const burstsOf_mL = ({ job }: Bench, faces: readonly Coming[]): number =>
	plannedBursts_mL(
		job,
		faces.map(({ pass }) => pass),
	);

/** A batch that covers a shortage of some faces, mL: with their bursts on paper and what pot and strainer keep, rounded up to 10 mL. */
function batchOver_mL(bench: Bench, faces: readonly Coming[], short_mL: number): number {
	const wanted_mL = short_mL + burstsOf_mL(bench, faces) + leftBehind_mL(bench.job);
	return Math.max(leastMixed_mL, Math.ceil(wanted_mL / 10 - 1e-6) * 10);
}

/** A batch for some faces into an empty cup is not more than the shop's largest pot holds. */
function isInPot(bench: Bench, faces: readonly Coming[]): boolean {
	const { pot_mL } = bench.job.shop;
	if (pot_mL === undefined) return true;
	const wanted_mL = batchOver_mL(bench, faces, fullOf_mL(bench, faces, uncounted));
	return (givenFor_mL(bench, wanted_mL) ?? wanted_mL) <= pot_mL;
}

/** What is mixed, mL: what the faces that a batch is mixed for are short of. */
export function toMix_mL(bench: Bench): number {
	const { takes_s } = bench.batch;
	const portion = portionOf(bench);
	const [counted, pots] = [countedIn(bench, takes_s, portion), lastingPots(bench, takes_s, portion)];
	return batchOver_mL(bench, portion.faces, shortOf_mL(bench, portion.faces, counted, pots));
}

/** The least batch no smaller than one whose parts the marks of the pot give; null: none does. */
function givenFor_mL({ job, coming, units }: Bench, wanted_mL: number): number | null {
	const { coat } = coming[0].pass;
	const material = job.materials[coat.material];
	return material ? leastBatch_mL(material, reducerFor(job, coat), wanted_mL, units) : wanted_mL;
}

/** … of what is mixed. */
export const batchFor_mL = (bench: Bench): number | null => givenFor_mL(bench, toMix_mL(bench));

/** Whether a pot may be poured to what is in the cup: neither makes the other die before the coat is on, nor the pot before what it was mixed for. */
function joins(bench: Bench, { letter, life_s }: Pot): boolean {
	const { cup } = bench;
	const coat_s = coatTime_s(bench);
	if (!cup.letters.includes(letter) && Math.min(life_s, cup.life_s) <= coat_s) return false;
	if (cup.life_s >= life_s) return true;
	const { time_s } = portionOf(bench);
	return cup.life_s > time_s || (cup.life_s > coat_s && life_s <= time_s);
}

/** The pot that the cup is filled from: any into an empty one. */
const potFor = (bench: Bench): Pot | undefined =>
	potsFor(bench).find(pot => bench.cup.letters.length === 0 || joins(bench, pot));

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
	const rest = restOf(bench);
	const wants_mL = fullOf_mL(bench, rest, uncounted, risk) + burstsOf_mL(bench, rest);
	const isLittle = Math.min(wants_mL - cup_mL, all_mL - wants_mL) < leastPoured_mL;
	const to_mL = Math.min(most_mL, isLittle ? all_mL : wants_mL);
	return { to_mL, leaned: leaned && to_mL === most_mL };
}

/** The gun is checked anyhow: in full, and the cup is short of the rest of the coat, or for a face that its bursts make it short of. */
function isTimeToFill(bench: Bench): boolean {
	const { check, cup, coming } = bench;
	if (check === 'full') return shortOf_mL(bench, restOf(bench), cup.isMine ? cup : emptied, []) > 0;
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
	if (stop === 'short' && cup.life_s <= portionOf(bench).time_s) return { kind: 'empty', why: 'short-lived' };
	return { kind: 'mix' };
}
