import { renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import * as z from 'zod/mini';
import { dataFolder } from '../day/file/folder.ts';
import { makeFolders } from '../day/file/port.ts';
import { diskError } from '../day/file/trouble.ts';
import { readText } from '../job/read-text.ts';

/** The answers to a sheet that was begun and left, kept from answer to answer. */
export type Begun = {
	/** None where nothing was begun, or its file cannot be read. */
	kept(): string[];
	/**
	 * Keeps them in place of those kept before: whole, or not at all.
	 * @throws DayFileError `disk` where they cannot be written
	 */
	keep(answers: readonly string[]): void;
	forget(): void;
};

const schema = z.object({ answers: z.array(z.string()), of: z.optional(z.string()) });

/**
 * @param file its name in the data folder
 * @param of the sheet that they are for, where there is one: those for another are none
 */
export function begunSheet(file: string, of?: string): Begun {
	const path = join(dataFolder(), file);
	return {
		kept() {
			const read = readText(path, 'none is begun');
			if (!read.ok) return [];
			try {
				const kept = schema.parse(JSON.parse(read.text));
				return kept.of === of ? kept.answers : [];
			} catch {
				return [];
			}
		},
		keep(answers) {
			const fresh = `${path}.fresh`;
			try {
				makeFolders(dirname(path));
				writeFileSync(fresh, `${JSON.stringify({ answers, of })}\n`, { mode: 0o600 });
				renameSync(fresh, path);
			} catch (error) {
				throw diskError(path, 'the answers were not kept', error);
			}
		},
		forget: () => rmSync(path, { force: true }),
	};
}
