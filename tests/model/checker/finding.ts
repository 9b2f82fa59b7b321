/** The numbers of the guard's properties that a day file alone can decide; `form` is the file's own shape. */
export type Property = 1 | 2 | 3 | 4 | 6 | 8 | 11 | 13 | 14 | 15 | 16 | 17 | 19 | 22 | 'form';

/** One thing that a day file shows and the guard forbids. `line` counts from 1. */
export type Finding = { property: Property; line: number; says: string };

/** A finding at the line of a note. */
export function finding(property: Property, at: { line: number }, says: string): Finding {
	return { property, line: at.line, says };
}
