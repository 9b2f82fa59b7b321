import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { becomes, oldSheets } from './old/sheets.ts';

const kept: unknown = JSON.parse(readFileSync(join(import.meta.dirname, 'old/kept.json'), 'utf8'));

/** What was kept was made before sheets took shorter forms; made anew it would hold nothing. */
test('a sheet of the old form makes the same job and begins the same day', async () => {
	const now = await Promise.all(
		Object.entries(oldSheets).map(async ([name, text]) => [name, await becomes(text)]),
	);
	expect(Object.fromEntries(now)).toEqual(kept);
});
