import { crc32 } from 'node:zlib';
import type { DayRecord } from '../records.ts';
import { toRecord } from './line.ts';
import { dayVersions } from './read.ts';

const lineFeed = 10;
const blank = 32;
const sumLength = 8;

/**
 * Reads a day that is whole and of a version that is read, for walks over very many days: every checksum and number is
 * checked, but only the first record against its schema, since no line is written that its schema refuses.
 * @returns null where anything is out of the ordinary: read such a day with `readDay`
 */
export const readLight = (bytes: Uint8Array): DayRecord[] | null => {
	const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
	const records: DayRecord[] = [];
	for (let from = 0; from < buffer.length; ) {
		const lf = buffer.indexOf(lineFeed, from);
		if (lf < from + sumLength + 2 || buffer[from + sumLength] !== blank) return null;
		const json = buffer.subarray(from + sumLength + 1, lf);
		const sum = buffer.toString('latin1', from, from + sumLength);
		if (sum !== crc32(json).toString(16).padStart(sumLength, '0')) return null;
		const record = recordIn(json.toString('utf8'), records.length + 1);
		if (!record) return null;
		records.push(record);
		from = lf + 1;
	}
	const first = records[0];
	const last = records.at(-1);
	if (
		first?.type !== 'day.opened' ||
		!dayVersions.includes(first.v) ||
		'bad' in toRecord(first) ||
		last?.more
	)
		return null;
	return records;
};

function recordIn(json: string, seq: number): DayRecord | null {
	try {
		const record: DayRecord = JSON.parse(json);
		return record.seq === seq && typeof record.at === 'string' ? record : null;
	} catch {
		return null;
	}
}
