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
