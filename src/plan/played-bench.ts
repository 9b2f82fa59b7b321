import { bursts_mL } from '../film/losses.ts';
import { lossesOf } from '../job/on-work.ts';
import { standsAt_min } from '../job/process-clocks.ts';
import { type Cup, leftBehind_mL, lifeOf_s, reducerFor } from './batches.ts';
import { coatsBehind } from './coats-behind.ts';
import { burstFrom, type CupCount, emptyCup, filledBy, type Shop, usedFrom } from './cup-count.ts';
import { type GunState, gunFor, type Pass } from './gun.ts';
import { paintOf_mL, sprayOf_s } from './pace.ts';
import {
	type Bench,
	batchFor_mL,
	type CupStop,
	cupLevel_mL,
	isMixDue,
	mixing_min,
	paintAct,
	toMix_mL,
} from './paint-rule.ts';
import { flowOf_mL_per_min, hasBurst, type SecondFeature, secondFeature } from './second-feature.ts';

/** The bench as a plan plays it: cup, pots and checks, counted as the day counts them. Seconds as in the plan. */

/** A batch of the plan, or one that was there before it; `pass`: the one it was mixed for. */
export type Mixed = {
	letter: string;
	pass: Pass;
	make_mL: number;
	pot_mL: number;
	untouched: boolean;
	mix_s: number;
	dies_s: number;
};

export type PlayedBench = {
	batches: readonly Mixed[];
	letters: readonly string[];
	count: CupCount;
	/** When paint last moved in the gun. */
	wet_s: number;
	/** The check of the gun that is due, and the second feature that was asked for last, or the seed of a day. */
	check: 'full' | 'short' | null;
	second: SecondFeature | number;
	gun: GunState | null;
	flow_mL_per_min: number | null;
};

const shut: PlayedBench = {
	...{ batches: [], letters: [], count: emptyCup, wet_s: Number.NEGATIVE_INFINITY },
	...{ check: 'full', second: 0, gun: null, flow_mL_per_min: null },
};

/** The bench before the first pass of a plan, with what is in the gun's cup and in pots beside it. */
export function benchWith(
	cup: Cup | null,
	pots: readonly Cup[],
	pass: Pass | undefined,
	at_s: number,
): PlayedBench {
	if (!pass) return shut;
	const batches = pots.map(({ letter, left_mL, dies_s }) => ({
		...{ letter, pass, make_mL: left_mL, pot_mL: left_mL, untouched: true, mix_s: at_s, dies_s },
	}));
	if (!cup) return { ...shut, batches };
	const { letter, left_mL, dies_s } = cup;
	const its = batches.find(one => one.letter === letter) ?? { pot_mL: 0 };
	return {
		...shut,
		batches: [
			{ letter, pass, make_mL: left_mL, ...its, untouched: false, mix_s: at_s, dies_s },
			...batches.filter(one => one.letter !== letter),
		],
		letters: [letter],
		count: filledBy(emptyCup, { volume_mL: left_mL, to_mL: left_mL }, true),
		wet_s: at_s,
	};
}

/** The gun cleaned for the night, and what is left of the paint poured away. */
export const cleaned = ({ second }: PlayedBench): PlayedBench => ({ ...shut, second });

const isMixedFor = ({ job }: Shop, { pass }: Mixed, { coat }: Pass): boolean =>
	pass.coat.material === coat.material && reducerFor(job, pass.coat) === reducerFor(job, coat);

const inCup = ({ batches, letters }: PlayedBench): Mixed[] =>
	batches.filter(({ letter }) => letters.includes(letter));

/** When the oldest paint in the cup dies. */
export const cupDies_s = (bench: PlayedBench): number =>
	Math.min(...inCup(bench).map(({ dies_s }) => dies_s));

function flushAt_s({ job }: Shop, bench: PlayedBench): number {
	const [first] = inCup(bench);
	const material = first && job.materials[first.pass.coat.material];
	return material ? bench.wet_s + material.flush_min * 60 : Number.POSITIVE_INFINITY;
}

