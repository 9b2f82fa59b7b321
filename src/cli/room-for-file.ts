import { accessSync, constants, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { plainName, saySystemError } from '../day/file/trouble.ts';

/**
 * Why no file can be written in a folder; null: nothing is known against it.
 * @param missing what becomes of a folder that is not there: it is *made*, or refused
 */
export function whyNoFile(folder: string, missing: 'made' | 'refused' = 'refused'): string | null {
	try {
		if (!statSync(folder).isDirectory()) return `${plainName(folder)} is no folder`;
		accessSync(folder, constants.W_OK);
		return null;
	} catch (error) {
		const above = dirname(folder);
		const isMissing = error instanceof Error && 'code' in error && error.code === 'ENOENT';
		if (isMissing && missing === 'made' && above !== folder) return whyNoFile(above, missing);
		return `${plainName(folder)}: nothing can be written there; ${saySystemError(error)}`;
	}
}
