import { closeSync, constants, fstatSync, openSync, readFileSync } from 'node:fs';
import type { SheetError } from './errors.ts';
import { brief } from './inert.ts';

/** Ten thousand faces are about 1 MB. */
const mostBytes = 4_000_000;

export type ReadText = { ok: true; text: string } | { ok: false; errors: SheetError[] };

const refusals: Record<string, string> = {
	ENOTDIR: 'there is no such file: part of its path is not a folder',
	EISDIR: 'is a folder: name the file in it',
	EACCES: 'may not be read: check its permissions',
	ENAMETOOLONG: 'has too long a name',
	ERR_INVALID_ARG_VALUE: 'is not a file name',
};

const codeOf = (error: unknown): string =>
	error instanceof Error && 'code' in error ? String(error.code) : 'unknown';

/**
 * Opening a pipe that nobody writes to would never return. The flag has another number on each system, and none where
 * there are no such pipes among the files.
 */
const withoutWaiting = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0);

/** Bytes of a regular file of bearable size, or what is wrong with it in words. */
function bytesOf(path: string): Buffer | string {
	const file = openSync(path, withoutWaiting);
	try {
		const found = fstatSync(file);
		if (found.isDirectory()) return refusals.EISDIR ?? '';
		if (!found.isFile()) return 'is not an ordinary file: name a text file';
		if (found.size > mostBytes)
			return `is larger than ${mostBytes / 1e6} MB: split the text into smaller ones`;
		return readFileSync(file);
	} finally {
		closeSync(file);
	}
}

/** Text of UTF-8 bytes, or what is wrong with them in words. */
function decode(bytes: Uint8Array): { text: string } | string {
	if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
		return 'is saved as UTF-16: save it as UTF-8';
	if (bytes.includes(0)) return 'is not a text file: YAML, saved as UTF-8, is wanted';
	try {
		return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
	} catch {
		return 'is not a text file in UTF-8: save it as UTF-8';
	}
}

/**
 * Reads a text file that a person wrote.
 * @param remedy what to do when there is no such file
 * @returns its text, or one error that says what, where and what to do; never throws for what a path may hold
 */
export function readText(path: string, remedy: string): ReadText {
	const refuse = (says: string): ReadText => ({
		ok: false,
		errors: [{ file: path, line: 1, column: 1, says }],
	});
	try {
		const bytes = bytesOf(path);
		if (typeof bytes === 'string') return refuse(bytes);
		const decoded = decode(bytes);
		return typeof decoded === 'string' ? refuse(decoded) : { ok: true, ...decoded };
	} catch (error) {
		if (codeOf(error) === 'ENOENT') return refuse(`there is no such file: ${remedy}`);
		return refuse(refusals[codeOf(error)] ?? `cannot be read (${brief(codeOf(error))})`);
	}
}
