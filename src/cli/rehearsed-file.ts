import { existsSync } from 'node:fs';
import { loadDay } from '../day/file/days.ts';
import { dayId } from '../day/file/glimpse.ts';
import type { OnTrouble } from '../day/file/keep.ts';
import { createDay, openDay, readBytes } from '../day/file/store.ts';
import { plainName } from '../day/file/trouble.ts';
import type { DayRecord } from '../day/records.ts';
import type { Sink } from '../day/session.ts';
import { inert } from '../job/inert.ts';
import { type Left, leftBy } from './job-days.ts';

/** Where the days of a rehearsed job are kept, as they are found: the newest is gone on with. */
export type Kept = {
	/** Instants of the first record of all, and of the last; null where there is no day yet. */
	began: string | null;
	last: string | null;
	/** Opens the newest day anew, as a crash would find it. */
	open(): Sink;
	/** How the newest day left its faces. @throws DayFileError where that cannot be relied on */
	left(): Left;
	/** Begins the next day, or the first. @throws DayFileError where it cannot be kept */
	begin(first: DayRecord): Sink;
};

const ending = /(\.day)?\.[^.]+$/;

/** Where the next day of a job lies beside one: `NAME-2` beside `NAME`, and `NAME-3` beside that. */
function nextPath(path: string, [opened]: readonly DayRecord[]): string {
	const end = ending.exec(path)?.[0] ?? '';
	const name = path.slice(0, path.length - end.length);
	const isLater = opened?.type === 'day.opened' && opened.after !== undefined;
	const [, stem = name, count = '1'] = (isLater && /^(.*)-(\d+)$/s.exec(name)) || [];
	return `${stem}-${Number(count) + 1}${end}`;
}

/** Why a job's rehearsal cannot go on in a day: only with the job that it was begun for, on a clock that is moved. */
function notOf(path: string, [opened]: readonly DayRecord[], job: string): string | null {
	if (opened?.type !== 'day.opened') return null;
	if (opened.clock === 'real')
		return `${plainName(path)}: this day was sprayed, not rehearsed: go on with it by fanwise spray, or name another file`;
	if (opened.job === job) return null;
	return `${plainName(path)}: this day is of another job, "${inert(opened.job)}": name its sheet, or another file`;
}

/** Why what lies where the next day would is none; null: it is. */
function notAfter(path: string, [opened]: readonly DayRecord[], before: string): string | null {
	const restsOn = opened?.type === 'day.opened' ? (opened.after ?? []) : [];
	if (restsOn.some(({ day }) => day === dayId(readBytes(before)))) return null;
	return `${plainName(path)}: this day does not follow ${plainName(before)}: move it to another folder, or name another file`;
}

const isClosed = (records: readonly DayRecord[]) => records.some(({ type }) => type === 'day.closed');

/**
 * The days of a rehearsed job, one file a day: the first where it is said, each other beside the one before.
 * @returns a line where something at a path is no day of that rehearsal: what, and what to do
 * @throws DayFileError where it is no day that can be read whole
 */
export function rehearsedFile(given: string, job: string, onTrouble: OnTrouble): Kept | string {
	let path = given;
	let records: readonly DayRecord[] = existsSync(given) ? loadDay(given) : [];
	const other = notOf(given, records, job);
	if (other) return other;
	const began = records[0]?.at ?? null;
	for (let next = nextPath(path, records); isClosed(records) && existsSync(next); ) {
		const found = loadDay(next);
		const stranger = notOf(next, found, job) ?? notAfter(next, found, path);
		if (stranger) return stranger;
		[path, records] = [next, found];
		next = nextPath(path, records);
	}
	let held: Sink | null = null;
	return {
		began,
		last: records.at(-1)?.at ?? null,
		open() {
			held?.close();
			held = openDay(path, { onTrouble });
			return held;
		},
		left: () => leftBy(path),
		begin(opening) {
			const isFirst = records.length === 0;
			const next = isFirst ? path : nextPath(path, records);
			held = createDay(next, opening, { onTrouble });
			[path, records] = [next, [opening]];
			return held;
		},
	};
}
