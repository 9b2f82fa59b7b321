import { isDeepStrictEqual } from 'node:util';
import { shelfFolder } from '../day/file/folder.ts';
import type { DayRecord } from '../day/records.ts';
import type { Checklist } from '../job/checklist.ts';
import { errorLines, type SheetError } from '../job/errors.ts';
import type { Job } from '../job/job.ts';
import { loadLists } from '../job/lists.ts';
import { loadJob } from '../job/load.ts';
import type { OfShelf } from '../job/shelf-changes.ts';
import type { Io } from './command.ts';

/** A job sheet, the lists that it names, where it lies, and what of it stands on the shelf. */
export type Sheet = { job: Job; lists: Checklist[]; path: string; ofShelf: OfShelf };

const refuse = (errors: readonly SheetError[], io: Io): null => {
	for (const line of errorLines(errors)) io.stderr.write(`${line}\n`);
	return null;
};

/** A job sheet and every list it names; null after every error was said. */
export async function readSheet(path: string | undefined, io: Io, command: string): Promise<Sheet | null> {
	if (path === undefined) {
		io.stderr.write(
			`fanwise ${command}: name a job sheet: fanwise ${command} JOB.yaml (fanwise example writes one)\n`,
		);
		return null;
	}
	const job = await loadJob(path, shelfFolder());
	if (!job.ok) return refuse(job.errors, io);
	const lists = await loadLists(job.job, path);
	return lists.ok
		? { job: job.job, lists: lists.lists, path, ofShelf: job.ofShelf }
		: refuse(lists.errors, io);
}

/** A day rests on the sheet and the lists that it was opened with; whoever changed one since is told. */
export function changedSince(
	[opened]: readonly DayRecord[],
	{ job, lists }: Pick<Sheet, 'job' | 'lists'>,
): string | null {
	if (opened?.type !== 'day.opened') return null;
	const same = isDeepStrictEqual([opened.sheet, opened.lists], [job, lists]);
	return same ? null : 'Job sheet changed: today goes on with the old one.';
}
