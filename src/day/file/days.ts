import { chainsOf, forkIn } from '../chains.ts';
import type { DayRecord } from '../records.ts';
import { listDays, noDayYet, slugOf } from './folder.ts';
import { type Glimpse, glimpseDay } from './glimpse.ts';
import { disk, type FilePort } from './port.ts';
import { beganDay, type DayRead, readDay } from './read.ts';
import { readBytes, whyUnusable } from './store.ts';
import { type KeptSums, readSums } from './sums.ts';
import { DayFileError, plainName } from './trouble.ts';

/**
 * Reads a day without its lock and without changing it. A torn tail is passed over.
 *
 * @throws DayFileError `missing`, `damaged`, `unusable`, `disk`
 */
export const loadDay = (path: string, port: FilePort = disk): DayRecord[] => {
	const read = readDay(readBytes(path, port));
	const unusable = whyUnusable(path, read, port);
	if (unusable) throw unusable;
	return read.records;
};

/** A day of a job. `glimpse` null: its first line cannot be read, and it counts by its name. */
export type DayOfJob = {
	path: string;
	date: string;
	glimpse: Glimpse | null;
	/** What is kept beside it; null: nothing, or nothing that fits it. */
	sums: KeptSums | null;
	read(): DayRead;
};

/**
 * The days of a job that were sprayed on the real clock, the newest first: in the order in which they follow each other
 * by what was laid, whatever their names say. One whose first line cannot be read is the newest where its name says so,
 * so that it is not passed over in silence.
 * @param listed the days of the folder, where they were listed before
 */
export const daysOfJob = (
	folder: string,
	job: string,
	port: FilePort = disk,
	listed = listDays(folder, port),
): DayOfJob[] => {
	const slug = slugOf(job);
	const days = listed.flatMap(({ path, name, date, size }): DayOfJob[] => {
		const part = name.slice(date.length + 1, name.indexOf('.'));
		if (part !== slug && part.replace(/-\d+$/, '') !== slug) return [];
		const sums = readSums(path, port, size);
		const glimpse = sums?.glimpse ?? glimpseDay(readBytes(path, port));
		if (glimpse && (glimpse.job !== job || glimpse.clock !== 'real')) return [];
		return [{ path, date, glimpse, sums, read: () => readDay(readBytes(path, port)) }];
	});
	const known = rowsOf(days)
		.flat()
		.toReversed()
		.map(({ day }) => day);
	const before = days.findIndex(({ path }) => path === known[0]?.path);
	const unknown = days.filter(({ glimpse }) => glimpse === null);
	const isNewer = (day: DayOfJob) => before < 0 || days.findIndex(({ path }) => path === day.path) < before;
	return [...unknown.filter(isNewer), ...known, ...unknown.filter(day => !isNewer(day))];
};

const rowsOf = (days: readonly DayOfJob[]) =>
	chainsOf(
		days.toReversed().flatMap(day => (day.glimpse ? [{ day, path: day.path, place: day.glimpse }] : [])),
	);

/**
 * The job that a new day would go on with: the id of its first day, and what is wrong with how its days follow each other.
 * @param days of one name, as `daysOfJob` gives them
 * @returns null where there is none yet
 */
export const jobToGoOn = (days: readonly DayOfJob[]): { of: string; fork: DayFileError | null } | null => {
	const row = rowsOf(days).at(-1);
	const [first] = row ?? [];
	if (!row || !first) return null;
	return { of: row.findLast(({ place }) => place.of)?.place.of ?? first.place.id, fork: forkSaid(row) };
};

/**
 * What is said of a job whose days do not follow each other one by one; null: they do.
 * @param row its days, as `chainsOf` gives them
 */
export const forkSaid = (row: readonly { path: string; place: Glimpse }[]): DayFileError | null => {
	const [one, other] = forkIn(row) ?? [];
	if (!one || !other) return null;
	const says = `it follows the same day as ${plainName(one.path)}, and neither counts the coats of the other`;
	const remedy = 'move one of them to another folder: its coats are then not counted';
	return new DayFileError('damaged', `${plainName(other.path)}: ${says}: ${remedy}`);
};

/**
 * The day of a job that comes before any new one: the newest that was not closed, or the newest of all where that
 * cannot be read whole, closed or not: `openDay` then says what is wrong with it and how to settle it. Null: there is
 * none.
 * @param days of the job, as `daysOfJob` gives them
 */
export const dayInTheWay = (days: readonly DayOfJob[]): string | null => {
	for (const [index, { path, glimpse, sums, read }] of days.entries()) {
		if (index > 0 ? glimpse === null || glimpse.closed : sums?.isWhole()) continue;
		const { damage, records } = read();
		const readable = damage === null && records.length > 0;
		if (readable ? !glimpse?.closed : index === 0) return path;
	}
	return null;
};

/**
 * The newest day of a folder, and of its job; one that is damaged is a day all the same.
 * @param passedOver is told of a file that has a day's name and was none ever
 * @throws DayFileError `missing` where there is none
 */
export const newestDay = (
	folder: string,
	passedOver: (why: DayFileError) => void = () => {},
	port: FilePort = disk,
): string => {
	const listed = listDays(folder, port);
	for (const { path } of listed) {
		const bytes = readBytes(path, port);
		const glimpse = glimpseDay(bytes);
		const why = glimpse || beganDay(bytes) ? null : whyUnusable(path, readDay(bytes), port);
		if (why) passedOver(why);
		else {
			const [newest] = glimpse?.clock === 'real' ? daysOfJob(folder, glimpse.job, port, listed) : [];
			return newest?.path ?? path;
		}
	}
	throw noDayYet(folder);
};
