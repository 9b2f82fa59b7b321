import type { Session as DaySession } from '../day/session.ts';
import type { Answer, View } from '../day/view.ts';

export type Refusal = { code: string; text: string };

/** The day as the terminal needs it: something to show, something to answer, something that changes by itself. */
export type Session = {
	/** Looks at the clocks: what has fallen due, and a clock that jumped. */
	tick(): unknown;
	/** What is to be shown now; timers are counted to this moment. */
	view(): View;
	/** Takes an answer; when this returns it is recorded, or refused with a reason and nothing has changed. */
	answer(answer: Answer): { accepted: boolean; reason?: Refusal };
	/** Tells of changes that no key made, such as a wait that has ended. Returns how to stop being told. */
	onChange(changed: () => void): () => void;
	/** The painter is cut off from the day. */
	break(kind: 'hangup' | 'suspend'): unknown;
	/** Lets go of the day. */
	close(): void;
	/** There is nothing more to show; the screen is left. Absent where a day says so itself. */
	over?(): boolean;
	/** Moves a rehearsal's clock on; absent where the clock is real. */
	moveClock?(by_ms: number): void;
	/** Speaks the last sentence once more; absent where there is no voice. */
	sayAgain?(): void;
};

/** The little that the screen wants of time. */
export type ScreenClock = {
	/** Milliseconds that only go forward. */
	mono(): number;
	/** Calls back once after so many milliseconds; returns how to call it off. */
	after(wait_ms: number, then: () => void): () => void;
};

/**
 * A day as the screen wants it.
 *
 * @param forward puts a rehearsal's clock forward; left out where the clock is real
 */
export function portOf(day: DaySession, forward?: (by_ms: number) => void): Session {
	return {
		tick: day.tick,
		view: day.view,
		answer: day.answer,
		onChange: day.onChange,
		break: day.break,
		close: day.close,
		...(forward && {
			moveClock(by_ms: number) {
				forward(by_ms);
				day.tick();
			},
		}),
	};
}
