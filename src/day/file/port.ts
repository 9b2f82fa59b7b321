import {
	closeSync,
	constants,
	fdatasyncSync,
	fsyncSync,
	linkSync,
	mkdirSync,
	openSync,
	readdirSync,
	readFileSync,
	readSync,
	realpathSync,
	renameSync,
	statfsSync,
	statSync,
	unlinkSync,
	writeSync,
} from 'node:fs';
import { dirname } from 'node:path';
import { errorCode } from './trouble.ts';

export type FileStat = { dev: bigint; ino: bigint; size: number; changed_ms: number; isFile: boolean };

/** All that a day file wants of a file system. Every call throws the system's own error. */
export type FilePort = {
	/** `new`: must not be there yet, mode 0600. `append`: every write goes to the end. */
	open(path: string, how: 'new' | 'append'): number;
	/** Writes from `bytes[from]` on; returns how many bytes were taken. */
	write(handle: number, bytes: Uint8Array, from: number): number;
	/** Returns when what was written is on the disk. */
	sync(handle: number): void;
	/** Returns when the names in a folder are on the disk. */
	syncFolder(path: string): void;
	close(handle: number): void;
	rename(from: string, to: string): void;
	/** A second name for a file; fails where `to` is there. */
	link(from: string, to: string): void;
	unlink(path: string): void;
	read(path: string): Uint8Array;
	/** Some pieces of a file alone, each as long as asked or up to its end. */
	pieces(path: string, at: readonly { from: number; length: number }[]): Uint8Array[];
	/** null: not there. */
	stat(path: string): FileStat | null;
	/** The path without links. */
	real(path: string): string;
	list(folder: string): string[];
	/** Makes a folder and those above it, mode 0700, where missing. */
	makeFolder(path: string): void;
	/** Bytes that this user may still write to the disk of a folder. */
	free(folder: string): number;
};

const { O_APPEND, O_CREAT, O_EXCL, O_RDWR } = constants;

const syncFolder = (path: string) => {
	// A folder cannot be opened as a file there, and the system writes its names itself.
	if (process.platform === 'win32') return;
	const handle = openSync(path, 'r');
	try {
		fsyncSync(handle);
	} finally {
		closeSync(handle);
	}
};

const noFolderSync = new Set(['EINVAL', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS']);

/** Whether an error says that a disk does not sync folders, as network file systems do not. */
export const syncsNoFolders = (error: unknown): boolean => noFolderSync.has(errorCode(error));

const syncMade = (folder: string) => {
	try {
		syncFolder(folder);
	} catch (error) {
		if (!syncsNoFolders(error)) throw error;
	}
};

const isFolder = (path: string) => statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;

/**
 * Makes a folder and those above it, where missing. Node's own recursion calls a disk that can only be read a folder
 * that is not there.
 * @returns the first that was made
 */
export const makeFolders = (path: string, mode = 0o777): string | null => {
	if (isFolder(path)) return null;
	const above = dirname(path);
	const first = above === path ? null : makeFolders(above, mode);
	try {
		mkdirSync(path, mode);
	} catch (error) {
		if (!isFolder(path)) throw error;
	}
	return first ?? path;
};

/** The file system of this machine. */
export const disk: FilePort = {
	open: (path, how) => openSync(path, O_RDWR | O_APPEND | (how === 'new' ? O_CREAT | O_EXCL : 0), 0o600),
	write: (handle, bytes, from) => writeSync(handle, bytes, from, bytes.length - from),
	sync: fdatasyncSync,
	syncFolder,
	close: closeSync,
	rename: renameSync,
	link: linkSync,
	unlink: unlinkSync,
	read: path => readFileSync(path),
	pieces: (path, at) => {
		const handle = openSync(path, 'r');
		try {
			return at.map(({ from, length }) => {
				const piece = Buffer.alloc(length);
				return piece.subarray(0, readSync(handle, piece, 0, length, from));
			});
		} finally {
			closeSync(handle);
		}
	},
	stat: path => {
		const found = statSync(path, { bigint: true, throwIfNoEntry: false });
		if (!found) return null;
		const { dev, ino, size, mtimeMs } = found;
		return { dev, ino, size: Number(size), changed_ms: Number(mtimeMs), isFile: found.isFile() };
	},
	real: path => realpathSync(path),
	list: folder => readdirSync(folder),
	free: folder => {
		const { bavail, bsize } = statfsSync(folder);
		return bavail * bsize;
	},
	makeFolder: path => {
		const first = makeFolders(path, 0o700);
		if (first === null) return;
		for (let made = path; made.length >= first.length; made = dirname(made)) syncMade(dirname(made));
	},
};
