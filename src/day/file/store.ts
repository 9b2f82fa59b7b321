import { dirname } from 'node:path';
import { clock } from '../../words/clock.ts';
import type { DayRecord } from '../records.ts';
import { besideDay } from './folder.ts';
import { discard, type Held, syncNames, writeFresh } from './fresh.ts';
import { type DayFile, encodeKey, freeName, keep, type OnTrouble } from './keep.ts';
import { asWritten, hasOtherEnds } from './line-ends.ts';
import { type Lock, type Processes, takeLock } from './lock.ts';
import { disk, type FilePort } from './port.ts';
import { type DayRead, readDay } from './read.ts';
import { DayFileError, diskError, plainName } from './trouble.ts';

export type StoreOptions = {
	port?: FilePort;
	processes?: Processes;
	/** A lock, word for word, of which somebody has said that its process is dead. */
	dead?: string | null;
	/** A failed write or sync, a file removed or replaced, an end that the disk has lost. */
	onTrouble?: OnTrouble;
};

/** Says once that a disk does not sync its folders: the day is kept all the same. */
const unsyncedOnce = (tell: OnTrouble) => {
	let isSaid = false;
	return (folder: string) => {
		if (isSaid) return;
		isSaid = true;
		const says = 'this disk does not sync its folders: a power cut may take a day that was just begun';
		tell(`${plainName(folder)}: ${says}`, 'Disk: a power cut may take a day just begun.');
	};
};

const withLock = <T>(
	path: string,
	options: StoreOptions,
	doing: string,
	run: (port: FilePort, lock: Lock) => T,
): T => {
	const port = options.port ?? disk;
	let lock: Lock | null = null;
	try {
		lock = takeLock(path, port, options.processes, options.dead);
		return run(port, lock);
	} catch (error) {
		discard(() => lock?.release());
		throw diskError(path, doing, error);
	}
};

/**
 * Begins a day file, readable by its owner alone.
 *
 * @param path must be free; its folder must be there
 * @param first the `day.opened` record, number 1
 * @throws DayFileError
 */
export const createDay = (path: string, first: DayRecord, options: StoreOptions = {}): DayFile => {
	if (first.type !== 'day.opened') throw new TypeError('a day file begins with day.opened');
	const opening = encodeKey([first], undefined);
	return withLock(path, options, 'the day was not begun', (port, lock) => {
		const tell = options.onTrouble ?? (() => {});
		const unsynced = unsyncedOnce(tell);
		const held = writeFresh(port, path, [opening], 'new', unsynced);
		const start = { path, held, lock, pieces: [opening], records: [first], torn: null };
		return keep(start, port, tell, unsynced);
	});
};

/** Nothing of such a day can be counted, so that whoever moves it away must know what that costs. */
const useCopy =
	'put a copy of it in its place, or move it to another folder: the coats of that day are then not counted';

/** Why a day that was read cannot be gone on with, or not relied on, and what to do; null: it is whole, or torn. */
export const whyUnusable = (path: string, read: DayRead, port: FilePort = disk): DayFileError | null => {
	const name = plainName(path);
	const { damage, otherVersion, records } = read;
	if (otherVersion !== null) return new DayFileError('unusable', `${name}: ${damage?.what}`);
	if (damage && records.length === 0 && damage.line === 1)
		return !damage.foreign
			? new DayFileError(
					'damaged',
					`${name}:1: the day file is damaged in the line that all others hang on: ${damage.what}; ${useCopy}`,
				)
			: new DayFileError('unusable', `${name}:1: this is no day file: ${damage.what}`);
	if (damage) {
		const target = plainName(besideDay(path, port) ?? 'FILE');
		const says = `${name}:${damage.line}: the day file is damaged: ${damage.what}`;
		const remedy = `save what is whole with \`fanwise log ${name} --salvage ${target}\`, then move ${name} to another folder`;
		return new DayFileError('damaged', `${says}; ${remedy}`);
	}
	if (records.length > 0) return null;
	return read.torn === null
		? new DayFileError('unusable', `${name}: nothing is in this day file: ${useCopy}`)
		: new DayFileError('unusable', `${name}: there is no whole record in this file: ${useCopy}`);
};

const refuseUnreadable = (path: string, port: FilePort) => {
	const found = port.stat(path);
	if (!found)
		throw new DayFileError(
			'missing',
			`${plainName(path)}: there is no such day file: look at \`fanwise log\``,
		);
	if (!found.isFile)
		throw new DayFileError('unusable', `${plainName(path)}: this is no file: name a day file`);
};

