import { join } from 'node:path';
import { writeFresh } from '../day/file/fresh.ts';
import { disk, type FilePort } from '../day/file/port.ts';
import type { Dated, Dates } from './dates.ts';

/**
 * The dates of a painter's health and gear, in a file of their own that its owner alone may read. Settings and days are
 * copied into reports and shared; this is neither. The picker reads it, so nothing heavy is loaded for it.
 */

export const datesFile = (folder: string): string => join(folder, 'by-date.json');

const isRecord = (value: unknown): value is Record<string, unknown> =>
	typeof value === 'object' && value !== null;
const isDate = (value: unknown): value is string =>
	typeof value === 'string' && /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/.test(value);
const isDateOrNull = (value: unknown): value is string | null => value === null || isDate(value);

function datedIn(value: unknown): Dated | null {
	if (!isRecord(value)) return null;
	const { last, due, again } = value;
	return isDateOrNull(last) && isDateOrNull(due) && isDate(again) ? { last, due, again } : null;
}

/**
 * What was answered so far. What cannot be read is as if it had never been answered: it is asked again, and stops nothing.
 */
export function readDates(folder: string, port: FilePort = disk): Dates {
	let found: unknown;
	try {
		found = JSON.parse(Buffer.from(port.read(datesFile(folder))).toString('utf8'));
	} catch {
		return {};
	}
	if (!isRecord(found)) return {};
	const read = Object.entries(found).flatMap(([code, value]) => {
		const one = /^[a-z][a-z0-9-]{0,30}$/.test(code) ? datedIn(value) : null;
		return one ? [[code, one] as const] : [];
	});
	return Object.fromEntries(read);
}

/**
 * Writes the dates, whole or not at all, readable by their owner alone.
 * @throws the system's own error where the disk does not take them
 */
export function writeDates(folder: string, dates: Dates, port: FilePort = disk): void {
	port.makeFolder(folder);
	const text = `${JSON.stringify(dates, null, '\t')}\n`;
	port.close(writeFresh(port, datesFile(folder), [Buffer.from(text)], 'over').handle);
}
