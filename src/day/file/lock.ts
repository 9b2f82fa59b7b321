import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';
import * as z from 'zod/mini';
import { discard, moveAway, openPassing, placeNew, writeAll } from './fresh.ts';
import type { FilePort } from './port.ts';
import { DayFileError, errorCode, plainName } from './trouble.ts';

const holderSchema = z.object({
	pid: z.int().check(z.positive()),
	/** When the process started, in whatever words the system has for it: a number may be given out again. */
	start: z.nullable(z.string()),
	host: z.string(),
});
export type Holder = z.infer<typeof holderSchema>;

/** What a lock asks of the processes of this machine. */
export type Processes = {
	me(): Holder;
	/** Whether the process that wrote a lock may still be there. */
	lives(holder: Holder): boolean;
};

const gone = 'gone';

const linuxStart = (pid: number): string => {
	const stat = readFileSync(`/proc/${pid}/stat`, 'latin1');
	const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
	const boot = readFileSync('/proc/sys/kernel/random/boot_id', 'latin1').trim();
	return fields[0] === 'Z' || fields[0] === 'X' ? gone : `${boot} ${fields[19]}`;
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

/** The processes of this machine, as a platform (in Node's word for it) tells of them. */
export const processesOn = (platform: string): Processes => {
	/** When a process started; `gone`: it has ended and only its entry is left; null: the system does not say. */
	const startOf = (pid: number): string | null => {
		try {
			return platform === 'linux' ? linuxStart(pid) : psStart(pid);
		} catch {
			return null;
		}
	};
	return {
		me: () => ({ pid: process.pid, start: startOf(process.pid), host: hostname() }),
		lives: ({ pid, start, host }) => {
			if (host !== hostname()) return true;
			if (!isThere(pid)) return false;
			const now = startOf(pid);
			return now !== gone && (start === null || now === null || now === start);
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

const holderOf = (port: FilePort, path: string): { text: string; holder: Holder | null } | null => {
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

const refusal = (day: string, lock: string, holder: Holder | null) => {
	const who = holder
		? `process ${holder.pid} on ${plainName(holder.host)}`
		: 'a program that its lock does not name';
	const remedy = `close it there, or, if it no longer runs, delete ${plainName(lock)}`;
	return new DayFileError('locked', `${plainName(day)}: this day is open already, in ${who}: ${remedy}`);
};

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
 * @throws DayFileError `locked` where a living process has it
 */
export const takeLock = (
	day: string,
	port: FilePort,
	processes: Processes = processesOn(process.platform),
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
	const take = (): Mark => {
		for (let tries = 0; tries < 5; tries++) {
			const found = holderOf(port, path);
			if (found && (!found.holder || processes.lives(found.holder))) throw refusal(day, path, found.holder);
			if (found && !removeDead(port, path, found.text)) continue;
			try {
				return place();
			} catch (error) {
				if (errorCode(error) !== 'EEXIST') throw error;
			}
		}
		throw refusal(day, path, null);
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
