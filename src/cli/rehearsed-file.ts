import { existsSync } from 'node:fs';
import { loadDay } from '../day/file/days.ts';
import type { OnTrouble } from '../day/file/keep.ts';
import { createDay, openDay } from '../day/file/store.ts';
import type { DayRecord } from '../day/records.ts';
import type { Sink } from '../day/session.ts';

/** The file that a rehearsal is kept in, as it is found. */
export type RehearsedFile = {
	/** The instant of its last record; null where there is no file yet. */
	last: string | null;
	/** Why a job's rehearsal cannot go on in it: it goes on only with the job that it was begun for, on a clock that is moved. */
	notOf(job: string): string | null;
	/** Every start opens it anew, as a crash would find it; where there is none, it begins with this record. */
	open(first: DayRecord, onTrouble: OnTrouble): () => Sink;
};

/** @throws DayFileError where there is something at the path that is no day to go on with */
export function rehearsedFile(path: string): RehearsedFile {
	const records = existsSync(path) ? loadDay(path) : [];
	const [opened] = records;
	return {
		last: records.at(-1)?.at ?? null,
		notOf(job) {
			if (opened?.type !== 'day.opened') return null;
			if (opened.clock === 'real')
				return `${path}: this day was sprayed, not rehearsed: go on with it by fanwise spray, or name another file`;
			if (opened.job === job) return null;
			return `${path}: this day is of another job, "${opened.job}": name its sheet, or another file`;
		},
		open(first, onTrouble) {
			let held: Sink | null = null;
			return () => {
				held?.close();
				held = existsSync(path) ? openDay(path, { onTrouble }) : createDay(path, first, { onTrouble });
				return held;
			};
		},
	};
}
