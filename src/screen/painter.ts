import { columnsOf, oneColumnEach } from './inert.ts';

/**
 * Frames in, bytes out: only what differs from what the terminal shows is written, at absolute places, so that
 * nothing flickers and nothing scrolls. No colours; a hold turns the whole screen to reverse video.
 */

export type Painted = { lines: string[]; columns: number; rows: number; reverse: boolean };

const CSI = '\u001b[';
const at = (row: number, column: number) => `${CSI}${row + 1};${column + 1}H`;

/** The bytes that turn one row into another, or nothing. Erasing comes first: after the last column it would eat it. */
function paintRow(row: number, before: string, after: string): string {
	if (before === after) return '';
	if (!oneColumnEach.test(before) || !oneColumnEach.test(after)) return `${at(row, 0)}${CSI}K${after}`;
	let from = 0;
	while (from < after.length && before[from] === after[from]) from++;
	if (after.length < before.length) return `${at(row, from)}${CSI}K${after.slice(from)}`;
	let to = after.length;
	while (to > from && before[to - 1] === after[to - 1]) to--;
	return at(row, from) + after.slice(from, to);
}

const blank = (before: Painted | null, after: Painted): boolean =>
	before === null ||
	before.columns !== after.columns ||
	before.rows !== after.rows ||
	before.reverse !== after.reverse;

/** In reverse video every row is filled to its end: not every terminal erases in the colours in force. */
function filled(frame: Painted): string[] {
	return Array.from({ length: frame.rows }, (_, row) => {
		const line = frame.lines[row] ?? '';
		const missing = frame.reverse && row < frame.rows - 1 ? frame.columns - columnsOf(line) : 0;
		return line + ' '.repeat(Math.max(0, missing));
	});
}

/**
 * The bytes that make a terminal that shows one frame show another, as one synchronised update.
 *
 * @param before what is shown, or null where nothing is known of it
 */
export function paint(before: Painted | null, after: Painted): string {
	const fresh = blank(before, after);
	const shown = fresh || !before ? [] : filled(before);
	const changed = filled(after)
		.map((line, row) => paintRow(row, shown[row] ?? '', line))
		.join('');
	if (!fresh && changed === '') return '';
	const style = after.reverse ? `${CSI}7m` : '';
	const start = fresh ? `${CSI}0m${style}${CSI}H${CSI}2J` : style;
	const end = after.reverse ? `${CSI}0m` : '';
	return `${CSI}?2026h${start}${changed}${end}${at(after.rows - 1, 0)}${CSI}?2026l`;
}
