import type { DayRecord } from '../day/records.ts';

type Day = readonly DayRecord[];

/** Whether a day is the first of its job: nothing was laid and no batch lettered before it. */
export function beginsJob(day: Day): boolean {
	const first = day[0];
	if (first?.type !== 'day.opened') return true;
	return (
		first.before.letters === 0 && Object.values(first.before.faces).every(({ coats }) => coats.length === 0)
	);
}

/** Splits days, oldest first, into jobs: each from the day on which nothing was laid yet. */
function jobsOf<Each extends Day>(days: readonly Each[]): Each[][] {
	const jobs: Each[][] = [];
	for (const day of days) {
		const job = jobs.at(-1);
		if (job && !beginsJob(day)) job.push(day);
		else jobs.push([day]);
	}
	return jobs;
}

/**
 * The days of the job in which a coat of a face is in question: the latest on which the fault was seen there,
 * else the latest that laid the coat.
 * @returns null where no day laid it
 */
export function jobAsked<Each extends Day>(
	days: readonly Each[],
	asked: { fault: string; face: string; coat: number },
): Each[] | null {
	const jobs = jobsOf(days);
	const at = (record: DayRecord) =>
		'face' in record && record.face === asked.face && 'coat' in record && record.coat === asked.coat;
	const seen = jobs.findLast(job =>
		job.some(day =>
			day.some(record => record.type === 'fault.seen' && record.fault === asked.fault && at(record)),
		),
	);
	const laid = () =>
		jobs.findLast(job => job.some(day => day.some(record => record.type === 'face.started' && at(record))));
	return seen ?? laid() ?? null;
}
