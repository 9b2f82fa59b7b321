import type { DayRecord } from '../day/records.ts';

type Day = readonly DayRecord[];

/** Whether a day is the first of its job: it is of none; on an older one, nothing was laid and no batch lettered before. */
export function beginsJob(day: Day): boolean {
	const first = day[0];
	if (first?.type !== 'day.opened') return true;
	if (first.of !== undefined) return false;
	return (
		first.before.letters === 0 && Object.values(first.before.faces).every(({ coats }) => coats.length === 0)
	);
}

const jobIdOf = ([first]: Day): string | undefined => (first?.type === 'day.opened' ? first.of : undefined);

/** Whether two days say of which job they are, and say two. */
const areApart = (one: Day, other: Day): boolean =>
	jobIdOf(one) !== undefined && jobIdOf(other) !== undefined && jobIdOf(one) !== jobIdOf(other);

/** Splits days, oldest first, into jobs: each from its first day, or from one that says it is of another. */
function jobsOf<Each extends Day>(days: readonly Each[]): Each[][] {
	const jobs: Each[][] = [];
	for (const day of days) {
		const job = jobs.at(-1);
		const last = job?.at(-1);
		if (job && last && !beginsJob(day) && !areApart(last, day)) job.push(day);
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
