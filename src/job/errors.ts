import { brief } from './inert.ts';
import { likeliest } from './other-words.ts';

/** What is wrong with a file, and where: line and column counted from 1. */
export type SheetError = { file: string; line: number; column: number; says: string };

/** One line: `file:line:column: what is wrong`. */
export const errorLine = ({ file, line, column, says }: SheetError): string =>
	`${brief(file, 200)}:${line}:${column}: ${says}`;

/** `found "uprigt"; allowed: upright, flat; nearest: upright`. */
export function notAllowed(found: string, allowed: readonly string[]): string {
	const like = likeliest(found, allowed);
	const listed = allowed.length > 12 ? [...allowed.slice(0, 12), `${allowed.length - 12} more`] : allowed;
	return `found "${brief(found)}"; allowed: ${listed.map(word => brief(word)).join(', ')}${like ? `; nearest: ${brief(like)}` : ''}`;
}

/** So many complaints are read one by one; of more, one of each kind. This project's own choice. */
const readOneByOne = 10;

/** What is wrong, whatever it is called and however much of it there is. */
const kindOf = ({ says }: SheetError): string =>
	says
		.replaceAll(/"[^"]*"/g, '""')
		.replaceAll(/\b(part|face|material) [^,:]+/g, '$1')
		.replaceAll(/\d+(?:\.\d+)?/g, '0');

/** Every complaint as a line; of many the first of each kind, with how many there are like it. */
export function errorLines(errors: readonly SheetError[]): string[] {
	if (errors.length <= readOneByOne) return errors.map(errorLine);
	const kinds = new Map<string, SheetError[]>();
	for (const error of errors) kinds.set(kindOf(error), [...(kinds.get(kindOf(error)) ?? []), error]);
	return [...kinds.values()].flatMap(([first, ...more]) => {
		if (!first) return [];
		return [more.length === 0 ? errorLine(first) : `${errorLine(first)} (and ${more.length} like it)`];
	});
}
