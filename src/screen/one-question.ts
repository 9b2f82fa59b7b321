import { type Choice, type Corner, corners, type View } from '../day/view.ts';
import { nothingElse } from './nothing-else.ts';
import type { Session } from './session-port.ts';

/** A question before there is a day: the answers take the corners in their order. */
export type OneQuestion = {
	state: string;
	say: string;
	lines: string[];
	answers: readonly Choice[];
	/** A whole number that may be keyed in their place. */
	number?: { of: string; unit: string; min: number; max: number };
};

/**
 * One question on the screen that a day has.
 * @param now the instant shown, ISO 8601
 * @returns a session for that screen, which is over once it is answered, and the code of the answer, or the number keyed;
 * null: it was left
 */
export function oneQuestion(
	{ state, say, lines, answers, number }: OneQuestion,
	now: () => string,
): { session: Session; answered(): string | number | null } {
	let answered: string | number | null = null;
	const places = new Map<Corner, Choice>();
	for (const [index, choice] of answers.entries()) {
		const corner = corners[index];
		if (corner) places.set(corner, choice);
	}
	const view = (): View => ({
		...nothingElse(),
		at: now(),
		...{ state, say, lines, ask: number ? 'number' : 'choose', corners: Object.fromEntries(places) },
		...(number && { ...number, step: 1 }),
	});
	const session: Session = {
		tick() {},
		view,
		answer(given) {
			if ('number' in given && number && Number.isInteger(given.number)) {
				answered = given.number;
				return { accepted: true };
			}
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
