import { dirname } from 'node:path';
import { type FilePort, syncsNoFolders } from './port.ts';
import { errorCode } from './trouble.ts';

/** Writes all of `bytes`, however few the system takes at a time. */
export const writeAll = (port: FilePort, handle: number, bytes: Uint8Array): void => {
	for (let from = 0; from < bytes.length; ) {
		const taken = port.write(handle, bytes, from);
		if (taken <= 0) throw Object.assign(new Error('nothing was taken'), { code: 'EIO' });
		from += taken;
	}
};

/** Of a disk without second names. `EISDIR`, `EINVAL`: so a stick says it under Windows (from memory). */
const noLinks = new Set([
	...['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EXDEV', 'EISDIR', 'EINVAL'],
]);

/** More names in a row than anybody has taken by chance. */
const mostTries = 100;

/**
 * Opens a new file beside `path` for as long as something is under way, under a name that nobody can know before and
 * that nothing has: what lies there is never touched.
 */
export const openPassing = (port: FilePort, path: string): { name: string; handle: number } => {
	for (let tries = 1; ; tries++) {
		const name = `${path}.${Math.random().toString(36).slice(2, 10).padEnd(8, '0')}.new`;
		try {
			return { name, handle: port.open(name, 'new') };
		} catch (error) {
			if (errorCode(error) !== 'EEXIST' || tries === mostTries) throw error;
		}
	}
};

/** Moves a file to a name that was just made for it and is empty: nothing but that is replaced. */
export const moveToMade = (port: FilePort, from: string, made: { name: string; handle: number }): void => {
	try {
		port.close(made.handle);
		port.rename(from, made.name);
	} catch (error) {
		discard(() => port.unlink(made.name));
		throw error;
	}
};

/** Moves a file out of the way, to a passing name. */
export const moveAway = (port: FilePort, path: string): string => {
	const made = openPassing(port, path);
	moveToMade(port, path, made);
	return made.name;
};

/** Gives a file its name, and fails with `EEXIST` where the name is taken; in one step where there are second names. */
export const placeNew = (port: FilePort, from: string, to: string): void => {
	try {
		port.link(from, to);
	} catch (error) {
		if (!noLinks.has(errorCode(error))) throw error;
		moveToMade(port, from, { name: to, handle: port.open(to, 'new') });
		return;
	}
	discard(() => port.unlink(from));
};

/** Syncs the names in a folder; where its disk cannot, that is told, and gone on with. */
export const syncNames = (
	port: FilePort,
	folder: string,
	tell: (folder: string) => void = () => {},
): void => {
	try {
		port.syncFolder(folder);
	} catch (error) {
		if (!syncsNoFolders(error)) throw error;
		tell(folder);
	}
};

/** An open file and how it is known again. */
export type Held = { handle: number; dev: bigint; ino: bigint; size: number };

/**
 * Writes a whole file under a passing name, syncs it, gives it its own name and syncs the folder: at no moment is
 * there half a file of that name.
 *
 * @param how `new`: the name must be free. `over`: what has the name is replaced.
 * @param tell is told of a folder that its disk does not sync
 * @returns the file, open for appending
 */
export const writeFresh = (
	port: FilePort,
	path: string,
	pieces: readonly Uint8Array[],
	how: 'new' | 'over',
	tell?: (folder: string) => void,
): Held => {
	const { name: passing, handle } = openPassing(port, path);
	let placed = false;
	try {
		const whole = Buffer.concat(pieces);
		writeAll(port, handle, whole);
		port.sync(handle);
		const found = port.stat(passing);
		if (found?.size !== whole.length) throw Object.assign(new Error('not all is there'), { code: 'EIO' });
		if (how === 'new') placeNew(port, passing, path);
		else port.rename(passing, path);
		placed = true;
		syncNames(port, dirname(path), tell);
		return { handle, dev: found.dev, ino: found.ino, size: whole.length };
	} catch (error) {
		discard(() => port.close(handle));
		discard(() => port.unlink(passing));
		if (placed && how === 'new') discard(() => port.unlink(path));
		throw error;
	}
};

/** Tidying after a failure, whose own failure would only hide the first. */
export const discard = (tidy: () => void): void => {
	try {
		tidy();
	} catch {}
};
