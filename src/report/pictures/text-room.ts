/** Room that letters take, worked out where no browser is: a little more than most typefaces need. */

const wide =
	/[\u1100-\u11ff\u2e80-\ua4cf\uac00-\ud7ff\uf900-\ufaff\ufe30-\ufe6f\uff00-\uffef\u{1f000}-\u{1ffff}\u{20000}-\u{3ffff}]/u;
const broad = /[mwMWOQ@%#&×…—\p{Lu}]/u;
const narrow = /[iljtfrI.,:;'|!() -]/u;

/** Width of a letter as a share of its size. */
const share = (letter: string): number =>
	wide.test(letter) ? 1.05 : narrow.test(letter) ? 0.4 : broad.test(letter) ? 0.85 : 0.65;

/** Width of a text, px. */
export const width_px = (text: string, size_px: number): number =>
	[...text].reduce((sum, letter) => sum + share(letter), 0) * size_px;

/** A text with its end cut off where it is wider than its room. */
export function fitted(text: string, room_px: number, size_px = 12): string {
	if (width_px(text, size_px) <= room_px) return text;
	const letters = [...text];
	while (letters.length > 1 && width_px(`${letters.join('')}…`, size_px) > room_px) letters.pop();
	return `${letters.join('').trimEnd()}…`;
}
