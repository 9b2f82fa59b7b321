import type { DayRecord } from '../records.ts';
import { lostItsEnd, openLine, toRecord } from './line.ts';

/**
 * A line, counted from 1, that was changed after it was written, and the byte of the file it begins at. `foreign`:
 * it is the first, and has nothing of a day in it.
 */
export type Damage = { line: number; byte: number; what: string; foreign: boolean };
/** What a crash left of the last key's records. */
export type Torn = { bytes: number; from: number };
export type DayRead = {
	records: DayRecord[];
	torn: Torn | null;
	damage: Damage | null;
	/** Bytes that `records` take up in the file. */
	goodBytes: number;
	/** The file's version, where this program cannot read it; `damage` then says what to do. */
	otherVersion: number | null;
};

/** The versions that this program reads; it writes the last. What version 1 does not say is said as a day is folded. */
export const dayVersions: readonly number[] = [1, 2];

const lineFeed = 10;
const opening = Buffer.from('"day.opened"');

const versionOf = (raw: unknown): number | null => {
	const opened = typeof raw === 'object' && raw !== null && 'type' in raw && raw.type === 'day.opened';
	return opened && 'v' in raw && typeof raw.v === 'number' ? raw.v : null;
};

/** Whether a file was a day, though its first line is not whole: that has the form of one, or the word of one. */
export const beganDay = (bytes: Uint8Array): boolean =>
	/^[0-9a-f]{8} \{/.test(Buffer.from(bytes.subarray(0, 10)).toString('latin1')) ||
	Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).includes(opening);

const follows = (record: DayRecord, last: DayRecord | undefined): string | null => {
	if (!last) {
		if (record.type !== 'day.opened') return `the first record is ${record.type}, not day.opened`;
		return record.seq === 1 ? null : `the first record is number ${record.seq}`;
	}
	if (record.seq !== last.seq + 1) return `record ${last.seq} is followed by record ${record.seq}`;
	if (record.run < last.run) return `run ${last.run} is followed by run ${record.run}`;
	if (last.more && record.run !== last.run) return 'the records of one key lie in two runs';
	if (record.type === 'day.opened') return 'the day is opened twice';
	return null;
};

/**
 * The longest prefix of a day file that consists of whole, valid, consecutive records.
 *
 * A tail without its LF, or a last key whose records are not all there, is `torn`: a crash leaves that, and it was
 * never acknowledged. A bad line that ends in LF is `damage` wherever it stands.
 *
 * @param bytes the whole file
 */
export const readDay = (bytes: Uint8Array): DayRead => readOn(bytes);

/**
 * The same of the bytes that were added to a file since its whole records were read.
 *
 * @param known the last of those
 */
export const readOn = (bytes: Uint8Array, known?: DayRecord): DayRead => {
	const records: DayRecord[] = [];
	let whole = 0;
	let goodBytes = 0;
	const end = (found: Partial<DayRead>): DayRead => {
		const kept = records.slice(0, whole);
		return { records: kept, torn: null, damage: null, goodBytes, otherVersion: null, ...found };
	};

	for (let from = 0, line = 1; from < bytes.length; line++) {
		const damaged = (what: string, more: Partial<DayRead> = {}) =>
			end({ damage: { line, byte: from, what, foreign: line === 1 && !beganDay(bytes) }, ...more });
		const lf = bytes.indexOf(lineFeed, from);
		if (lf === -1) {
			if (lostItsEnd(bytes.subarray(from))) return damaged('its line end was changed');
			break;
		}
		const opened = openLine(bytes.subarray(from, lf));
		if ('bad' in opened) return damaged(opened.bad);
		if (line === 1 && !known) {
			const version = versionOf(opened.raw);
			if (version !== null && !dayVersions.includes(version))
				return damaged(otherVersionSays(version), { otherVersion: version });
		}
		const read = toRecord(opened.raw);
		if ('bad' in read) return damaged(read.bad);
		const wrong = follows(read.record, records.at(-1) ?? known);
		if (wrong) return damaged(wrong);
		records.push(read.record);
		from = lf + 1;
		if (!read.record.more) {
			whole = records.length;
			goodBytes = from;
		}
	}
	const left = bytes.length - goodBytes;
	return end({ torn: left > 0 ? { bytes: left, from: goodBytes } : null });
};

const otherVersionSays = (version: number) =>
	`it is a day file of version ${version} and this program reads ${dayVersions.join(' and ')}: ` +
	`${version > 1 ? 'open it with a newer fanwise' : 'open it with the fanwise that wrote it'}`;
