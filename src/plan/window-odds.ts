import { lateOdds } from '../film/odds.ts';
import type { Job } from '../job/job.ts';
import type { DayPlan } from './day-plan.ts';
import type { Laid, Step } from './timeline.ts';

/** The chance that a pass comes too late for its window. */
export type WindowOdds = Pick<Laid, 'face' | 'coat'> & {
	/** Share of days. */
	missed: number;
	/** Nothing is waited for between its window's beginning and it: else waits and windows mesh, and it is drawn. */
	by: 'closed form' | 'drawn';
};

/**
 * What each piece of work strays by from its planned time, and all of them together on one day, as shares; by the normal law,
 * so that sums of them are worked out exactly. This project's own choices.
 */
const strays = { own: 0.25, day: 0.25 };
/** Days drawn. This project's own choice. */
const draws = 4000;

type Bound = { laid: Laid; at: number; before: number | null; closes_s: number };

/** The passes that a window closes for, and the pass whose end it counts from. */
function boundOf({ laid }: DayPlan): Bound[] {
	const last = new Map<string, number>();
	return laid.flatMap((one, at) => {
		const before = last.get(one.face) ?? null;
		last.set(one.face, at);
		return one.closes_s === null ? [] : [{ laid: one, at, before, closes_s: one.closes_s }];
	});
}

const isWork = ({ does }: Step): boolean => does !== 'wait' && does !== 'night';

/** Where all between is work: the pass is late by the normal law. */
function closedForm(
	{ steps, laid, start_s }: DayPlan,
	{ laid: pass, before, closes_s }: Bound,
): number | null {
	const from_s = before === null ? start_s : (laid[before]?.to_s ?? start_s);
	const between = steps.filter(step => step.from_s >= from_s - 1e-6 && step.to_s <= pass.from_s + 1e-6);
	if (!between.every(isWork)) return null;
	const lengths = between.map(step => step.to_s - step.from_s);
	const whole = lengths.reduce((sum, length) => sum + length, 0);
	const squares = lengths.reduce((sum, length) => sum + length ** 2, 0);
	const spread_s = Math.sqrt((strays.day * whole) ** 2 + strays.own ** 2 * squares);
	return lateOdds(whole, closes_s - from_s, spread_s);
}

/** Values of the normal law, the same for the same seed. Sources: mulberry32; Box and Muller (both from memory). */
function normals(seed: number): () => number {
	let state = seed >>> 0;
	const even = () => {
		state = (state + 0x6d2b79f5) >>> 0;
		let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
		mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
		return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
	};
	return () => Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even());
}

/** A seed from what a sheet says: the same sheet has the same odds. Source: FNV-1a (from memory). */
export function seedOf(job: Job): number {
	let seed = 0x811c9dc5;
	for (const byte of Buffer.from(JSON.stringify(job))) seed = Math.imul(seed ^ byte, 0x01000193) >>> 0;
	return seed;
}

/** Days played through at drawn paces: on how many each of the passes comes too late. */
function drawn(plan: DayPlan, bounds: readonly Bound[], seed: number): number[] {
	const normal = normals(seed);
	const missed = bounds.map(() => 0);
	const boundAt = new Map(bounds.map((bound, nth) => [bound.at, nth]));
	const before = new Map<number, number>();
	const last = new Map<string, number>();
	for (const [at, { face }] of plan.laid.entries()) {
		const its = last.get(face);
		if (its !== undefined) before.set(at, its);
		last.set(face, at);
	}
	const ends = plan.laid.map(() => 0);
	for (let day = 0; day < draws; day++) {
		const pace = 1 + strays.day * normal();
		let now = plan.start_s;
		let at = 0;
		for (const { does, from_s, to_s } of plan.steps) {
			if (does === 'wait') continue;
			if (does === 'night') {
				now = Math.max(now, to_s);
				continue;
			}
			const takes = (to_s - from_s) * Math.max(0, pace + strays.own * normal());
			const pass = does === 'spray' ? plan.laid[at] : undefined;
			if (!pass) {
				now += takes;
				continue;
			}
			const under = before.get(at);
			const moved = under === undefined ? 0 : (ends[under] ?? 0) - (plan.laid[under]?.to_s ?? 0);
			now = Math.max(now, pass.opens_s === null ? now : pass.opens_s + moved);
			const nth = boundAt.get(at);
			if (nth !== undefined && now > (pass.closes_s ?? now) + moved) missed[nth] = (missed[nth] ?? 0) + 1;
			now += takes;
			ends[at] = now;
			at++;
		}
	}
	return missed.map(count => count / draws);
}

/**
 * The chance of each pass that its window has closed when the gun comes to it. Worked out where nothing is waited for in
 * between; else from 4000 days drawn.
 * @param seed as `seedOf`
 */
export function windowOdds(plan: DayPlan, seed: number): WindowOdds[] {
	const bounds = boundOf(plan);
	const closed = bounds.map(bound => closedForm(plan, bound));
	const shares = closed.every(share => share !== null) ? [] : drawn(plan, bounds, seed);
	return bounds.map(({ laid: { face, coat } }, nth) => {
		const share = closed[nth] ?? null;
		return share === null
			? { face, coat, missed: shares[nth] ?? 0, by: 'drawn' }
			: { face, coat, missed: share, by: 'closed form' };
	});
}

/** The same, all of them drawn. */
export const drawnOdds = (plan: DayPlan, seed: number): number[] => drawn(plan, boundOf(plan), seed);
