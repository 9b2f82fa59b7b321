import { daysOfJob } from '../day/file/days.ts';
import { whyUnusable } from '../day/file/store.ts';
import { historyAfter, noHistory } from '../day/history.ts';

/**
 * Where the newest day of a job left its faces.
 * @throws DayFileError where that day cannot be read whole: an older one would tell of fewer coats
 */
export function historyOf(folder: string, job: string): typeof noHistory {
	const [newest] = daysOfJob(folder, job);
	if (!newest) return noHistory;
	const read = newest.read();
	const unusable = whyUnusable(newest.path, read);
	if (unusable) throw unusable;
	return historyAfter(read.records);
}
