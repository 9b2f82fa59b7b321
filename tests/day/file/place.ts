import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

/** A folder of its own for one test, gone afterwards. */
export const newPlace = (): string => {
	const folder = mkdtempSync(join(tmpdir(), 'day-file-'));
	onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
	return folder;
};
