import { execFileSync } from 'node:child_process';
import { readFileSync, readlinkSync } from 'node:fs';
import { hostname } from 'node:os';
import * as z from 'zod/mini';
import { discard, moveAway, openPassing, placeNew, writeAll } from './fresh.ts';
import { disk, type FilePort } from './port.ts';
import { DayFileError, errorCode, plainName } from './trouble.ts';

const holderSchema = z.object({
	pid: z.int().check(z.positive()),
	/** When the process started, in whatever words the system has for it: a number may be given out again. */
	start: z.nullable(z.string()),
	host: z.string(),
	/** Which start of the machine it ran under, and among which processes its number means anything. */
	boot: z.optional(z.nullable(z.string())),
	space: z.optional(z.nullable(z.string())),
});
export type Holder = z.infer<typeof holderSchema>;

/** Whether a process may still be there; `unknown`: nobody can tell from here. */
export type Standing = 'alive' | 'gone' | 'unknown';

/** What a lock asks of the processes of this machine. */
export type Processes = {
	me(): Holder;
	standing(holder: Holder): Standing;
};

const gone = 'gone';

const readWord = (path: string) => readFileSync(path, 'latin1').trim();
const linuxBoot = (): string => readWord('/proc/sys/kernel/random/boot_id');

const linuxStart = (pid: number): string => {
	const stat = readFileSync(`/proc/${pid}/stat`, 'latin1');
	const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
	return fields[0] === 'Z' || fields[0] === 'X' ? gone : `${linuxBoot()} ${fields[19]}`;
};

const psStart = (pid: number): string => {
	const env = { ...process.env, LC_ALL: 'C', TZ: 'UTC' };
	const said = execFileSync('ps', ['-o', 'stat=,lstart=', '-p', String(pid)], { env, encoding: 'utf8' });
	const [state = '', ...start] = said.trim().split(/\s+/);
	return state.startsWith('Z') ? gone : start.join(' ');
};

const isThere = (pid: number): boolean => {
	try {
		process.kill(pid, 0);
		return true;
	} catch (error) {
		return errorCode(error) === 'EPERM';
	}
};

/** Null where the system does not say. */
const orNull = (ask: () => string): string | null => {
	try {
		return ask();
	} catch {
		return null;
	}
};

/**
 * The processes of this machine, as a platform (in Node's word for it) tells of them. Where machine, start of the
 * machine or numbering of the processes are others than here, or are not told, nobody can tell of a process: two machines
 * may have one name, and one machine may number its processes twice.
 */
export const processesOn = (platform: string): Processes => {
	const isLinux = platform === 'linux';
	/** `gone`: it has ended and only its entry is left. */
	const startOf = (pid: number) => orNull(() => (isLinux ? linuxStart(pid) : psStart(pid)));
	/** The first process of all begins when the machine does. */
	const boot = () => orNull(() => (isLinux ? linuxBoot() : psStart(1)));
	const space = () => (isLinux ? orNull(() => readlinkSync('/proc/self/ns/pid')) : 'one');
	return {
		me: () => ({
			pid: process.pid,
			start: startOf(process.pid),
			host: hostname(),
			boot: boot(),
			space: space(),
		}),
		standing: holder => {
			const here = { host: hostname(), boot: boot(), space: space() };
			if (here.boot === null || here.space === null) return 'unknown';
			if (holder.host !== here.host || holder.boot !== here.boot || holder.space !== here.space)
				return 'unknown';
			if (!isThere(holder.pid)) return 'gone';
			const start = startOf(holder.pid);
			return start !== gone && (holder.start === null || start === null || start === holder.start)
				? 'alive'
				: 'gone';
		},
	};
};

export type Lock = {
	/**
	 * Throws where another program has the day now.
	 * @returns false where the lock was gone and had to be taken again: another program may have had the day meanwhile
	 */
	confirm(): boolean;
	release(): void;
};

/** Held open, the lock's inode number is not given out again, so that it tells this lock from any later one. */
type Mark = { handle: number; inode: bigint };

type Found = { text: string; holder: Holder | null };

