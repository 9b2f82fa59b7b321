import { checkDayFile } from '../checker/check.ts';
import { find, seal } from '../checker/draft.ts';
import type { Property } from '../checker/finding.ts';
import type { Raw } from '../checker/lines.ts';

/** Days that the program wrote, spoiled one thing at a time: what the checker finds in them. */

export const lid = 'counter lid/top';
export const edges = 'left door/edges';
export const outside = 'left door/outside';
export const allFaces = [lid, edges, outside];

/** What the checker says against one property. */
export const saysOf = (property: Property, records: Raw[], before: Raw[][] = []) =>
	checkDayFile(seal(records), before.map(seal)).flatMap(found =>
		found.property === property ? [found.says] : [],
	);

/** The records with one added, before another of them and at its instant. */
export function putBefore(
	records: Raw[],
	which: Parameters<typeof find>[1],
	type: string,
	fields: Raw,
	nth = 0,
): Raw[] {
	const n = find(records, which, nth);
	const { run, at, mono, up } = records[n] ?? {};
	return records.toSpliced(n, 0, {
		seq: 0,
		run,
		at,
		mono,
		...(up === undefined ? {} : { up }),
		type,
		...fields,
	});
}
