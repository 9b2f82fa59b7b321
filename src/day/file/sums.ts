import { crc32 } from 'node:zlib';
import type { Taught } from '../../plan/rates.ts';
import type { DayRecord, Follows, Head } from '../records.ts';
import { discard, openPassing, writeAll } from './fresh.ts';
import { dayId, type Glimpse, glimpseDay } from './glimpse.ts';
import { disk, type FilePort } from './port.ts';
import { errorCode } from './trouble.ts';

/**
 * What a closed day teaches, kept in a small file beside it so that the next start need not read it again: in one line
 * what orders it and its rates, in another, where it was worked out, how it left its faces. Never trusted over the day:
 * it is made anew where size, first or last line of the day are not those it was made from, and its own checksums fit.
 */
export type Sums = { glimpse: Glimpse; taught: Taught[] };

export type KeptSums = Sums & {
	/** The day as another one rests on it, if every byte is as it was. */
	head: Head;
	/** How the day left its faces; null: it was not worked out. Checked by nobody yet. */
	history(): unknown;
	/** Whether every byte of the day is as it was: it is read for that. */
	isWhole(): boolean;
};

/** Raise it where what is kept is worked out otherwise. */
const version = 3;
const sumLength = 8;
const lineFeed = 10;

export const sumsPath = (day: string): string => `${day}.sums`;

const asBuffer = (bytes: Uint8Array) => Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
const hex = (bytes: Uint8Array | string) => crc32(bytes).toString(16).padStart(sumLength, '0');

/** What a day file is known by, without reading it. */
type Mark = { size: number; first: string; last: string; lastAt: number; whole: string };

const markOf = (bytes: Uint8Array): Mark => {
	const lastAt = bytes.lastIndexOf(lineFeed, bytes.length - 2) + 1;
	const sumAt = (from: number) => Buffer.from(bytes.subarray(from, from + sumLength)).toString('latin1');
	return { size: bytes.length, first: sumAt(0), last: sumAt(lastAt), lastAt, whole: hex(bytes) };
};

/** A day as another one rests on it, up to the record of a number. @param bytes up to the end of its line */
export const headOf = (bytes: Uint8Array, upto: number): Head => ({
	day: dayId(bytes),
	upto,
	sum: hex(bytes),
});

/** What a next day says of the one that it rests on, given its records. */
export const followsOn = ([opened]: readonly DayRecord[], head: Head): Follows => ({
	of: (opened?.type === 'day.opened' && opened.of) || head.day,
	after: [head],
});

const fits = (path: string, mark: Mark, size: number | undefined, port: FilePort): boolean => {
	if (size !== mark.size) return false;
	const spots = [
		{ from: 0, length: sumLength },
		{ from: mark.lastAt, length: size - mark.lastAt },
	];
	const [first = '', last = ''] = port.pieces(path, spots).map(piece => asBuffer(piece).toString('latin1'));
	return first === mark.first && last.startsWith(mark.last) && last.indexOf('\n') === last.length - 1;
};

const isFields = (of: unknown): of is Record<string, unknown> =>
	typeof of === 'object' && of !== null && !Array.isArray(of);
const all = (of: Record<string, unknown>, type: 'number' | 'string', ...names: string[]): boolean =>
	names.every(name => typeof of[name] === type && (type === 'string' || Number.isFinite(of[name])));

const isMark = (of: unknown): of is Mark =>
	isFields(of) && all(of, 'number', 'size', 'lastAt') && all(of, 'string', 'first', 'last', 'whole');
const isGlimpse = (of: unknown): of is Glimpse =>
	isFields(of) &&
	all(of, 'string', 'id', 'job', 'began', 'ended') &&
	all(of, 'number', 'before', 'after', 'upto') &&
	(of.of === null || typeof of.of === 'string') &&
	(of.clock === 'real' || of.clock === 'moved') &&
	of.closed === true &&
	[of.firsts, of.restsOn].every(
		words => Array.isArray(words) && words.every(word => typeof word === 'string'),
	);
const isTaught = (of: unknown): of is Taught =>
	isFields(of) &&
	all(of, 'string', 'mark') &&
	all(of, 'number', 'elapsed_s', 'planned_s', 'timed') &&
	Array.isArray(of.cups) &&
	of.cups.every(
		cup => isFields(cup) && all(cup, 'number', 'emitted_mL', 'used_mL') && typeof cup.weighed === 'boolean',
	);

/** What a line holds, given without its end, where its checksum fits; undefined: it does not. */
const openedLine = (line: Buffer): unknown => {
	if (line.toString('latin1', 0, sumLength) !== hex(line.subarray(sumLength + 1))) return undefined;
	try {
		return JSON.parse(line.toString('utf8', sumLength + 1));
	} catch {
		return undefined;
	}
};
const written = (of: unknown) => {
	const json = JSON.stringify(of);
	return `${hex(json)} ${json}\n`;
};

/**
 * What is kept beside a day; null where there is nothing, or it is not of the day as it lies there.
 * @param size of the day's file, where it is known
 */
export function readSums(path: string, port: FilePort = disk, size?: number): KeptSums | null {
	try {
		const bytes = asBuffer(port.read(sumsPath(path)));
		const end = bytes.indexOf(lineFeed);
		const head = openedLine(bytes.subarray(0, end));
		if (!isFields(head) || head.v !== version) return null;
		const { mark, glimpse, taught } = head;
		if (!isMark(mark) || !isGlimpse(glimpse) || !Array.isArray(taught) || !taught.every(isTaught))
			return null;
		if (!fits(path, mark, size ?? port.stat(path)?.size, port)) return null;
		return {
			glimpse,
			taught,
			head: { day: glimpse.id, upto: glimpse.upto, sum: mark.whole },
			history: () => openedLine(bytes.subarray(end + 1, -1)) ?? null,
			isWhole: () => hex(port.read(path)) === mark.whole,
		};
	} catch {
		return null;
	}
}

/** Whether a file is one that was kept here before, whole or not: nothing else is written over. */
const isOurs = (path: string, port: FilePort): boolean => {
	try {
		return /^[0-9a-f]{8} \{"v":/.test(Buffer.from(port.read(path).subarray(0, 15)).toString('latin1'));
	} catch (error) {
		return errorCode(error) === 'ENOENT';
	}
};

/**
 * Keeps beside a closed day what it teaches. A disk that does not take it costs time at the next start, and nothing else:
 * it need not be synced either, since a half of it is told by its checksum.
 * @param bytes of the day, whole
 * @param history how it left its faces; left out where that is not worked out
 */
export function keepSums(
	path: string,
	bytes: Uint8Array,
	taught: readonly Taught[],
	history: unknown = undefined,
	port: FilePort = disk,
): void {
	const glimpse = glimpseDay(bytes);
	if (!glimpse?.closed || !isOurs(sumsPath(path), port)) return;
	const lines = [written({ v: version, mark: markOf(bytes), glimpse, taught })];
	if (history !== undefined) lines.push(written(history));
	discard(() => {
		const { name, handle } = openPassing(port, sumsPath(path));
		try {
			try {
				writeAll(port, handle, Buffer.from(lines.join('')));
			} finally {
				port.close(handle);
			}
			port.rename(name, sumsPath(path));
		} catch (error) {
			discard(() => port.unlink(name));
			throw error;
		}
	});
}
