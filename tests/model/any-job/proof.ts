import type { Checklist } from '../../../src/job/checklist.ts';
import { checkDayFile } from '../checker/check.ts';
import { playAnyJob } from './days.ts';

/** How many days by chance were read by the checker, what was done in them, and what it found. */
export type AnyJobs = {
	jobs: number;
	days: number;
	records: number;
	starts: number;
	steps: number;
	says: string[];
};

export const noJobs: AnyJobs = { jobs: 0, days: 0, records: 0, starts: 0, steps: 0, says: [] };

/** Jobs with the seeds `from`, `from` + 1 …, each on a sheet of its own, every day read by the checker with those before it. */
export function anyJobsOf(lists: Checklist[], from: number, jobs: number): AnyJobs {
	const sum: AnyJobs = { ...noJobs, jobs, says: [] };
	for (let seed = from; seed < from + jobs; seed++) {
		const { days } = playAnyJob(lists, seed);
		for (const [nth, { records, bytes }] of days.entries()) {
			sum.days++;
			sum.records += records.length;
			sum.starts += records.filter(({ type }) => type === 'face.started').length;
			sum.steps += records.filter(({ type }) => type === 'stage.done').length;
			const before = days.slice(0, nth).map(day => day.bytes);
			for (const { property, line, says } of checkDayFile(bytes, before))
				sum.says.push(`job ${seed}, day ${nth + 1}, line ${line}, property ${property}: ${says}`);
		}
	}
	return sum;
}
