import type { DayRecord } from '../records.ts';
import { discard, type Held, moveToMade, writeAll, writeFresh } from './fresh.ts';
import { encodeLine } from './line.ts';
import type { Lock } from './lock.ts';
import type { FilePort, FileStat } from './port.ts';
import { DayFileError, diskError, plainName, saySystemError } from './trouble.ts';

/** Is told of trouble that was got over: in one line, and in the few words of a screen. */
export type OnTrouble = (message: string, far: string) => void;

/** A day file that this program has open and nobody else. */
export type DayFile = {
	readonly path: string;
	/** What the file held when it was opened. */
	readonly records: readonly DayRecord[];
	/** What a crash had left at its end, and the file it was moved to. */
	readonly torn: { bytes: number; aside: string } | null;
	/**
	 * Adds the records of one key: one write, synced. Returns when they are on the disk; sets `more`.
	 *
	 * @throws DayFileError `disk` or `locked`: this key does not count, and it may be given again, or another; only if
	 * the program ends before, the file may hold it. `overtaken`: no key counts any more
	 * @throws TypeError where a record does not follow or could not be read again
	 */
	append(records: readonly DayRecord[]): void;
	close(): void;
};

/** The lines of one key's records, which must follow `last`; all but the last of them carry `more`. */
export const encodeKey = (records: readonly DayRecord[], last: DayRecord | undefined): Uint8Array => {
	let before = last;
	const lines = records.map((given, index) => {
		const { more: _, ...bare } = given;
		const record: DayRecord = index < records.length - 1 ? { ...bare, more: true } : bare;
		if (record.seq !== (before?.seq ?? 0) + 1 || record.run < (before?.run ?? 1))
			throw new TypeError(
				`record ${record.seq} of run ${record.run} does not follow record ${before?.seq ?? 0}`,
			);
		before = record;
		return encodeLine(record);
	});
	return Buffer.concat(lines);
};

type Start = {
	path: string;
	held: Held;
	lock: Lock;
	pieces: Uint8Array[];
	records: readonly DayRecord[];
	torn: DayFile['torn'];
};

/** A name that nothing has yet. */
export const freeName = (port: FilePort, path: string) => {
	for (let count = 1; ; count++) {
		const name = count === 1 ? path : `${path}-${count}`;
		if (!port.stat(name)) return name;
	}
};

/** Gives what lies under a day's name a second name, so that nothing of it is lost when it is replaced. */
const keepAside = (port: FilePort, path: string, why: string): string => {
	const aside = freeName(port, `${path}.${why}`);
	try {
		port.link(path, aside);
	} catch {
		moveToMade(port, path, { name: aside, handle: port.open(aside, 'new') });
	}
	return aside;
};

/** Why a day is written anew, in full and in the few words of a screen. */
type Strange = { says: string; far: string };

const removed: Strange = { says: 'it was removed while it was open', far: 'Day file: it was removed.' };
const replaced: Strange = { says: 'it was replaced while it was open', far: 'Day file: it was replaced.' };
const writtenIn: Strange = {
	says: 'something else wrote in it while it was open',
	far: 'Day file: something else wrote in it.',
};
const unwritten = (why: string): Strange => ({
	says: `it could not be written${why}`,
	far: 'Disk: a write failed.',
});

const whatIsStrange = (found: FileStat | null, held: Held): Strange | null => {
	if (!found) return removed;
	if (found.dev !== held.dev || found.ino !== held.ino) return replaced;
	return found.size === held.size ? null : writtenIn;
};

const firstLine = (piece: Uint8Array) => piece.subarray(0, piece.indexOf(10) + 1);

/**
 * Keeps the day's bytes in memory, so that it can be written anew at any time.
 * @param onUnsynced is told of a folder that its disk does not sync
 */
