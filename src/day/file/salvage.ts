import { writeFresh } from './fresh.ts';
import { decodeLine } from './line.ts';
import { disk, type FilePort } from './port.ts';
import { readDay } from './read.ts';
import { readBytes, whyUnusable } from './store.ts';
import { DayFileError, diskError, plainName } from './trouble.ts';

/** A line that was not saved. What it says is given where its own checksum still fits. */
export type LostLine = {
	line: number;
	byte: number;
	bytes: number;
	/** Why it could not be kept; null: it is whole, but stands behind the damage, or the rest of its key is not. */
	what: string | null;
	at: string | null;
	seq: number | null;
	type: string | null;
};

export type Salvaged = {
	savedRecords: number;
	savedBytes: number;
	/** When the last record that was saved was made. */
	savedUntil: string;
	lostBytes: number;
	lost: LostLine[];
};

const lineFeed = 10;

const count = (bytes: Uint8Array): number => {
	let lines = 0;
	for (let at = bytes.indexOf(lineFeed); at !== -1; at = bytes.indexOf(lineFeed, at + 1)) lines++;
	return lines;
};

const lostLines = (
	bytes: Uint8Array,
	goodBytes: number,
	damagedAt: number | null,
	why: string,
): LostLine[] => {
	const lost: LostLine[] = [];
	for (let byte = goodBytes, line = count(bytes.subarray(0, goodBytes)) + 1; byte < bytes.length; line++) {
		const lf = bytes.indexOf(lineFeed, byte);
		const end = lf === -1 ? bytes.length : lf;
		const read = decodeLine(bytes.subarray(byte, end));
		const whole = lf !== -1 && 'record' in read ? read.record : null;
		const bad = lf === -1 ? 'it has no end' : 'bad' in read ? read.bad : null;
		lost.push({
			line,
			byte,
			bytes: (lf === -1 ? end : lf + 1) - byte,
			what: line === damagedAt ? why : bad,
			at: whole?.at ?? null,
			seq: whole?.seq ?? null,
			type: whole?.type ?? null,
		});
		byte = end + 1;
	}
	return lost;
};

/**
 * Writes what can be relied on of a damaged day, the longest run of whole keys from its beginning, into a new file.
 * The damaged file is only read.
 *
 * @param path the damaged day
 * @param target must be free
 * @returns what was saved and every line that was not
 * @throws DayFileError where nothing can be saved, or the new file cannot be written
 */
export const salvageDay = (path: string, target: string, port: FilePort = disk): Salvaged => {
	const bytes = readBytes(path, port);
	const read = readDay(bytes);
	const last = read.records.at(-1);
	if (!last) {
		const why = whyUnusable(path, read);
		if (why && read.otherVersion !== null) throw why;
		const says = `${plainName(path)}: nothing of it can be saved, its first line is not whole: use a copy of it`;
		throw new DayFileError('unusable', says);
	}
	try {
		port.close(writeFresh(port, target, [bytes.subarray(0, read.goodBytes)], 'new').handle);
	} catch (error) {
		throw diskError(target, 'nothing was saved', error);
	}
	const lost = lostLines(bytes, read.goodBytes, read.damage?.line ?? null, read.damage?.what ?? '');
	return {
		savedRecords: read.records.length,
		savedBytes: read.goodBytes,
		savedUntil: last.at,
		lostBytes: bytes.length - read.goodBytes,
		lost,
	};
};
