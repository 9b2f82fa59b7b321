import type { Line, Rehearsal } from '../day/rehearsal.ts';
import { keyFor, type Painter } from './painter.ts';
import type { World } from './world.ts';

/** Something that comes between, once: a visitor, a run, a fan left turned. */
export type Twist = {
	when(line: Line): boolean;
	/** What happens, for whoever reads along. */
	tell: string;
	/** What it does to the bench and the gun, which the program does not see. */
	change?(world: World): void;
	/** What is keyed: codes of corners, or whole lines such as `wait 12 min` and `number 3`. */
	keys?: readonly string[];
};

export type Moment = { line: Line; key: string; shown: string };

const wholeLine = /^(hold|wait|number|text|sleep|kill|clock|hangup|trigger)\b/;

/** The corner that shows a code, page by page. */
function* turning(rehearsal: Rehearsal, start: Line, code: string): Generator<Moment, Line> {
	let line = start;
	for (let page = 0; page < 100; page++) {
		const shows = Object.values(line.corners).find(corner => corner.code === code);
		const key = keyFor(line, code);
		yield { line, key, shown: shows?.text ?? 'MORE' };
		line = rehearsal.take(key);
		if (shows) return line;
	}
	throw new Error(`${code} is on no page of ${line.state}`);
}

const shownFor = (line: Line, key: string): string => {
	const corner = key.replace(/-(.)/, (_, letter: string) => letter.toUpperCase());
	const choice = Object.entries(line.corners).find(([name]) => name === corner)?.[1];
	return choice?.text ?? key;
};

/**
 * Plays a day to its end, twists and all, yielding every screen with the answer given to it.
 * @throws Error where a twist keys what is not on the screen, or the day comes to no end
 */
export function* play(
	rehearsal: Rehearsal,
	painter: Painter,
	twists: readonly Twist[],
): Generator<Moment | string> {
	const left = [...twists];
	let line = rehearsal.first();
	for (let count = 0; count < 20_000; count++) {
		const twist = left.findIndex(one => one.when(line));
		const [now] = twist < 0 ? [] : left.splice(twist, 1);
		if (now) {
			yield now.tell;
			now.change?.(painter.world);
			for (const key of now.keys ?? []) {
				if (wholeLine.test(key)) {
					yield { line, key, shown: key };
					line = rehearsal.take(key);
				} else line = yield* turning(rehearsal, line, key);
			}
			continue;
		}
		const key = painter.answer(line);
		yield { line, key: key ?? '', shown: key === null ? '' : shownFor(line, key) };
		if (key === null) return;
		line = rehearsal.take(key);
		if (!line.accepted) throw new Error(`${key} was not taken in ${line.state}: ${line.reason?.text}`);
	}
	throw new Error('the day comes to no end');
}
