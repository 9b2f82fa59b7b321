import type { Job } from '../job/job.ts';
import type { Cup } from './batches.ts';
import { coatsBefore, type GunState, type Pass } from './gun.ts';
import type { CoatsOn, StageOrder } from './order.ts';
import { type Pace, type Rates, standardPace } from './pace.ts';
import { batchesOf, type PlannedBatch } from './planned-batches.ts';
import type { PlayedBench } from './played-bench.ts';
import { type Laid, type Missed, type Step, walk } from './timeline.ts';
import { type Opening, openings } from './windows.ts';

/** A stage played through: every step with its time, and what it comes to. Seconds from the start of the first day. */
export type DayPlan = {
	order: StageOrder;
	steps: Step[];
	laid: Laid[];
	batches: PlannedBatch[];
	missed: Missed[];
	start_s: number;
	end_s: number;
	/** How often the cup is filled. */
	fills: number;
	/** Cup and pots as the last pass leaves them. */
	bench: PlayedBench;
	/** From the start of work to the end of cleaning, nights left out, min. */
	minutes: number;
	/** Longest time between the end of a part's first face and the start of its last, within a coat, s. */
	wetEdge_s: number;
	/** Longest time with nothing to do, s. */
	longestIdle_s: number;
	/** Nights slept in between. */
	nights: number;
	/** Last moment at which the same plan, begun later, still keeps every window and the first day; null: no end. */
	latestStart_s: number | null;
};

export type PlanOptions = {
	pace?: Pace;
	rates?: Rates;
	/** When faces got their last coat, s from the start of the first day (below 0: before it). */
	ends?: Readonly<Record<string, number>>;
	/** Start of work within the first day, s. */
	start_s?: number;
	gun?: GunState | null;
	begun?: boolean;
	/** What is in the gun's cup before the first pass; or the bench as the stage before left it the same day. */
	cup?: Cup | null;
	/** Pots with paint left beside it. */
	pots?: readonly Cup[];
	bench?: PlayedBench | null;
	/** Letters used before on this job. */
	letters?: number;
	/** Coats that faces have already, where only the rest is planned. */
	on?: CoatsOn;
};

/**
 * Plays an order through a simulated day: set-up, mixing, checks, turns, spraying, waits, nights.
 * @param order of `planOrders`, or what is left of one
 * @throws RangeError where a material has no times for the shop's temperature
 */
export function planDay(job: Job, order: StageOrder, options: PlanOptions = {}): DayPlan {
	const passes = passesIn(job, order);
	const pace = options.pace ?? standardPace;
	const rates = options.rates ?? {};
	const start_s = options.start_s ?? 0;
	const given = {
		...{ job, passes, pace, rates, start_s, letters: options.letters ?? 0 },
		ends: options.ends ?? {},
		gun: options.gun ?? null,
		begun: options.begun ?? false,
		...{ cup: options.cup ?? null, pots: options.pots ?? [] },
		bench: options.bench ? { ...options.bench, check: 'full' as const } : null,
		opensFor: rememberedOpenings(job),
	};
	const course = walk(given);
	const nights = course.steps.filter(step => step.does === 'night');
	const slept = nights.reduce((sum, step) => sum + step.to_s - step.from_s, 0);
	const idle = course.steps.filter(step => step.does === 'wait').map(step => step.to_s - step.from_s);
	const slack = slack_s(job, { ...course, start_s }, Object.keys(given.ends));
	return {
		order,
		...{ steps: course.steps, laid: course.laid, missed: course.missed, start_s, end_s: course.end_s },
		batches: batchesOf(job, passes, course, rates).filter(
			({ letter, serves }) => !wasThere(options, letter) || serves.length > 0,
		),
		fills: course.fills,
		bench: course.bench,
		minutes: (course.end_s - start_s - slept) / 60,
		wetEdge_s: oldestEdge_s(course.laid),
		longestIdle_s: Math.max(0, ...idle),
		nights: nights.length,
		latestStart_s: slack === null ? null : start_s + slack,
	};
}

/** Whether a batch was mixed before the plan begins. */
export const wasThere = ({ cup, pots = [] }: Pick<PlanOptions, 'cup' | 'pots'>, letter: string): boolean =>
	cup?.letter === letter || pots.some(pot => pot.letter === letter);

/** The passes of an order, in order. */
export function passesIn(job: Job, order: StageOrder): Pass[] {
	const faces = new Map(job.faces.map(face => [face.id, face]));
	const before = coatsBefore(job, order.stage);
	return order.coats.flatMap(({ faces: row, coat: round }) =>
		row.flatMap(id => {
			const face = faces.get(id);
			const at = face?.coats.findIndex(
				coat => coat.stage === order.stage && coat.ofStage[0] === round - before,
			);
			const coat = at === undefined ? undefined : face?.coats[at];
			return face && coat && at !== undefined ? [{ face, coat, count: at + 1 }] : [];
		}),
	);
}

function rememberedOpenings(job: Job): (pass: Pass) => readonly Opening[] {
	const known = new Map<Pass, readonly Opening[]>();
	return pass => {
		const found = known.get(pass) ?? openings(job, pass.face, pass.count - 1, job.shop.air_C);
		known.set(pass, found);
		return found;
	};
}

function oldestEdge_s(laid: readonly Laid[]): number {
	const ends = new Map<string, number>();
	let oldest = 0;
	for (const { part, coat, from_s, to_s } of laid) {
		const key = `${coat} ${part}`;
		const first = ends.get(key);
		if (first === undefined) ends.set(key, to_s);
		else oldest = Math.max(oldest, from_s - first);
	}
	return oldest;
}

/**
 * By how much a stage may begin later and still keep every window and its first day, s; null: no end to it.
 * @param still faces whose last coat stands where it is: a later start moves all that is laid in the first day alike
 */
export function slack_s(
	job: Job,
	{ laid, steps, start_s, end_s }: Pick<DayPlan, 'laid' | 'steps' | 'start_s' | 'end_s'>,
	still: readonly string[],
): number | null {
	const before = new Set(still);
	const slack: number[] = [];
	for (const { face, from_s, closes_s } of laid) {
		if (before.has(face) && closes_s !== null) slack.push(closes_s - from_s);
		before.delete(face);
	}
	const morning_s = Math.floor(start_s / 86_400) * 86_400;
	const night_s = steps.find(step => step.does === 'night')?.from_s;
	if (job.shop.hours !== null) slack.push(morning_s + job.shop.hours * 60 - (night_s ?? end_s));
	return slack.length === 0 ? null : Math.max(0, Math.min(...slack));
}
