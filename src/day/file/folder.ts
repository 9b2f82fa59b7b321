import { homedir } from 'node:os';
import { basename, dirname, isAbsolute, join, resolve } from 'node:path';
import { disk, type FilePort } from './port.ts';
import { DayFileError, diskError, errorCode, plainName } from './trouble.ts';

export type Surroundings = {
	env: Readonly<Record<string, string | undefined>>;
	platform: string;
	home: string;
};

const here = (): Surroundings => ({ env: process.env, platform: process.platform, home: homedir() });

/** Where this user's data lies: `FANWISE_HOME`, else the place the system has for it (XDG base directories). */
export const dataFolder = ({ env, platform, home }: Surroundings = here()): string => {
	if (env.FANWISE_HOME) return resolve(env.FANWISE_HOME);
	// The XDG rule: a relative path there is to be passed over.
	if (env.XDG_DATA_HOME && isAbsolute(env.XDG_DATA_HOME)) return join(env.XDG_DATA_HOME, 'fanwise');
	if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'fanwise');
	if (platform === 'win32') return join(env.LOCALAPPDATA ?? join(home, 'AppData', 'Local'), 'fanwise');
	return join(home, '.local', 'share', 'fanwise');
};

/** Where the days lie. */
export const daysFolder = (surroundings?: Surroundings): string => join(dataFolder(surroundings), 'days');

/** Where the shop's own materials and guns lie. */
export const shelfFolder = (surroundings?: Surroundings): string => join(dataFolder(surroundings), 'shelf');

/** Makes the folder of the days where it is missing, open to its owner alone. */
export const makeDaysFolder = (folder: string = daysFolder(), port: FilePort = disk): string => {
	try {
		port.makeFolder(folder);
		return folder;
	} catch (error) {
		throw diskError(folder, 'the folder of the days was not made', error);
	}
};

/**
 * Room for a long day twice over, since it is written anew where a write fails, and for what else goes on meanwhile,
 * bytes. This project's own choice.
 */
const roomForDay = 1_000_000;

/**
 * Finds out before a day is begun whether its disk has room for it, and not at its first key.
 * @throws DayFileError `disk` where it has not; a disk that does not say how much it has is taken as it is
 */
export const checkRoom = (folder: string, port: FilePort = disk): void => {
	let free = Number.POSITIVE_INFINITY;
	try {
		free = port.free(folder);
	} catch {}
	if (free >= roomForDay) return;
	const says = `${Math.floor(free / 1000)} kB are free on this disk, and a day wants ${roomForDay / 1000}`;
	const remedy = 'free some room, or choose another folder with FANWISE_HOME';
	throw new DayFileError('disk', `${plainName(folder)}: the day was not begun; ${says}: ${remedy}`);
};

const ending = '.day.jsonl';
const slugLength = 40;

/** A job's name as a part of a file name: small letters, digits and dashes, 1 to 40 of them. */
export const slugOf = (job: string): string =>
	job
		.slice(0, 1000)
		.normalize('NFKD')
		.replace(/\p{M}/gu, '')
		.toLowerCase()
		.replace(/[^a-z0-9]+/g, '-')
		.replace(/^-/, '')
		.slice(0, slugLength)
		.replace(/-$/, '') || 'job';

/**
 * A free path for a new day.
 *
 * @param day its job, and the date on which it begins, as `2027-03-02`
 */
export const newDayPath = (
	folder: string,
	day: { job: string; date: string },
	port: FilePort = disk,
): string => {
	const name = `${day.date}_${slugOf(day.job)}`;
	for (let count = 1; ; count++) {
		const path = join(folder, `${name}${count === 1 ? '' : `-${count}`}${ending}`);
		if (!port.stat(path)) return path;
	}
};

