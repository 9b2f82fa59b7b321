import { historyAfter, noHistory } from '../day/history.ts';
import type { DayRecord } from '../day/records.ts';
import type { Io } from './command.ts';
import { folderOf, jobsIn } from './day-files.ts';

/** The newest day on the real clock of a job, by its name. */
function newestDay(name: string, io: Io): DayRecord[] | undefined {
	const days = [...jobsIn(folderOf(io), io)].flat().filter(([opened]) => {
		return opened?.type === 'day.opened' && opened.sheet.name === name && opened.clock === 'real';
	});
	return days.sort((one, other) => ((one[0]?.at ?? '') < (other[0]?.at ?? '') ? -1 : 1)).at(-1);
}

/** Where the days already done leave the faces of a job. */
export function historyOf(name: string, io: Io): typeof noHistory {
	const day = newestDay(name, io);
	return day ? historyAfter(day) : noHistory;
}
