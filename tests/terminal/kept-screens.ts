/** The screens of a day as they stood in a real terminal, to be kept as text. */

/** Times that run while the day is played, in minutes or seconds, and what hangs on them. */
const running = /\d+:\d\d|(?<!\+)\b\d+ (?:s|min|h|days)\b(?: \d\d)?(?: min)?|about [\d.]+/gi;

/** Block letters that count time: nothing of them is kept but where they stand. */
const counting = new Set(['wait', 'stand', 'settling']);

const isDrawn = (row: string) => /[█▀▄]/.test(row);

const still = (asked: string) => (row: string) => {
	const text = row.replace(running, time => time.replace(/\d/g, '#')).trimEnd();
	return counting.has(asked) && /^[█▀▄ ]+$/.test(text) && isDrawn(text) ? '          (the time left)' : text;
};

/** How many faces share an end that falls into one minute hangs on the second: of their lines the words are kept. */
const gathered = (rows: readonly string[]): string[] => [
	...new Set(
		rows
			.filter(row => row !== '' && !isDrawn(row))
			.map(row => row.trim().replace(/\d+ faces|one face/i, '# faces')),
	),
];

/** Keeps the screen of each kind of question when it first comes. */
export function keeper(screen: () => string) {
	const seen = new Set<string>();
	const sheets: string[] = [];
	const keep = (asked: string): void => {
		if (seen.has(asked)) return;
		seen.add(asked);
		const rows = screen().split('\n').slice(0, -1).map(still(asked));
		sheets.push([`== ${asked}`, ...(asked === 'closed' ? gathered(rows) : rows), ''].join('\n'));
	};
	return { sheets, keep };
}
