import type { Tables } from '../tables/tables.ts';

/** The faces that a day's chart has rows for. */
export const timelineFaces = (tables: Tables, sheet: readonly string[]): string[] => {
	const seen = new Set([...tables.coats, ...tables.windows, ...tables.faults].map(({ face }) => face));
	return sheet.filter(id => seen.has(id));
};
