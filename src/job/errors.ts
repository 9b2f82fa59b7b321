import { nearest } from '../trade/nearest.ts';

/** What is wrong with a file, and where: line and column counted from 1. */
export type SheetError = { file: string; line: number; column: number; says: string };

/** Control, format and line-breaking characters: what a terminal would obey, or an eye would not see. */
const unseen = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Zl}\p{Zp}\p{DI}]/u;

/** `U+202E` for the first character of a text that cannot be seen, with its place in it; undefined if all can. */
export function unseenIn(text: string): { index: number; code: string } | undefined {
	const match = unseen.exec(text);
	if (!match) return undefined;
	const code = match[0].codePointAt(0) ?? 0;
	return { index: match.index, code: `U+${code.toString(16).toUpperCase().padStart(4, '0')}` };
}

/**
 * Text from a file, made fit for a terminal: one line, nothing in it is obeyed, nothing is hidden.
 * @param most characters before it is cut off
 */
export function inert(text: string, most = 60): string {
	const letters = [...text.slice(0, 4 * most)];
	const cut = letters.slice(0, most).map(letter => {
		const found = unseenIn(letter);
		return found ? `<${found.code}>` : letter;
	});
	return cut.join('') + (letters.length > most || text.length > 4 * most ? '…' : '');
}

/** One line: `file:line:column: what is wrong`. */
export const errorLine = ({ file, line, column, says }: SheetError): string =>
	`${inert(file, 200)}:${line}:${column}: ${says}`;

/** `found "uprigt"; allowed: upright, flat; nearest: upright`. */
export function notAllowed(found: string, allowed: readonly string[]): string {
	const like = found.length <= 100 ? nearest(found, allowed) : undefined;
	const listed = allowed.length > 12 ? [...allowed.slice(0, 12), `${allowed.length - 12} more`] : allowed;
	return `found "${inert(found)}"; allowed: ${listed.map(word => inert(word)).join(', ')}${like ? `; nearest: ${inert(like)}` : ''}`;
}
