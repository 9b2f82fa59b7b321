import type { DayRecord, EventOf, Stamp } from '../records.ts';
import { listDays, slugOf } from './folder.ts';
import { disk, type FilePort } from './port.ts';
import { type DayRead, readDay } from './read.ts';
import { readBytes, whyUnusable } from './store.ts';

/**
 * Reads a day without its lock and without changing it. A torn tail is passed over.
 *
 * @throws DayFileError `missing`, `damaged`, `unusable`, `disk`
 */
export const loadDay = (path: string, port: FilePort = disk): DayRecord[] => {
	const read = readDay(readBytes(path, port));
	const unusable = whyUnusable(path, read, port);
	if (unusable) throw unusable;
	return read.records;
};

export type DayOfJob = { path: string; date: string; read: DayRead };

const openedOf = (read: DayRead): (Stamp & EventOf<'day.opened'>) | null => {
	const first = read.records[0];
	return first?.type === 'day.opened' ? first : null;
};

const isClosed = (read: DayRead) => read.records.some(({ type }) => type === 'day.closed');

/**
 * The days of a job that were sprayed on the real clock, the newest first, each read when it is asked for. A file
 * whose first line cannot be read counts by its name, so that a damaged day is not passed over in silence.
 */
export function* daysOfJob(folder: string, job: string, port: FilePort = disk): Generator<DayOfJob> {
	const slug = slugOf(job);
	for (const { path, name, date } of listDays(folder, port)) {
		const part = name.slice(date.length + 1, name.indexOf('.'));
		if (part !== slug && part.replace(/-\d+$/, '') !== slug) continue;
		const read = readDay(readBytes(path, port));
		const opened = openedOf(read);
		if (!opened || (opened.job === job && opened.clock === 'real')) yield { path, date, read };
	}
}

/**
 * The day of a job that comes before any new one: the newest that was not closed, or the newest of all where that
 * cannot be read whole, closed or not: `openDay` then says what is wrong with it and how to settle it. Null: there is
 * none.
 */
export const findOpenDay = (folder: string, job: string, port: FilePort = disk): string | null => {
	let newest = true;
	for (const { path, read } of daysOfJob(folder, job, port)) {
		const readable = read.damage === null && read.records.length > 0;
		if (readable ? !isClosed(read) : newest) return path;
		newest = false;
	}
	return null;
};
