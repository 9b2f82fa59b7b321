import { historyAfter } from '../../src/day/history.ts';
import type { Job } from '../../src/job/job.ts';
import { loadLists } from '../../src/job/lists.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { rehearsed, start } from './rehearsed.ts';

/** Rehearses a job day after day until every coat is laid, at most so many days; each begins 24 h after the one before. */
export async function allDays(job: Job, most = 6) {
	const listed = await loadLists(job, 'the sheet');
	if (!listed.ok) throw new Error(listed.errors[0]?.says);
	const planned = job.faces.reduce((sum, { coats }) => sum + coats.length, 0);
	const days: ReturnType<typeof rehearsed>[] = [];
	const laid = () => days.flatMap(day => day.ofType('face.ended'));
	for (let nth = 0; nth < most && laid().length < planned; nth++) {
		const last = days.at(-1)?.records();
		const day = rehearsed({
			...{ job, lists: listed.lists, at: start + nth * 24 * 3_600_000 },
			...(last && { before: historyAfter(last) }),
		});
		day.toEnd();
		days.push(day);
	}
	const earlier = days.map(day => day.bytes());
	const findings = days.flatMap((day, at) => checkDayFile(day.bytes(), earlier.slice(0, at)));
	return {
		days: days.length,
		laid: laid().length,
		planned,
		findings,
		records: days.flatMap(day => day.records()),
	};
}
