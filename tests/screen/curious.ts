import type { Line } from '../../src/day/rehearsal.ts';
import type { View } from '../../src/day/view.ts';
import { rehearsed } from '../day/rehearsed.ts';

/** A painter who mostly does what is asked, and else whatever was never tried where the day stands. */

/** The same question in other words: items of a list, rules passed over, steps of preparation, cans, faults. */
const alike: [RegExp, string][] = [
	[/^list\.(before-spraying|clean-up|mixing|after-a-break)\..*/, 'list.$1'],
	[/^list\.open\..*/, 'list.open'],
	[/^keys\.(?!hold).*/, 'keys.corner'],
	[/^override\.[^.]*(?=\.words$|$)/, 'override'],
	[/^(prep|mix\.level|trouble\.gun)\.(?!half-turn).*/, '$1.one'],
];

/** What is told apart among screens: activity, step and what is asked; a hold by what it says broke off. */
export function kindOf({ state, ask, say }: View): string {
	const step = alike.reduce((text, [from, to]) => text.replace(from, to), state);
	const why = state === 'hold' ? `: ${say.replace(/\. Away.*/, '').toLowerCase()}` : '';
	return `${step} (${ask})${why}`;
}

const keys = {
	topLeft: 'top-left',
	topRight: 'top-right',
	bottomLeft: 'bottom-left',
	bottomRight: 'bottom-right',
};

/** Numbers from 0 to 1 that are the same in every run. */
function chance(seed: number): () => number {
	let state = seed * 2654435761 || 1;
	return () => {
		state = (state * 1664525 + 1013904223) % 4294967296;
		return state / 4294967296;
	};
}

const events = ['hold', 'kill', 'sleep 50 min', 'clock -30 min', 'wait 4 min', 'wait 10 h', 'trigger off'];

/** Faces, letters of a card and batches are as good as each other. */
const plain = (code: string): string => (/[/]|^[A-Z+]+$/.test(code) ? 'any' : code);

type Sent = { line: string; as: string };

/** Lines that may be sent where a day stands, and what each is as good as. */
function linesAt(view: View): Sent[] {
	const corners = Object.entries(view.corners).map(([corner, { code }]) => ({
		line: keys[corner as keyof typeof keys],
		as: plain(code),
	}));
	const numbers = view.min === undefined ? [] : [`number ${view.min}`, `number ${view.min + 40}`];
	const words = view.ask === 'text' ? ['text the shop door is open'] : [];
	return [...corners, ...[...numbers, ...words, ...events].map(line => ({ line, as: line }))];
}

/**
 * Plays a day and hands every screen of it to whoever looks.
 *
 * @param tried what was tried in which kind of screen, over all days
 */
export function playCuriously(
	options: NonNullable<Parameters<typeof rehearsed>[0]>,
	steps: number,
	tried: Set<string>,
	look: (view: View) => void,
): void {
	const day = rehearsed(options);
	const next = chance((options.seed ?? 0) + 1);
	const seen = (line: Line) => look({ ...line, rehearsal: false });
	for (let step = 0; step < steps && day.line().ask !== 'closed'; step++) {
		seen(day.line());
		const kind = kindOf({ ...day.line(), rehearsal: false });
		const untried = linesAt({ ...day.line(), rehearsal: false }).filter(
			({ as }) => !tried.has(`${kind} ${as}`),
		);
		const answers = untried.filter(({ as }) => !events.includes(as));
		const from = answers.length > 0 ? answers : untried;
		const curious = from[Math.floor(next() * from.length)];
		if (curious !== undefined && next() < 0.5) {
			tried.add(`${kind} ${curious.as}`);
			day.send(curious.line);
		} else day.send(answered(day) ?? 'hold');
	}
	seen(day.line());
}

/** What the painter answers; nothing where an odd key told the program of another card or cup than he holds. */
function answered(day: ReturnType<typeof rehearsed>): string | null {
	try {
		return day.painter.answer(day.line());
	} catch {
		return null;
	}
}
