/**
 * What must never reach a terminal from a job sheet: control characters, line breaks, marks that turn the
 * direction of writing, invisible characters, halves of characters.
 */
const harmful =
	/[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\p{Co}\p{Cn}\u200b-\u200f\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]|\p{Variation_Selector}/gu;

/** Makes a name or sentence safe to draw: each harmful character becomes a dot, one column for one. */
export const inert = (text: string): string => text.replace(harmful, '·');

const wide =
	/[\u1100-\u115f\u2e80-\u303e\u3041-\u33ff\u3400-\u4dbf\u4e00-\u9fff\ua000-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6]|\p{Emoji_Presentation}|[\u{20000}-\u{3fffd}]/u;

/** Columns of a terminal that one character takes. */
export function columnsOfCharacter(character: string): number {
	if (/^[\p{Mn}\p{Me}]/u.test(character)) return 0;
	return wide.test(character) ? 2 : 1;
}

/** Characters known to take one column each on every terminal, so that a place can be counted. */
export const oneColumnEach =
	/^[ -~\u00a0-\u02ff\u0370-\u03ff\u0400-\u04ff\u2010-\u2027\u2190-\u21ff\u2500-\u25ff]*$/;

/** Columns that a text takes. */
export function columnsOf(text: string): number {
	if (oneColumnEach.test(text)) return text.length;
	return [...text].reduce((sum, character) => sum + columnsOfCharacter(character), 0);
}

/** Where in a text a column begins; its length where the text ends before. */
export function indexAtColumn(text: string, column: number): number {
	if (oneColumnEach.test(text)) return Math.min(column, text.length);
	let index = 0;
	let width = 0;
	for (const character of text) {
		width += columnsOfCharacter(character);
		if (width > column) break;
		index += character.length;
	}
	return index;
}

/** Cuts a text to a width, its end replaced by dots where it was longer. */
export function cutTo(text: string, columns: number, dots = '…'): string {
	if (columnsOf(text) <= columns) return text;
	let kept = '';
	let width = columnsOf(dots);
	if (width > columns) return '';
	for (const character of text) {
		width += columnsOfCharacter(character);
		if (width > columns) break;
		kept += character;
	}
	return kept.trimEnd() + dots;
}

/** Breaks a sentence at its blanks into lines no wider than so many columns. */
export function wrapWords(text: string, columns: number): string[] {
	const lines: string[] = [];
	for (const word of text.split(' ').filter(part => part !== '')) {
		const last = lines.at(-1);
		if (last !== undefined && columnsOf(last) + 1 + columnsOf(word) <= columns)
			lines[lines.length - 1] = `${last} ${word}`;
		else lines.push(word);
	}
	return lines;
}

/** Cuts a text to a width in its middle: names of a kind are told apart by how they begin and how they end. */
export function cutMiddle(text: string, columns: number, dots = '…'): string {
	if (columnsOf(text) <= columns) return text;
	const room = columns - columnsOf(dots);
	if (room < 2) return cutTo(text, columns, dots);
	const head = cutTo(text, Math.ceil(room / 2), '');
	const reversed = cutTo([...text].reverse().join(''), room - columnsOf(head), '');
	return head + dots + [...reversed].reverse().join('').trimStart();
}

/** Breaks a text into lines like `wrapWords`, and a word that is wider than a line too. */
export function fold(text: string, columns: number): string[] {
	return wrapWords(text, columns).flatMap(line => {
		const pieces: string[] = [];
		for (let rest = line; rest !== ''; ) {
			const at = indexAtColumn(rest, columns) || rest.length;
			pieces.push(rest.slice(0, at));
			rest = rest.slice(at);
		}
		return pieces;
	});
}
