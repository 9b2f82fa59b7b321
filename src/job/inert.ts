/** Control, format and line-breaking characters: what a terminal would obey, or an eye would not see. */
const unseen = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Zl}\p{Zp}\p{DI}]/u;
const everyUnseen = new RegExp(unseen, 'gu');

const codeOf = (letter: string): string =>
	`U+${(letter.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;

/** `U+202E` for the first character of a text that cannot be seen, with its place in it; undefined if all can. */
export function unseenIn(text: string): { index: number; code: string } | undefined {
	const match = unseen.exec(text);
	return match ? { index: match.index, code: codeOf(match[0]) } : undefined;
}

/** Text from outside, made fit for a terminal: one line, nothing in it is obeyed, nothing is hidden. */
export const inert = (text: string): string => text.replace(everyUnseen, letter => `<${codeOf(letter)}>`);

/**
 * The same, cut off where it is long.
 * @param most characters before it is cut off
 */
export function brief(text: string, most = 60): string {
	const letters = [...text.slice(0, 4 * most)];
	const cut = letters.length > most || text.length > 4 * most;
	return inert(letters.slice(0, most).join('')) + (cut ? '…' : '');
}
