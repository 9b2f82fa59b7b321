import { daysOfJob } from '../day/file/days.ts';
import { whyUnusable } from '../day/file/store.ts';
import { historyAfter, noHistory } from '../day/history.ts';

/**
 * Where the newest day of a job left its faces.
 * @throws DayFileError where that day cannot be read whole: an older one would tell of fewer coats
 */
export function historyOf(folder: string, job: string): typeof noHistory {
	for (const { path, read } of daysOfJob(folder, job)) {
		const unusable = whyUnusable(path, read);
		if (unusable) throw unusable;
		return historyAfter(read.records);
	}
	return noHistory;
}
