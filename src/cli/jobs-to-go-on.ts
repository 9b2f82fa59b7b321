import { daysFolder } from '../day/file/folder.ts';
import { type Due, jobsDue } from '../day/jobs-due.ts';
import type { JobToPick } from '../screen/picker.ts';
import { clockOn } from '../words/clock.ts';

function said({ what, from, until, isLate }: Due, nth: number, now: number, zone: string): string {
	const when = from <= now ? 'now' : `from ${clockOn(from, now, zone)}`;
	const by = Number.isFinite(until) ? `, by ${clockOn(until, now, zone)}` : '';
	return `${isLate ? 'LATE, ' : ''}day ${nth}: ${what} ${Number.isFinite(from) ? when : 'once hard'}${by}`;
}

/**
 * Jobs whose days are all closed and that have work to come, as they are offered.
 * @param open names of jobs that have a day open, which comes first
 * @param now ms since 1970
 */
export const jobsToGoOn = (
	open: readonly string[],
	now: number,
	zone: string,
	folder = daysFolder(),
): JobToPick[] =>
	jobsDue(open, now, folder).map(({ name, day, due, nth }) => ({
		...{ name, day, isLate: due.isLate },
		due: said(due, nth, now, zone),
	}));
