import { disk, type FilePort } from '../../../src/day/file/port.ts';

const failing = (code: string) => Object.assign(new Error(code), { code });

/** Names that no file can have there. From memory. */
const forbidden = /[<>:"|?*\p{Cc}]|[. ]$/u;
const reserved = /^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i;
const nameIn = (path: string) => path.slice(path.lastIndexOf('/') + 1);

export type WindowsKind = {
	/** A stick: no second names, and asking for one is answered as for a folder. */
	stick?: boolean;
};

/**
 * This machine's disk under rules as Windows has them (from memory): a file that is open is neither replaced nor gone
 * for good when it is removed, its name is free only once it is closed; names are the same in capitals; some cannot be
 * had; a folder cannot be opened, and so is not synced.
 */
export function windowsPort({ stick = false }: WindowsKind = {}) {
	const openAt = new Map<number, string>();
	/** Removed while open: the name stays taken until the last handle is closed. */
	const pending = new Set<string>();
	const key = (path: string) => path.toLowerCase();
	const isOpen = (path: string) => [...openAt.values()].some(one => key(one) === key(path));
	const check = (path: string) => {
		if (forbidden.test(nameIn(path)) || reserved.test(nameIn(path))) throw failing('ENOENT');
		if (pending.has(key(path))) throw failing('EPERM');
	};
	const port: FilePort = {
		...disk,
		open(path, how) {
			check(path);
			if (disk.stat(path)?.isFile === false) throw failing('EISDIR');
			const handle = disk.open(path, how);
			openAt.set(handle, path);
			return handle;
		},
		close(handle) {
			if (!openAt.has(handle)) throw failing('EBADF');
			disk.close(handle);
			const path = openAt.get(handle) ?? '';
			openAt.delete(handle);
			if (pending.has(key(path)) && !isOpen(path)) pending.delete(key(path));
		},
		rename(from, to) {
			check(from);
			check(to);
			if (isOpen(to)) throw failing('EPERM');
			disk.rename(from, to);
			for (const [handle, path] of openAt) if (key(path) === key(from)) openAt.set(handle, to);
		},
		link(from, to) {
			check(to);
			if (stick) throw failing('EISDIR');
			disk.link(from, to);
		},
		unlink(path) {
			check(path);
			disk.unlink(path);
			if (isOpen(path)) pending.add(key(path));
		},
		read(path) {
			check(path);
			return disk.read(path);
		},
		stat: path => (pending.has(key(path)) ? null : disk.stat(path)),
		syncFolder() {},
	};
	return { port, openFiles: () => [...openAt.values()] };
}
