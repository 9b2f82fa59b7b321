import type { Line } from '../../../src/day/rehearsal.ts';
import type { DeskDay } from './desk-day.ts';

const blockOf: Record<string, string> = {
	'top-left': 'e',
	'top-right': 'o',
	'bottom-left': 'x',
	'bottom-right': ',',
};

/** Forward by what a rehearsal's arrow keys can. */
const forward = (seconds: number): string =>
	seconds > 3600 ? '\u001b[5~' : seconds > 600 ? '\u001b[A' : '\u001b[C';

export type Stroke = { bytes: Buffer; wait_ms: number };

/** Longer than a new screen is deaf. */
const look_ms = 700;
const press = (text: string, wait_ms = look_ms): Stroke => ({ bytes: Buffer.from(text), wait_ms });

/** One switch: as many presses as the corner's place, a pause, and one more. */
const counted = (place: number): Stroke[] => [
	...Array.from({ length: place }, (_, index) => press('e', index === place - 1 ? 1000 : 150)),
	press('e', look_ms),
];

/** The keys that a painter strikes at the screen that stands there. */
export function painterKeys(day: DeskDay): Stroke[] {
	const line: Line = { ...day.view(), events: [], accepted: true };
	let answer = 'top-left';
	try {
		answer = day.painter.answer(line) ?? answer;
	} catch {
		// A screen that no painter of his own wits comes to.
	}
	const [word = '', value = ''] = answer.split(' ');
	if (word === 'number') return [press(`${'\u007f'.repeat(8)}${value}\r`)];
	if (word === 'wait') return [press(forward(Number(value)))];
	const place = Object.keys(blockOf).indexOf(word);
	return day.oneKey ? counted(place + 1) : [press(blockOf[word] ?? 'e')];
}