function stopAt(shop: Shop, bench: PlayedBench, pass: Pass, at_s: number): CupStop | null {
	const mine = inCup(bench);
	const dies_s = cupDies_s(bench);
	if (mine.length === 0) return 'empty';
	if (dies_s <= at_s) return 'dead';
	if (mine.some(one => one.pass.coat.material !== pass.coat.material)) return 'other-material';
	if (mine.some(one => !isMixedFor(shop, one, pass))) return 'other-mix';
	if (flushAt_s(shop, bench) <= at_s) return 'stood';
	if (dies_s <= at_s + sprayOf_s(pass, shop.rates)) return 'dying';
	const level_mL = cupLevel_mL(shop, bench.count, pass, [paintOf_mL(pass, shop.rates)]);
	return bench.count.cup_mL + 1e-6 >= level_mL ? null : 'short';
}

/** Passes of one coat that are still to come, the next first; whether others of it are sprayed already; the passes of the coats behind it. */
export type ToCome = { coming: readonly [Pass, ...Pass[]]; isBegun: boolean; behind: readonly Pass[] };

function seen(shop: Shop, bench: PlayedBench, { coming, isBegun, behind }: ToCome, at_s: number): Bench {
	const { job, rates } = shop;
	const [pass, ...others] = coming;
	const wants = (one: Pass) => ({
		...{ pass: one, wants_mL: paintOf_mL(one, rates), spray_s: sprayOf_s(one, rates) },
	});
	const material = job.materials[pass.coat.material];
	const standing_min = material ? standsAt_min(material, job.shop.air_C) : 0;
	const alive = bench.batches.filter(one => one.dies_s > at_s && isMixedFor(shop, one, pass));
	return {
		...{ ...shop, units: job.units, coming: [wants(pass), ...others.map(wants)], isBegun },
		later: () => coatsBehind(job, pass, behind, job.shop.air_C, wants),
		cup: {
			...{ ...bench.count, letters: bench.letters },
			isMine: bench.letters.length > 0 && inCup(bench).every(one => isMixedFor(shop, one, pass)),
			life_s: cupDies_s(bench) - at_s,
			fresh_s: flushAt_s(shop, bench) - at_s,
		},
		pots: alive
			.filter(({ pot_mL }) => pot_mL > 0.5)
			.map(({ letter, pot_mL, untouched, dies_s }) => ({
				...{ letter, left_mL: pot_mL, untouched, life_s: dies_s - at_s },
			})),
		batch: { life_s: lifeOf_s(job, pass.coat.material), takes_s: (standing_min + mixing_min) * 60 },
		check: bench.check,
		stop: stopAt(shop, bench, pass, at_s),
	};
}

function fill(bench: PlayedBench, letter: string, to_mL: number, at_s: number): PlayedBench {
	const refill = bench.letters.includes(letter);
	const pot_mL = bench.batches.find(one => one.letter === letter)?.pot_mL ?? 0;
	const volume_mL = Math.min(pot_mL, Math.max(1, to_mL - bench.count.cup_mL));
	const batches = bench.batches.map(one =>
		one.letter === letter ? { ...one, pot_mL: one.pot_mL - volume_mL, untouched: false } : one,
	);
	const isAllSeen = !batches.some(one => !one.untouched && one.pot_mL > 0.5);
	return {
		...bench,
		...{ batches, letters: refill ? bench.letters : [...bench.letters, letter], wet_s: at_s },
		count: filledBy(bench.count, { volume_mL, to_mL }, isAllSeen),
		check: refill && bench.check !== 'full' ? 'short' : 'full',
	};
}

/** What is done about the paint of a pass: the bench after it, the batches mixed, and how often the cup is filled. */
export type PaintDone = { bench: PlayedBench; mixed: readonly Mixed[]; fills: number };

/** A batch mixed as the bench stands. */
function mix(
	shop: Shop,
	{ bench, mixed, fills }: PaintDone,
	view: Bench,
	at_s: number,
	letter: string,
): PaintDone {
	const make_mL = batchFor_mL(view) ?? toMix_mL(view);
	const pot_mL = Math.max(0, make_mL - leftBehind_mL(shop.job));
	const batch = { letter, pass: view.coming[0].pass, make_mL, pot_mL, untouched: true, mix_s: at_s };
	const fresh = { ...batch, dies_s: at_s + view.batch.life_s };
	return {
		bench: { ...bench, batches: [...bench.batches, fresh], check: 'full' },
		mixed: [...mixed, fresh],
		fills,
	};
}

