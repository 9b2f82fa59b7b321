import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { becomes, oldSheets } from './old/sheets.ts';

const kept: unknown = JSON.parse(readFileSync(join(import.meta.dirname, 'old/kept.json'), 'utf8'));

/**
 * The jobs were kept before sheets took shorter forms; made anew they would hold nothing. The days were made anew once, with
 * every job as it was, when two questions came to be asked on one screen and a level by the lines of its pot; and the one in a
 * shop warmer than its sheet's times, when what ends there came to do so by a third for 10 °C.
 */
test('a sheet of the old form makes the same job and begins the same day', async () => {
	const now = await Promise.all(
		Object.entries(oldSheets).map(async ([name, text]) => [name, await becomes(text)]),
	);
	expect(Object.fromEntries(now)).toEqual(kept);
});
