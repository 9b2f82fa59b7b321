import type { Pty } from './pty.ts';

/** The screens of a day as they stood in a real terminal, at several sizes, to be kept as text. */

/** A size, and the few questions that are kept at it where not all of them are. */
export type KeptSize = { columns: number; rows: number; few?: readonly string[] };
export type Kept = { size: KeptSize; few: readonly string[] | undefined; sheets: string[] };

const pause = (wait_ms: number) => new Promise(done => setTimeout(done, wait_ms));

/** Gives the window another size, and waits until the program has drawn on it and is done drawing. */
async function resized(terminal: Pty, { columns, rows }: KeptSize): Promise<void> {
	const before = terminal.bytes().length;
	terminal.resize(columns, rows);
	let drawn = before;
	for (const end = Date.now() + 5000; Date.now() < end; ) {
		await pause(90);
		const now = terminal.bytes().length;
		if (now > before && now === drawn) return;
		drawn = now;
	}
	throw new Error(`nothing was drawn at ${columns} by ${rows}`);
}

/** Times that run while the day is played, in minutes or seconds, and what hangs on them. */
const running = /\d+:\d\d|(?<!\+)\b\d+ (?:s|min|h|days)\b(?: \d\d)?(?: min)?|about [\d.]+/gi;

/** Block letters that count time: nothing of them is kept but where they stand. */
const counting = new Set(['wait', 'stand', 'settling']);

const still = (asked: string) => (row: string) => {
	const text = row.replace(running, time => time.replace(/\d/g, '#')).trimEnd();
	return counting.has(asked) && /^[█▀▄ ]+$/.test(text) ? '          (the time left, in block letters)' : text;
};

/** How many faces share an end that falls into one minute hangs on the second: their lines are one. */
const gathered = (rows: readonly string[]): string[] => [
	...new Set(rows.map(row => row.replace(/\d+ faces|one face/, '# faces')).filter(row => row !== '')),
];

/**
 * Keeps the screen of each kind of question when it first comes, at every size.
 *
 * @param sizes the first one is the size that the day is played at
 */
export function keeper(terminal: Pty, sizes: readonly KeptSize[]) {
	const seen = new Set<string>();
	const kept: Kept[] = sizes.map(size => ({ size, few: size.few, sheets: [] }));
	const keep = async (asked: string): Promise<void> => {
		if (seen.has(asked)) return;
		seen.add(asked);
		terminal.watch(false);
		for (const { size, few, sheets } of kept) {
			if (few && !few.includes(asked)) continue;
			if (size !== sizes[0]) await resized(terminal, size);
			const rows = terminal.screen().split('\n').slice(0, -1).map(still(asked));
			sheets.push([`== ${asked}`, ...(asked === 'closed' ? gathered(rows) : rows), ''].join('\n'));
		}
		if (sizes[0] && sizes.length > 1) await resized(terminal, sizes[0]);
		terminal.watch(true);
	};
	return { kept, keep };
}
