import type { DayOfJob } from '../day/file/days.ts';
import type { DayName } from '../day/file/folder.ts';
import { readDay } from '../day/file/read.ts';
import { readLight } from '../day/file/read-light.ts';
import { readBytes, whyUnusable } from '../day/file/store.ts';
import { keepSums, readSums } from '../day/file/sums.ts';
import { asDay } from '../day/file/trouble.ts';
import { historyAfter, noHistory } from '../day/history.ts';
import { beforeSchema } from '../day/records.ts';
import { type Taught, taughtBy } from '../plan/rates.ts';
import type { Io } from './command.ts';
import { dayAt, readable } from './day-files.ts';

/**
 * Where the newest day of a job left its faces.
 * @param days of the job, the newest first
 * @throws DayFileError where that day cannot be read whole: an older one would tell of fewer coats
 */
export function historyOf([newest]: readonly DayOfJob[]): typeof noHistory {
	if (!newest) return noHistory;
	const kept = newest.sums?.isWhole() ? beforeSchema.safeParse(newest.sums.history()) : null;
	return kept?.success ? kept.data : teach(newest.path);
}

/**
 * Reads a day whole, and keeps beside it what it teaches where it is closed.
 * @returns how it left its faces
 * @throws DayFileError where it cannot be read whole
 */
export function teach(path: string): typeof noHistory {
	const bytes = readBytes(path);
	const read = readDay(bytes);
	const unusable = whyUnusable(path, read);
	if (unusable) throw unusable;
	const history = asDay(path, () => historyAfter(read.records));
	if (!read.torn) keepSums(path, bytes, taughtBy(read.records), history);
	return history;
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
