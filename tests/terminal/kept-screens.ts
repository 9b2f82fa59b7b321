/** The screens of a day as they stood in a real terminal, to be kept as text. */

/** Of these questions: one of each arrangement, none that a slow machine may pass over. */
const wanted = [
	...['breathing', 'air', 'can', 'pour', 'batch', 'pattern'],
	...['ready', 'spraying', 'wait', 'trouble', 'hold', 'finish'],
];

/** Times that run while the day is played, in minutes or seconds, and what hangs on them. */
const running = /\d+:\d\d|(?<!\+)\b\d+ (?:s|min|h|days)\b(?: \d\d)?(?: min)?|about [\d.]+/gi;

const isDrawn = (row: string) => /[█▀▄]/.test(row);

/** Of a wait nothing is kept of the block letters that count it, but where they stand. */
const still = (asked: string) => (row: string) => {
	const text = row.replace(running, time => time.replace(/\d/g, '#')).trimEnd();
	return asked === 'wait' && /^[█▀▄ ]+$/.test(text) && isDrawn(text) ? '          (the time left)' : text;
};

/** Keeps the screen of each wanted question when it first comes. */
export function keeper(screen: () => string) {
	const left = new Set(wanted);
	const sheets: string[] = [];
	const keep = (asked: string): void => {
		if (!left.delete(asked)) return;
		const rows = screen().split('\n').slice(0, -1).map(still(asked));
		sheets.push([`== ${asked}`, ...rows, ''].join('\n'));
	};
	return { sheets, keep, left };
}
