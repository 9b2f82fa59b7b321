import { dayId } from '../day/file/glimpse.ts';
import type { FilePort } from '../day/file/port.ts';
import { type DayRead, readOn } from '../day/file/read.ts';
import { readBytes, whyUnusable } from '../day/file/store.ts';
import { asDay } from '../day/file/trouble.ts';
import type { DayRecord } from '../day/records.ts';
import { type DayState, fold } from '../day/state.ts';
import { type Lookout, lookoutAfter } from './lookout.ts';

/** A day file that somebody else writes, folded as its lines come. */
export type Followed = {
	path: string;
	id: string;
	state: DayState;
	lookout: Lookout;
	/** The file as it was read: another one, or a shorter one, is read from its beginning. */
	ino: bigint;
	size: number;
	/** Where its last whole line lies, and what it says: a key that was withdrawn is found by it. */
	from: number;
	tail: Uint8Array;
};

const lineFeed = 10;

/** Where the last line of some bytes begins that end in a line feed. */
const lastLine = (bytes: Uint8Array): number => bytes.lastIndexOf(lineFeed, bytes.length - 2) + 1;

type Folded = Pick<Followed, 'state' | 'lookout'>;

/** Key by key: the records of one are linked by `more`. */
function folded(known: Folded | null, records: readonly DayRecord[]): Folded {
	let { state, lookout }: Partial<Folded> = known ?? {};
	let key: DayRecord[] = [];
	for (const record of records) {
		state = fold(state ?? null, record);
		key.push(record);
		if (record.more) continue;
		lookout = lookoutAfter(lookout ?? null, key, state);
		key = [];
	}
	if (!state || !lookout) throw new Error('there is no record');
	return { state, lookout };
}

/**
 * A day as its file stands now.
 * @param known as it was read before
 * @throws DayFileError where it cannot be read, or makes no day
 */
export function follow(path: string, known: Followed | null, port: FilePort): Followed {
	const found = port.stat(path);
	if (known && found && found.ino === known.ino && found.size >= known.size) {
		if (found.size === known.size) return known;
		const added = addedTo(known, found.size, port);
		if (added) return added;
	}
	const bytes = readBytes(path, port);
	const read = readOn(bytes);
	const unusable = whyUnusable(path, read, port);
	if (unusable) throw unusable;
	const whole = bytes.subarray(0, read.goodBytes);
	const from = lastLine(whole);
	return {
		...{ path, id: dayId(bytes), ino: found?.ino ?? 0n, size: read.goodBytes },
		...{ from, tail: whole.slice(from) },
		...asDay(path, () => folded(null, read.records)),
	};
}

/** With the lines that came since; null: what is there does not follow on what was read. */
function addedTo(known: Followed, size: number, port: FilePort): Followed | null {
	const { path, from, tail, state } = known;
	const [bytes = new Uint8Array()] = port.pieces(path, [{ from, length: size - from }]);
	if (Buffer.compare(bytes.subarray(0, tail.length), tail) !== 0) return null;
	const rest = bytes.subarray(tail.length);
	const read: DayRead = readOn(rest, state.book.last);
	if (read.damage) return null;
	if (read.records.length === 0) return known;
	const whole = rest.subarray(0, read.goodBytes);
	const begins = lastLine(whole);
	return {
		...known,
		...{ size: known.size + read.goodBytes, from: from + tail.length + begins, tail: whole.slice(begins) },
		...asDay(path, () => folded(known, read.records)),
	};
}