/** A free name for a second file of the same day and job, beside it; null: it has no day's name. */
export const besideDay = (path: string, port: FilePort = disk): string | null => {
	const [, date, slug] = dayName.exec(basename(path)) ?? [];
	return date && slug ? newDayPath(dirname(path), { date, job: slug.replace(/-\d+$/, '') }, port) : null;
};

/** `size` of its file, bytes. */
export type DayName = { path: string; name: string; date: string; size: number };

const dayName = /^(\d{4}-\d{2}-\d{2})_([a-z0-9-]+)\.day\.jsonl$/;

type Listed = DayName & { changed_ms: number };

const bare = ({ name }: Listed): string => name.slice(0, -ending.length);

/** The first of the days whose names differ by the numbers at their ends alone. */
function firstOf(day: string, all: ReadonlySet<string>): string {
	const shorter = day.replace(/-\d+$/, '');
	return shorter !== day && all.has(shorter) ? firstOf(shorter, all) : day;
}

/** Names of days are small letters, digits and dashes: no language has another order for them. */
const byLetters = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0);

/**
 * By the date, then by the job that was touched last, then by the number in the name: a file that was looked at or put
 * back is no later day for that.
 */
function newestFirst(days: readonly Listed[]): Listed[] {
	const all = new Set(days.map(bare));
	const touched_ms = new Map<string, number>();
	const ranked = days.map(day => {
		const first = firstOf(bare(day), all);
		touched_ms.set(first, Math.max(day.changed_ms, touched_ms.get(first) ?? 0));
		return { day, first };
	});
	const touched = (first: string) => touched_ms.get(first) ?? 0;
	return ranked
		.toSorted(
			(a, b) =>
				byLetters(b.day.date, a.day.date) ||
				touched(b.first) - touched(a.first) ||
				b.day.name.length - a.day.name.length ||
				byLetters(b.day.name, a.day.name),
		)
		.map(({ day }) => day);
}

/** The days in a folder, the newest first. */
export const listDays = (folder: string, port: FilePort = disk): DayName[] => {
	try {
		const beginning = join(folder, '/');
		const days = port.list(folder).flatMap(name => {
			const date = dayName.exec(name)?.[1];
			const path = beginning + name;
			const found = date ? port.stat(path) : null;
			const { size = 0, changed_ms = 0 } = found ?? {};
			return date && found?.isFile ? [{ path, name, date, size, changed_ms }] : [];
		});
		return newestFirst(days).map(({ path, name, date, size }) => ({ path, name, date, size }));
	} catch (error) {
		if (errorCode(error) === 'ENOENT') return [];
		throw diskError(folder, 'the days were not listed', error);
	}
};

export const noDayYet = (folder: string): DayFileError =>
	new DayFileError(
		'missing',
		`${plainName(folder)}: there is no day yet: begin one with \`fanwise spray JOB.yaml\``,
	);

/**
 * The day file that is meant: a path, or the name of a day in the folder, whole or its beginning.
 *
 * @throws DayFileError `missing` where none or more than one fits
 */
export const resolveDay = (given: string, folder: string, port: FilePort = disk): string => {
	const days = listDays(folder, port);
	const newest = days[0];
	const exact = days.find(({ name }) => name === given || name === `${given}${ending}`);
	if (exact) return exact.path;
	if (isThere(given, port)) return given;
	const fitting = given === '' ? [] : days.filter(({ name }) => name.startsWith(given));
	if (fitting.length === 1 && fitting[0]) return fitting[0].path;
	const found = fitting.length === 0 ? 'no day' : `${fitting.length} days`;
	const remedy = newest ? `the newest is ${newest.name}` : 'begin one with `fanwise spray JOB.yaml`';
	const says = `${plainName(given)}: ${found} of that name in ${plainName(folder)}: ${remedy}`;
	throw new DayFileError('missing', says);
};

/** A name too long or with a NUL is simply not there. */
const isThere = (path: string, port: FilePort): boolean => {
	try {
		return port.stat(path) !== null;
	} catch {
		return false;
	}
};
