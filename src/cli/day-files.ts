import { existsSync, readdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { chainsOf } from '../day/chains.ts';
import { forkSaid, loadDay, newestDay } from '../day/file/days.ts';
import { daysFolder, listDays, resolveDay } from '../day/file/folder.ts';
import { type Glimpse, glimpseDay } from '../day/file/glimpse.ts';
import { readLight } from '../day/file/read-light.ts';
import { otherEndsSaid, readBytes } from '../day/file/store.ts';
import { readSums } from '../day/file/sums.ts';
import { DayFileError } from '../day/file/trouble.ts';
import type { DayRecord } from '../day/records.ts';
import type { Args, Io } from './command.ts';
import { statusOf } from './status.ts';

/** Where this user's days lie. */
export const folderOf = (io: Io): string =>
	daysFolder({ env: io.env, platform: process.platform, home: homedir() });

/**
 * The day a command was asked about: a path, a name, or the newest.
 * @throws DayFileError where there is none, or it cannot be read
 */
export function askedDay(args: Args, io: Io): { path: string; records: DayRecord[] } {
	if (args.positionals.length > 1)
		throw new RangeError(`one day at a time: leave out "${args.positionals.slice(1).join(' ')}"`);
	const path = pathAsked(args, io);
	return { path, records: loadDay(path) };
}

/**
 * The file of the day that a command was asked about.
 * @throws DayFileError where there is none
 */
export function pathAsked({ positionals: [named] }: Args, io: Io): string {
	const passedOver = ({ message }: DayFileError) => io.stderr.write(`fanwise: passed over: ${message}\n`);
	const folder = folderOf(io);
	const path = named === undefined ? newestDay(folder, passedOver) : resolveDay(named, folder);
	const said = otherEndsSaid(path);
	if (said) io.stderr.write(`fanwise: ${said}\n`);
	return path;
}

const nameOfJob = (path: string): string => /_([a-z0-9-]+?)(?:-\d+)?\.day\.jsonl$/.exec(path)?.[1] ?? '';

const listed = <One>(one: One | null): One[] => (one === null ? [] : [one]);

type Found = { path: string; place: Glimpse };

/** Days as they follow each other, one row a job; a day that cannot be read is said. */
function rowsOf(paths: readonly string[], io: Io): Found[][] {
	const byJob = new Map<string, Found[]>();
	for (const path of paths) {
		const place = readSums(path)?.glimpse ?? glimpseDay(readBytes(path));
		if (!place) readable(path, io, dayAt);
		const job = place ? `${place.clock} ${place.job}` : '';
		if (place) byJob.set(job, [...(byJob.get(job) ?? []), { path, place }]);
	}
	return [...byJob.values()].flatMap(days => chainsOf(days));
}

/** The files of the job of a day, oldest first, as far as they can be read; what is wrong with their order is said. */
export function jobOf(path: string, io: Io): string[] {
	const beside = listDays(dirname(path)).flatMap(other =>
		other.name !== basename(path) && nameOfJob(other.path) === nameOfJob(path) ? [other.path] : [],
	);
	if (beside.length === 0) return [path];
	const row = rowsOf([...beside.toReversed(), path], io).find(days => days.some(day => day.path === path));
	return row ? inOrder(row, io) : [path];
}

/** The files of a job's days, oldest first; two that follow the same one are said. */
function inOrder(row: readonly Found[], io: Io): string[] {
	const fork = forkSaid(row);
	if (fork) io.stderr.write(`fanwise: ${fork.message}\n`);
	return row.map(({ path }) => path);
}

/** The days of the job up to a day, oldest first; one that cannot be read is said and passed over. */
export function daysUpTo(path: string, records: DayRecord[], io: Io): DayRecord[][] {
	const row = jobOf(path, io);
	const before = row.slice(0, row.indexOf(path));
	return [...before.flatMap(day => listed(readable(day, io, dayAt))), records];
}

/** The days of every job in a folder, one job at a time, each oldest first; what cannot be read is said. */
export function* jobsIn(folder: string, io: Io): Generator<DayRecord[][]> {
	const byName = new Map<string, string[]>();
	for (const { path } of listDays(folder).toReversed())
		byName.set(nameOfJob(path), [...(byName.get(nameOfJob(path)) ?? []), path]);
	for (const paths of byName.values()) {
		const rows = paths.length === 1 ? [paths] : rowsOf(paths, io).map(row => inOrder(row, io));
		for (const row of rows) {
			const days = row.flatMap(path => listed(readable(path, io, dayAt)));
			if (days.length > 0) yield days;
		}
	}
}

/** Whether a day ran on a clock that can be moved. */
export const isRehearsed = ([opened]: readonly DayRecord[]): boolean =>
	opened?.type === 'day.opened' && opened.clock === 'moved';

/** How many rehearsed days lie in a folder under names of their own, which no list of days has. */
export function rehearsedBeside(folder: string, io: Io): number {
	if (!existsSync(folder)) return 0;
	const listed = new Set(listDays(folder).map(({ name }) => name));
	return readdirSync(folder).filter(name => {
		if (!name.endsWith('.day.jsonl') || listed.has(name)) return false;
		const day = readable(join(folder, name), io, dayAt);
		return day !== null && isRehearsed(day);
	}).length;
}

/** A day that can be read, or something of it; null, and said, where it cannot. */
export function readable<Of>(path: string, io: Io, read: (path: string) => Of): Of | null {
	try {
		return read(path);
	} catch (error) {
		if (!(error instanceof DayFileError)) throw error;
		io.stderr.write(`fanwise: passed over: ${error.message}\n`);
		return null;
	}
}

export const dayAt = (path: string): DayRecord[] => readLight(readBytes(path)) ?? loadDay(path);

/** Runs a command's body; what is wrong with its input becomes one line and status 2, a damaged day status 1. */
export async function told(name: string, io: Io, body: () => Promise<number> | number): Promise<number> {
	try {
		return await body();
	} catch (error) {
		if (!(error instanceof DayFileError || error instanceof RangeError || isInputError(error))) throw error;
		io.stderr.write(`fanwise ${name}: ${error.message}\n`);
		return error instanceof DayFileError ? statusOf(error) : 2;
	}
}

const isInputError = (error: unknown): error is Error =>
	error instanceof Error && (error.name === 'TraceError' || error.name === 'FaultsError');
