import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import * as z from 'zod/mini';
import { dataFolder } from '../day/file/folder.ts';
import { diskError } from '../day/file/trouble.ts';
import { readText } from '../job/read-text.ts';

/** The answers to a sheet that was begun and left, kept from answer to answer. */

const schema = z.object({ answers: z.array(z.string()) });
const path = (): string => join(dataFolder(), 'new-sheet.json');

/** The answers kept; none where nothing was begun, or its file cannot be read. */
export function answersKept(): string[] {
	const read = readText(path(), 'none is begun');
	if (!read.ok) return [];
	try {
		return schema.parse(JSON.parse(read.text)).answers;
	} catch {
		return [];
	}
}

/**
 * Keeps them in place of those kept before: whole, or not at all.
 * @throws DayFileError `disk` where they cannot be written
 */
export function keepAnswers(answers: readonly string[]): void {
	const fresh = `${path()}.fresh`;
	try {
		mkdirSync(dirname(path()), { recursive: true });
		writeFileSync(fresh, `${JSON.stringify({ answers })}\n`, { mode: 0o600 });
		renameSync(fresh, path());
	} catch (error) {
		throw diskError(path(), 'the answers were not kept', error);
	}
}

export const forgetAnswers = (): void => rmSync(path(), { force: true });
