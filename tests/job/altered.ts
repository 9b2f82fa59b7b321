import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseJob } from '../../src/job/load.ts';

/** The example sheet, as it comes with the program. */
export const exampleText = readFileSync(
	join(import.meta.dirname, '../../checklists/example/coffee-cart.yaml'),
	'utf8',
);

/** `line:column` of the first place of a text. */
export function placeOf(text: string, mark: string): string {
	const before = text.slice(0, text.indexOf(mark)).split('\n');
	return `${before.length}:${(before.at(-1) ?? '').length + 1}`;
}

/** The example with one place changed; the place must be there. */
export function altered(from: string, to: string): string {
	if (!exampleText.includes(from)) throw new Error(`the example has no "${from}"`);
	return exampleText.replace(from, () => to);
}

/** What is said about a sheet: `line:column says`, in order. */
export function complaintsOf(text: string): string[] {
	const loaded = parseJob(text, 'cart.yaml');
	return loaded.ok ? [] : loaded.errors.map(({ line, column, says }) => `${line}:${column} ${says}`);
}

/** One place of the example changed, the place where its one complaint must stand, and what that says. */
export type Alteration = [what: string, from: string, to: string, mark: string, says: RegExp];
