/** Materials and shop may stand on the shelf, and guns at the stages. */
const needed = ['name', 'stages', 'parts'];
const called = /^name:[ \t]*(?:"([^"\n]+)"|'([^'\n]+)'|([^"'#\s][^#\n]*?))[ \t]*(?:#.*)?$/m;

/**
 * The name on what looks like a job sheet from outside, without reading it as YAML; null: it looks like something
 * else. What is wrong in the sheet is said when it is read.
 */
export function nameOnSheet(text: string): string | null {
	if (!needed.every(key => new RegExp(`^${key}:`, 'm').test(text)) || !/\bgun:/.test(text)) return null;
	const found = called.exec(text);
	return found?.[1] ?? found?.[2] ?? found?.[3] ?? null;
}

/** What a job sheet has at its margin, and hardly another file three of. */
const marks = ['name', 'units', 'shop', 'gun', 'materials', 'stages', 'parts', 'order', 'shelf'];

/** Whether a text is meant for a job sheet, though a key of it may be missing or misspelt. */
export const isMeantAsSheet = (text: string): boolean =>
	marks.filter(key => new RegExp(`^${key}:`, 'm').test(text)).length >= 3;