const readRaw = (path: string, port: FilePort): Uint8Array => {
	try {
		refuseUnreadable(path, port);
		return port.read(path);
	} catch (error) {
		throw diskError(path, 'the day was not read', error);
	}
};

/** The bytes of a day file as this program writes them; a folder or a device is refused before it is read. */
export const readBytes = (path: string, port: FilePort = disk): Uint8Array => asWritten(readRaw(path, port));

/** What is said of a day whose line ends another program has changed; null: they are as they were written. */
export const otherEndsSaid = (path: string, port: FilePort = disk): string | null =>
	hasOtherEnds(readRaw(path, port))
		? `${plainName(path)}: another program has changed the line ends of this day file; nothing of it is lost`
		: null;

const realPath = (path: string, port: FilePort): string => {
	try {
		refuseUnreadable(path, port);
		return port.real(path);
	} catch (error) {
		throw diskError(path, 'the day was not opened', error);
	}
};

const setTornAside = (
	port: FilePort,
	path: string,
	bytes: Uint8Array,
	read: DayRead,
	unsynced: (folder: string) => void,
): [Held, DayFile['torn']] => {
	const from = read.goodBytes;
	const aside = freeName(port, `${path}.torn-${(read.records.at(-1)?.seq ?? 0) + 1}`);
	port.close(writeFresh(port, aside, [bytes.subarray(from)], 'new', unsynced).handle);
	const held = writeFresh(port, path, [bytes.subarray(0, from)], 'over', unsynced);
	return [held, { bytes: bytes.length - from, aside }];
};

const tornSays = (path: string, { bytes, aside }: NonNullable<DayFile['torn']>) =>
	`${plainName(path)}: ${bytes} bytes at its end were no whole record, as after a power cut: they do not count, and are kept in ${plainName(aside)}`;

const tornFar = (records: readonly DayRecord[]) => {
	const [opened] = records;
	const zone = opened?.type === 'day.opened' ? opened.zone : 'UTC';
	return `Disk: what came after ${clock(Date.parse(records.at(-1)?.at ?? ''), zone)} was lost. It does not count.`;
};

const openWhole = (
	port: FilePort,
	path: string,
	bytes: Uint8Array,
	unsynced: (folder: string) => void,
): Held => {
	const handle = port.open(path, 'append');
	try {
		// What was read may so far stand in memory only: the program before may have died before its sync.
		port.sync(handle);
		syncNames(port, dirname(path), unsynced);
		const found = port.stat(path);
		if (found?.size !== bytes.length)
			throw new DayFileError('locked', `${plainName(path)}: something else writes in it: close that`);
		return { handle, dev: found.dev, ino: found.ino, size: bytes.length };
	} catch (error) {
		discard(() => port.close(handle));
		throw error;
	}
};

/**
 * Opens a day file to go on with it, under its lock. A torn tail is moved to a file beside it, `.torn-` and the
 * number of the record it would have been.
 *
 * @throws DayFileError `locked` by another program, `damaged`, `unusable`, `missing`, `disk`
 */
export const openDay = (given: string, options: StoreOptions = {}): DayFile => {
	const path = realPath(given, options.port ?? disk);
	return withLock(path, options, 'the day was not opened', (port, lock) => {
		const found = readRaw(path, port);
		const bytes = asWritten(found);
		const read = readDay(bytes);
		const unusable = whyUnusable(path, read, port);
		if (unusable) throw unusable;
		const tell = options.onTrouble ?? (() => {});
		const unsynced = unsyncedOnce(tell);
		const [held, torn] = read.torn
			? setTornAside(port, path, bytes, read, unsynced)
			: bytes === found
				? [openWhole(port, path, bytes, unsynced), null]
				: [writeFresh(port, path, [bytes], 'over', unsynced), null];
		const pieces = [bytes.subarray(0, read.goodBytes)];
		if (hasOtherEnds(found))
			tell(
				`${plainName(path)}: another program has changed its line ends; it was written anew as it was`,
				'Day file: its line ends were changed. It is as it was.',
			);
		if (torn) tell(tornSays(path, torn), tornFar(read.records));
		return keep({ path, held, lock, pieces, records: read.records, torn }, port, tell, unsynced);
	});
};
