import { join } from 'node:path';
import { type CanMarks, isCanMark } from '../day/asks/cans.ts';
import { dataFolder } from '../day/file/folder.ts';
import { writeFresh } from '../day/file/fresh.ts';
import { disk, type FilePort } from '../day/file/port.ts';
import { diskError } from '../day/file/trouble.ts';

/**
 * The marks that are taped on the shop's cans: a can of the shelf keeps its own from job to job, or the one that another job
 * asks for by the same mark would be passed as right.
 */

export const marksFile = (folder: string): string => join(folder, 'can-marks.json');

/** The marks so far; where they cannot be read, none: every job tells its marks before the first pour. */
export function readCanMarks(folder: string = dataFolder(), port: FilePort = disk): CanMarks {
	let found: unknown;
	try {
		found = JSON.parse(Buffer.from(port.read(marksFile(folder))).toString('utf8'));
	} catch {
		return {};
	}
	if (typeof found !== 'object' || found === null) return {};
	return Object.fromEntries(Object.entries(found).filter(([, mark]) => isCanMark(mark)));
}

/**
 * Keeps the marks, whole or not at all.
 * @throws DayFileError where the disk does not take them
 */
export function keepCanMarks(marks: CanMarks, folder: string = dataFolder(), port: FilePort = disk): void {
	try {
		port.makeFolder(folder);
		const text = `${JSON.stringify(marks, null, '\t')}\n`;
		port.close(writeFresh(port, marksFile(folder), [Buffer.from(text)], 'over').handle);
	} catch (error) {
		throw diskError(marksFile(folder), 'the marks of the cans were not kept', error);
	}
}
