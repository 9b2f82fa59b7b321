import { type DayOfJob, jobToGoOn } from '../day/file/days.ts';
import type { DayName } from '../day/file/folder.ts';
import { type DayRead, readDay } from '../day/file/read.ts';
import { readLight } from '../day/file/read-light.ts';
import { readBytes, whyUnusable } from '../day/file/store.ts';
import { followsOn, headOf, keepSums, readSums } from '../day/file/sums.ts';
import { asDay } from '../day/file/trouble.ts';
import { historyAfter, noHistory } from '../day/history.ts';
import { beforeSchema, type Follows, type Head } from '../day/records.ts';
import { type Taught, taughtBy } from '../plan/rates.ts';
import type { Io } from './command.ts';
import { dayAt, readable } from './day-files.ts';

/** Where days left the faces of their job, and what a day that goes on from there says of them. */
export type Left = { before: typeof noHistory; follows: Follows | null };

/**
 * Where the newest day of a job left its faces.
 * @param days of the job, the newest first
 * @throws DayFileError where that day cannot be read whole, or is not the only newest: an older one, or one of two,
 * would tell of fewer coats
 */
export function historyOf(days: readonly DayOfJob[]): Left {
	const [newest] = days;
	if (!newest) return { before: noHistory, follows: null };
	const { before, head } = keptOf(newest) ?? teach(newest.path);
	const job = jobToGoOn(days);
	if (job?.fork) throw job.fork;
	return { before, follows: { of: job?.of ?? head.day, after: [head] } };
}

function keptOf({ sums }: DayOfJob): Taken | null {
	const kept = sums?.isWhole() ? beforeSchema.safeParse(sums.history()) : null;
	return sums && kept?.success ? { before: kept.data, head: sums.head } : null;
}

type Taken = { before: typeof noHistory; head: Head };

/**
 * How a day left its faces, and the day as the next one rests on it.
 * @param bytes of its file
 * @throws DayFileError where it cannot be read whole
 */
function takenFrom(path: string, bytes: Uint8Array): Taken & { read: DayRead } {
	const read = readDay(bytes);
	const unusable = whyUnusable(path, read);
	if (unusable) throw unusable;
	const before = asDay(path, () => historyAfter(read.records));
	return { before, head: headOf(bytes.subarray(0, read.goodBytes), read.records.length), read };
}

/**
 * Reads a day whole, and keeps beside it what it teaches where it is closed.
 * @returns how it left its faces, and the day as the next one rests on it
 * @throws DayFileError where it cannot be read whole
 */
export function teach(path: string): Taken {
	const bytes = readBytes(path);
	const { read, ...taken } = takenFrom(path, bytes);
	if (!read.torn) keepSums(path, bytes, taughtBy(read.records), taken.before);
	return taken;
}

/**
 * Where a day that is none of the shop's left its faces: a rehearsed one teaches nothing, and nothing is kept beside it.
 * @throws DayFileError where it cannot be read whole
 */
export function leftBy(path: string): Left {
	const { before, head, read } = takenFrom(path, readBytes(path));
	return { before, follows: followsOn(read.records, head) };
}

/**
 * What days teach; what cannot be read is said, and what had to be read is kept beside its day.
 * @param known days among them that were looked at before
 */
export function* taughtIn(
	listed: readonly DayName[],
	io: Io,
	known: readonly DayOfJob[] = [],
): Generator<Taught[]> {
	const before = new Map(known.map(({ path, sums }) => [path, sums]));
	for (const { path, size } of listed) {
		const kept = before.get(path) ?? readSums(path, undefined, size);
		if (kept) yield kept.taught;
		else yield* readTaught(path, io);
	}
}

function* readTaught(path: string, io: Io): Generator<Taught[]> {
	const bytes = readable(path, io, readBytes);
	const light = bytes && readLight(bytes);
	const day = light ?? readable(path, io, dayAt);
	if (!bytes || !day) return;
	const taught = taughtBy(day);
	if (light) keepSums(path, bytes, taught);
	yield taught;
}
