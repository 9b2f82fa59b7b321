import type { Job } from '../job/job.ts';

export const day_s = 86_400;

/** The first moment at or after a time at which the shop is open, both in seconds from the opening of a first day. */
export function atWork(job: Job, at_s: number): number {
	const { hours } = job.shop;
	const day = Math.floor(at_s / day_s);
	return hours === null || at_s - day * day_s < hours * 60 ? at_s : (day + 1) * day_s;
}