export const keep = (
	start: Start,
	port: FilePort,
	onTrouble: OnTrouble,
	onUnsynced: (folder: string) => void,
): DayFile => {
	const { path, lock, pieces } = start;
	let last = start.records.at(-1);
	let known = start.held;
	/** Not every system lets a file be replaced or removed that is open; one that was closed is never closed again. */
	let isHeld = true;
	const letGo = () => {
		if (!isHeld) return;
		isHeld = false;
		discard(() => port.close(known.handle));
	};
	/** False once a write or a sync failed: what the system says of this handle means nothing from then on. */
	let trusted = true;
	/** Keys that were not acknowledged and may all the same lie in the file. */
	let attempts: Uint8Array[] = [];
	let open = true;
	/** False while another program may have had the day since it was last looked at. */
	let alone = true;
	/** What is in memory is no longer the day: nothing is written any more. */
	let overtaken: DayFileError | null = null;

	const accept = (held: Held) => {
		known = held;
		isHeld = true;
		trusted = true;
		attempts = [];
	};
	const writeOn = (key: Uint8Array): Strange | null => {
		if (!trusted) return unwritten(' before');
		trusted = false;
		try {
			writeAll(port, known.handle, key);
			port.sync(known.handle);
			const size = known.size + key.length;
			const strange = whatIsStrange(port.stat(path), { ...known, size });
			if (strange === null) accept({ ...known, size });
			return strange;
		} catch (error) {
			return unwritten(` (${saySystemError(error)})`);
		}
	};
	const begins = (whole: Uint8Array, start: Uint8Array) =>
		Buffer.compare(whole.subarray(0, start.length), start) === 0;
	const lyingThere = (): Uint8Array | null => (port.stat(path) ? port.read(path) : null);
	/** Whether memory holds all that lies under the day's name. */
	const isOurs = (there = lyingThere()) => {
		if (!there) return true;
		const ours = Buffer.concat(pieces);
		if (begins(ours, there)) return true;
		return begins(there, ours) && attempts.some(key => begins(key, there.subarray(ours.length)));
	};
	/** Whether it is this day, with keys that are not known here. */
	const wentOn = () => {
		const there = lyingThere();
		const [opening] = pieces;
		const isThisDay = there !== null && opening !== undefined && begins(there, firstLine(opening));
		return isThisDay && !isOurs(there);
	};
	const writeAnew = (key: Uint8Array): string => {
		const aside = isOurs() ? null : keepAside(port, path, `other-${last?.seq ?? 0}`);
		letGo();
		accept(writeFresh(port, path, [...pieces, key], 'over', onUnsynced));
		return aside
			? `the day was written anew, what lay there is in ${plainName(aside)}`
			: 'the day was written anew';
	};
	const confirm = () => {
		if (overtaken) throw overtaken;
		if (!lock.confirm()) alone = false;
		alone ||= !wentOn();
		if (alone) return;
		discard(() => lock.release());
		const says = 'another program has gone on with this day meanwhile: leave here, and open it again';
		overtaken = new DayFileError('overtaken', `${plainName(path)}: ${says}`);
		throw overtaken;
	};
	const write = (key: Uint8Array): Strange | null => {
		try {
			confirm();
			attempts.push(key);
			const failed = writeOn(key);
			if (!failed) return null;
			const says = `${plainName(path)}: ${failed.says}; ${writeAnew(key)}`;
			return { says, far: `${failed.far} The day was written anew.` };
		} catch (error) {
			throw diskError(path, 'this key was not taken', error);
		}
	};

	return {
		path,
		records: start.records,
		torn: start.torn,
		append: records => {
			if (!open) throw new TypeError('the day file is closed');
			if (records.length === 0) return;
			const key = encodeKey(records, last);
			const trouble = write(key);
			pieces.push(key);
			last = records.at(-1);
			if (trouble) onTrouble(trouble.says, trouble.far);
		},
		close: () => {
			if (!open) return;
			open = false;
			letGo();
			discard(() => lock.release());
		},
	};
};
