import { existsSync, readdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { loadDay } from '../day/file/days.ts';
import { daysFolder, listDays, resolveDay } from '../day/file/folder.ts';
import { readLight } from '../day/file/read-light.ts';
import { readBytes } from '../day/file/store.ts';
import { DayFileError } from '../day/file/trouble.ts';
import type { DayRecord } from '../day/records.ts';
import { beginsJob } from '../trace/chain.ts';
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
	const path = resolveDay(args.positionals[0], folderOf(io));
	return { path, records: loadDay(path) };
}

const nameOfJob = (path: string): string => /_([a-z0-9-]+?)(?:-\d+)?\.day\.jsonl$/.exec(path)?.[1] ?? '';

/** The days of the job up to a day, oldest first; a day that cannot be read ends the row, and is said. */
export function daysUpTo(path: string, records: DayRecord[], io: Io): DayRecord[][] {
	const days = [records];
	const opened = records[0];
	if (opened?.type !== 'day.opened') return days;
	for (const other of listDays(dirname(path))) {
		const oldest = days[0];
		if (!oldest || beginsJob(oldest)) break;
		if (other.path === path || nameOfJob(other.path) !== nameOfJob(path)) continue;
		try {
			const found = loadDay(other.path);
			const first = found[0];
			const same = first?.type === 'day.opened' && first.job === opened.job && first.clock === opened.clock;
			if (same && first.at < (oldest[0]?.at ?? '')) days.unshift(found);
		} catch (error) {
			if (!(error instanceof DayFileError)) throw error;
			io.stderr.write(`fanwise: passed over: ${error.message}\n`);
		}
	}
	return days;
}

/** The days of every job in a folder, one job at a time, each oldest first; what cannot be read is said. */
export function* jobsIn(folder: string, io: Io): Generator<DayRecord[][]> {
	const byName = new Map<string, string[]>();
	for (const { path } of listDays(folder).toReversed())
		byName.set(nameOfJob(path), [...(byName.get(nameOfJob(path)) ?? []), path]);
	for (const paths of byName.values()) {
		let job: DayRecord[][] = [];
		for (const path of paths) {
			const day = readable(path, io);
			if (!day) continue;
			if (job.length > 0 && beginsJob(day)) {
				yield job;
				job = [];
			}
			job.push(day);
		}
		if (job.length > 0) yield job;
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
		const day = readable(join(folder, name), io);
		return day !== null && isRehearsed(day);
	}).length;
}

function readable(path: string, io: Io): DayRecord[] | null {
	try {
		return readLight(readBytes(path)) ?? loadDay(path);
	} catch (error) {
		if (!(error instanceof DayFileError)) throw error;
		io.stderr.write(`fanwise: passed over: ${error.message}\n`);
		return null;
	}
}

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
