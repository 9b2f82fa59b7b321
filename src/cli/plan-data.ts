import type { Job } from '../job/job.ts';
import type { DayPlan } from '../plan/day-plan.ts';
import { type JobPlan, namedOrders } from '../plan/job-plan.ts';
import { seedOf, windowOdds } from '../plan/window-odds.ts';

/** Each pass with the chance that its window is missed; null: none closes for it. */
function withOdds(job: Job, plan: DayPlan) {
	const odds = windowOdds(plan, seedOf(job));
	return plan.laid.map(({ part: _, ...one }) => ({
		...one,
		windowMissed: odds.find(({ face, coat }) => face === one.face && coat === one.coat)?.missed ?? null,
	}));
}

/** The plan as data: SI units, instants in UTC. */
export function planData({ job, start, chosen, by, stages, learned, feasible, reasons }: JobPlan) {
	const iso = (at_s: number) => new Date(start + at_s * 1000).toISOString();
	const maybe = (at_s: number | null) => (at_s === null ? null : iso(at_s));
	const orders = by['fewest-turns'].flatMap((_, index) =>
		namedOrders.flatMap(name => {
			const { stage, verdict } = by[name][index] ?? {};
			if (!verdict || stage === undefined) return [];
			const { order, minutes, wetEdge_s, end_s, latestStart_s, longestIdle_s } = verdict.plan;
			const { turns, exact, atLeast, coats, gaveWay } = order;
			const ends = { endsAt: iso(end_s), lastStart: maybe(latestStart_s), feasible: verdict.feasible };
			return [
				{ name, stage, turns, minutes, coats, exact, atLeast, gaveWay, wetEdge_s, longestIdle_s, ...ends },
			];
		}),
	);
	const batches = stages.flatMap(({ verdict }) =>
		(verdict?.plan.batches ?? []).map(({ mix_s, from_s, to_s, dies_s, ...batch }) => ({
			...batch,
			...{ mixAt: iso(mix_s), from: iso(from_s), to: iso(to_s), diesAt: iso(dies_s) },
		})),
	);
	const days = stages.map(({ verdict, faces, ...stage }) => ({
		...stage,
		faces: faces.map(({ face, earliest_s, latest_s, planned_s }) => ({
			...{ face, earliest: iso(earliest_s), latest: maybe(latest_s), planned: iso(planned_s) },
		})),
		laid: (verdict ? withOdds(job, verdict.plan) : []).map(({ from_s, to_s, opens_s, closes_s, ...one }) => ({
			...{ ...one, from: iso(from_s), to: iso(to_s), opens: maybe(opens_s), closes: maybe(closes_s) },
			batch: one.cup.at(-1) ?? null,
		})),
	}));
	return { job: job.name, order: chosen, orders, batches, feasible, reasons, stages: days, learned };
}