/** What is mixed in the wait before a pass, for the whole of its coat. */
export function mixedInWait(
	shop: Shop,
	bench: PlayedBench,
	toCome: ToCome,
	at_s: number,
	letter: string,
): PaintDone {
	const none = { bench, mixed: [], fills: 0 };
	const view = seen(shop, bench, toCome, at_s);
	return isMixDue(view) ? mix(shop, none, view, at_s, letter) : none;
}

/**
 * Plays the one rule until the cup holds what a pass wants. A batch that dies before the pass is done is mixed once all the
 * same, and sprayed from: `judge` of the timeline tells of it.
 * @param mixOne_s what a batch takes from the first stirring until it has stood
 * @param letterOf letter of the nth batch mixed for it, from 0
 */
export function paintFor(
	shop: Shop,
	before: PaintDone,
	toCome: ToCome,
	from_s: number,
	mixOne_s: number,
	letterOf: (nth: number) => string,
): PaintDone {
	let done = before;
	for (;;) {
		const { bench, mixed, fills } = done;
		const at_s = from_s + (mixed.length - before.mixed.length) * mixOne_s;
		const view = seen(shop, bench, toCome, at_s);
		const act = paintAct(view);
		if (act === null) return done;
		const fresh = mixed.at(-1);
		if (act.kind === 'load')
			done = { ...done, bench: fill(bench, act.batch, act.to_mL, at_s), fills: fills + 1 };
		else if (fresh && (act.kind === 'mix' || fills > 0)) {
			if (fills > 0) return done;
			return { ...done, bench: fill(bench, fresh.letter, shop.job.gun.cup_mL, at_s), fills: 1 };
		} else if (act.kind === 'mix') done = mix(shop, done, view, at_s, letterOf(mixed.length));
		else
			done = { ...done, bench: { ...bench, letters: [], count: emptyCup, wet_s: shut.wet_s, check: 'full' } };
	}
}

/** The gun turned and checked for a pass: the bursts on paper that its check sprays. */
export function checkedFor({ job }: Shop, bench: PlayedBench, pass: Pass): PlayedBench {
	const gun = gunFor(pass);
	const flow_mL_per_min = flowOf_mL_per_min(job, pass);
	const set = { gun, flow_mL_per_min, check: null };
	if (bench.check === null) return { ...bench, ...set };
	const second =
		bench.check === 'full'
			? secondFeature(bench.second, {
					turnsHorns: bench.gun?.horns !== gun.horns,
					setsFan: bench.gun?.fanHeight_mm !== gun.fanHeight_mm,
					isWide: pass.coat.stroke !== 'side-to-side',
				})
			: undefined;
	const bursts = bursts_mL(lossesOf(job.gun), flow_mL_per_min, hasBurst(second) ? 2 : 1);
	return { ...bench, ...set, second: second ?? bench.second, count: burstFrom(bench.count, bursts) };
}

/** The check that a turn, the knob or its age asks for, where none is due. */
export function checkDue({ job }: Shop, bench: PlayedBench, pass: Pass, isAged: boolean): PlayedBench {
	const { gun, flow_mL_per_min, check } = bench;
	const wanted = gunFor(pass);
	const turns = gun?.horns !== wanted.horns || gun?.fanHeight_mm !== wanted.fanHeight_mm;
	const knob = flow_mL_per_min !== flowOf_mL_per_min(job, pass);
	return { ...bench, check: check ?? (turns || knob || isAged ? 'short' : null) };
}

/** A pass sprayed to its end. */
export const sprayed = ({ rates }: Shop, bench: PlayedBench, pass: Pass, at_s: number): PlayedBench => ({
	...bench,
	count: usedFrom(bench.count, paintOf_mL(pass, rates)),
	wet_s: at_s,
});
