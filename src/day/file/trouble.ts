import { inert } from '../../job/inert.ts';

export type TroubleKind =
	/** No such day, or a name that fits none. */
	| 'missing'
	/** Not a day file, or of another version. */
	| 'unusable'
	| 'damaged'
	| 'locked'
	/** The clock stands before the end of the last day. */
	| 'clock'
	/** The shelf says otherwise than the last day of the job. */
	| 'shelf'
	/** Another program has added to it since this one opened it. */
	| 'overtaken'
	/** It could not be read or written. */
	| 'disk';

/** Something about a day file that stops the work: one line that says what, where and what to do. */
export class DayFileError extends Error {
	readonly kind: TroubleKind;
	constructor(kind: TroubleKind, message: string, cause?: unknown) {
		super(message, { cause });
		this.name = 'DayFileError';
		this.kind = kind;
	}
}

/** A name of any length and content as one short piece of plain text. */
export const plainName = (name: string): string => {
	const shown = inert(name);
	return shown.length > 200 ? `${shown.slice(0, 100)}…${shown.slice(-60)}` : shown;
};

const remedies: Record<string, string> = {
	ENOSPC: 'the disk is full: free some room, then go on',
	EDQUOT: 'the disk quota is used up: free some room, then go on',
	EFBIG: 'the file is larger than the disk takes: choose another folder with FANWISE_HOME',
	EROFS: 'the disk can only be read: choose another folder with FANWISE_HOME',
	EACCES: 'this user may not: change the rights, or choose another folder with FANWISE_HOME',
	EPERM: 'this user may not: change the rights, or choose another folder with FANWISE_HOME',
	ENOENT: 'the file or its folder is not there: put it back, or choose another folder with FANWISE_HOME',
	ENOTDIR: 'a part of its path is no folder: correct the path',
	EISDIR: 'it is a folder: name a file',
	EEXIST: 'there is a file of that name: choose another name',
	EIO: 'the disk reports an error: copy the day to another disk',
	EMFILE: 'too many files are open: close other programs',
	ENAMETOOLONG: 'the name is too long: choose a shorter one',
	ELOOP: 'its links lead in a circle: correct the path',
};

/** The system's code of an error, e.g. `ENOSPC`. */
export const errorCode = (error: unknown): string =>
	error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';

/** What a failed file operation means, and what to do. */
export const saySystemError = (error: unknown): string => {
	const code = errorCode(error);
	return remedies[code] ?? `${code || plainName(String(error))}: look after the disk, then go on`;
};

/** A failed file operation as one line. `doing`: what was not done, e.g. `not written`. */
export const diskError = (path: string, doing: string, error: unknown): DayFileError =>
	error instanceof DayFileError
		? error
		: new DayFileError('disk', `${plainName(path)}: ${doing}; ${saySystemError(error)}`, error);

/**
 * Does something with the records of a day, each of them whole, that no program may have written one after the other.
 * @throws DayFileError `damaged` where they do not make a day
 */
export const asDay = <Found>(path: string, work: () => Found): Found => {
	try {
		return work();
	} catch (error) {
		if (error instanceof DayFileError) throw error;
		const why = plainName(error instanceof Error ? error.message : String(error));
		const says = `its lines are whole, but make no day (${why}): use a copy of it`;
		throw new DayFileError('damaged', `${plainName(path)}: ${says}`, error);
	}
};

/** What a painter reads of it from afar: the words that matter, what to do about it; where it is comes last. */
export type FarWords = { code: string; say: string; lines: string[] };

type Far = readonly [say: string, whatToDo: string];
const full: Far = ['Disk full: nothing counts until there is room.', 'Free some room on it.'];
const shut: Far = ['Disk: it cannot be written. Nothing counts until it can.', 'Put its rights back.'];
const away: Far = ['Folder of the day is gone: nothing counts until it is back.', 'Put it back as it was.'];
const failing: Far = ['Disk fails: nothing counts until it is well.', 'Look after the disk.'];

/** By the system's code, or by the kind of trouble where no call failed. */
const farWords: Readonly<Record<string, Far>> = {
	...{ ENOSPC: full, EDQUOT: full, EROFS: shut, EACCES: shut, EPERM: shut, ENOENT: away, ENOTDIR: away },
	EEXIST: ['Next day: a file of its name is there already.', 'Move it away.'],
	damaged: ['Day: its file is damaged. Nothing goes on from it.', 'Put a copy in its place.'],
	locked: ['Day: another program has it. Nothing counts here.', 'Close it there, or leave here.'],
	overtaken: ['Day: another program went on with it. Nothing counts here.', 'Leave here, and open it again.'],
};

/** A day that cannot be written, in the words of the screen. `path` of its file. */
export const farWordsOf = ({ kind, cause }: DayFileError, path: string): FarWords => {
	const [say, whatToDo] = farWords[kind === 'disk' ? errorCode(cause) : kind] ?? failing;
	return { code: kind, say, lines: [whatToDo, `In ${plainName(path)}`] };
};
