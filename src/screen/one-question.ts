import { type Choice, type Corner, corners, type View } from '../day/view.ts';
import { nothingElse } from './nothing-else.ts';
import type { Session } from './session-port.ts';

/** A question before there is a day: the answers take the corners in their order. */
export type OneQuestion = { state: string; say: string; lines: string[]; answers: readonly Choice[] };

/**
 * One question on the screen that a day has.
 * @param now the instant shown, ISO 8601
 * @returns a session for that screen, which is over once it is answered, and the code of the answer; null: it was left
 */
export function oneQuestion(
	{ state, say, lines, answers }: OneQuestion,
	now: () => string,
): { session: Session; answered(): string | null } {
	let answered: string | null = null;
	const places = new Map<Corner, Choice>();
	for (const [index, choice] of answers.entries()) {
		const corner = corners[index];
		if (corner) places.set(corner, choice);
	}
	const view = (): View => ({
		...nothingElse(),
		at: now(),
		...{ state, say, lines, ask: 'choose', corners: Object.fromEntries(places) },
	});
	const session: Session = {
		tick() {},
		view,
		answer(given) {
			const chosen = 'key' in given && given.key !== 'hold' ? places.get(given.key) : undefined;
			answered = chosen?.code ?? null;
			return { accepted: chosen !== undefined };
		},
		onChange: () => () => {},
		break() {},
		close() {},
		over: () => answered !== null,
	};
	return { session, answered: () => answered };
}
