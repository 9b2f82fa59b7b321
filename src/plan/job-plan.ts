import type { FaceHistory } from '../day/records.ts';
import { inert } from '../job/inert.ts';
import type { Job } from '../job/job.ts';
import type { OrderName } from './order.ts';
import { type Learned, ratesOf } from './rates.ts';
import { planStages, type StagePlan } from './stages.ts';

export type NamedOrder = Exclude<OrderName, 'sheet'>;
export const namedOrders: readonly NamedOrder[] = ['fewest-turns', 'wettest-edge'];

/** A job planned whole, both orders side by side. */
export type JobPlan = {
	job: Job;
	/** Start of the first day, ms since 1970; the plans' seconds count from it. */
	start: number;
	/** The order in force, and the stages by each order. */
	chosen: OrderName;
	by: Record<NamedOrder, StagePlan[]>;
	stages: StagePlan[];
	learned: Readonly<Record<string, Learned>>;
	feasible: boolean;
	/** What cannot be kept in the order in force, and the smallest change that mends it. */
	reasons: string[];
};

export type JobPlanInput = {
	job: Job;
	start: number;
	which?: OrderName;
	history?: Readonly<Record<string, FaceHistory>>;
	/** Batch letters used on the job so far. */
	letters?: number;
	learned?: Readonly<Record<string, Learned>>;
};

/**
 * Plans every stage of a job in both orders.
 * @throws RangeError where a material has no times for the shop's temperature
 */
export function planJob(input: JobPlanInput): JobPlan {
	const { job, start, which = job.order, history = {}, letters = 0, learned = {} } = input;
	const options = { rates: ratesOf(learned), letters };
	const stagesBy = (order: OrderName) => planStages({ job, start, history, options, which: order });
	const by = { 'fewest-turns': stagesBy('fewest-turns'), 'wettest-edge': stagesBy('wettest-edge') };
	const stages = which === 'sheet' ? stagesBy(which) : by[which];
	const reasons = stages.flatMap(({ name, verdict }) =>
		(verdict?.reasons ?? []).map(reason => `${inert(name)}: ${reason}`),
	);
	return { job, start, chosen: which, by, stages, learned, feasible: reasons.length === 0, reasons };
}