const holderOf = (port: FilePort, path: string): Found | null => {
	try {
		const text = Buffer.from(port.read(path)).toString('utf8');
		try {
			return { text, holder: holderSchema.parse(JSON.parse(text)) };
		} catch {
			return { text, holder: null };
		}
	} catch (error) {
		if (errorCode(error) === 'ENOENT') return null;
		throw error;
	}
};

/** Whether some program has a day open, by its lock; null: none has. */
export const standingOf = (
	day: string,
	port: FilePort = disk,
	processes: Processes = processesOn(process.platform),
): Standing | null => {
	const found = holderOf(port, `${day}.lock`);
	return found && (found.holder ? processes.standing(found.holder) : 'unknown');
};

/** A day that is open in another program, or was: nobody can tell. */
export class LockedError extends DayFileError {
	/** The lock, word for word, and whether its process may still be there. */
	readonly text: string;
	readonly standing: Standing;
	/** `process 41 on cart`. */
	readonly who: string;
	readonly day: string;
	constructor(day: string, lock: string, { text, holder }: Found, standing: Standing) {
		const who = holder
			? `process ${holder.pid} on ${plainName(holder.host)}`
			: 'a program that its lock does not name';
		const remedy =
			standing === 'alive'
				? 'close it there'
				: `close it there, or, if it no longer runs, delete ${plainName(lock)}`;
		super('locked', `${plainName(day)}: this day is open already, in ${who}: ${remedy}`);
		this.day = day;
		this.text = text;
		this.standing = standing;
		this.who = who;
	}
}

/** Takes away the lock of a dead process; false where someone else was faster. */
const removeDead = (port: FilePort, path: string, text: string): boolean => {
	let away: string;
	try {
		away = moveAway(port, path);
	} catch (error) {
		if (errorCode(error) === 'ENOENT') return false;
		throw error;
	}
	const same = Buffer.from(port.read(away)).toString('utf8') === text;
	if (same) discard(() => port.unlink(away));
	else placeNew(port, away, path);
	return same;
};

/**
 * Takes the lock of a day file, a small file beside it that names the process. A lock left by a process that is gone
 * is taken over. The lock appears with its content in one step, so that no crash leaves half of one.
 *
 * @param day path of the day file
 * @param dead a lock, word for word, of which somebody has said that its process is dead
 * @throws LockedError where a process has it that lives, or of which nobody can tell
 */
export const takeLock = (
	day: string,
	port: FilePort,
	processes: Processes = processesOn(process.platform),
	dead: string | null = null,
): Lock => {
	const path = `${day}.lock`;
	const me = processes.me();
	const text = Buffer.from(`${JSON.stringify(me)}\n`);

	const place = (): Mark => {
		const { name: mine, handle } = openPassing(port, path);
		try {
			writeAll(port, handle, text);
			port.sync(handle);
			const written = port.stat(mine);
			if (written?.size !== text.length) throw Object.assign(new Error('not all is there'), { code: 'EIO' });
			placeNew(port, mine, path);
			return { handle, inode: written.ino };
		} catch (error) {
			discard(() => port.close(handle));
			discard(() => port.unlink(mine));
			throw error;
		}
	};
	const standing = ({ text: found, holder }: Found): Standing =>
		found === dead ? 'gone' : holder ? processes.standing(holder) : 'unknown';
	const take = (): Mark => {
		for (let tries = 0; tries < 5; tries++) {
			const found = holderOf(port, path);
			const stands = found && standing(found);
			if (found && stands && stands !== 'gone') throw new LockedError(day, path, found, stands);
			if (found && !removeDead(port, path, found.text)) continue;
			try {
				return place();
			} catch (error) {
				if (errorCode(error) !== 'EEXIST') throw error;
			}
		}
		throw new LockedError(day, path, { text: '', holder: null }, 'unknown');
	};

	let mark = take();
	let released = false;
	const isMine = () => port.stat(path)?.ino === mark.inode;
	return {
		confirm: () => {
			if (isMine()) return true;
			const next = take();
			discard(() => port.close(mark.handle));
			mark = next;
			return false;
		},
		release: () => {
			if (released) return;
			released = true;
			try {
				if (isMine()) port.unlink(path);
			} finally {
				discard(() => port.close(mark.handle));
			}
		},
	};
};
