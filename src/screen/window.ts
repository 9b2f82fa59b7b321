import type { Settings } from '../day/settings.ts';
import { leastColumns, leastRows } from './arrange.ts';
import { readFrom_m, readFromWords } from './legible.ts';
import type { GlyphStyle } from './letters.ts';

/** The window that this process is shown in. */

type Environment = Record<string, string | undefined>;

/** Half blocks where the locale can write them; plain characters where it cannot. */
export function glyphStyle(env: Environment): GlyphStyle {
	const locale = env.LC_ALL || env.LC_CTYPE || env.LANG || '';
	return /utf-?8/i.test(locale) || (locale === '' && process.platform === 'win32') ? 'half' : 'ascii';
}

/** From how far the words of a day can be read in this process's window, and how far the shop wants it. */
export function readFromHere({ screen_mm, distance_m }: Settings, env: Environment): string {
	const { columns = 80, rows = 24 } = process.stdout;
	const size = { columns: Math.max(columns, leastColumns), rows: Math.max(rows, leastRows) };
	return readFromWords(readFrom_m(size, glyphStyle(env), screen_mm), distance_m);
}
