import { type Answer, type Corner, corners, type View } from '../day/view.ts';
import { asksNumber } from './captions.ts';
import { type Bound, type BoundTyping, bind, type Typing } from './keys/bind.ts';
import { type Entry, emptyEntry, erase, numberOf, typeNumber, typeText } from './keys/entry.ts';
import { type GuardEvent, type GuardOutput, guard, guardDue, guardStart } from './keys/guard.ts';
import type { Key } from './keys/key.ts';
import type { Layout } from './keys/layouts.ts';
import { keyTimes } from './keys/thresholds.ts';
import type { NoticeCode } from './notices.ts';
import { type OneKeyEvent, type OneKeyOutput, oneKey, oneKeyDue, oneKeyStart } from './one-key.ts';

/**
 * Everything between the keys and an answer that is no part of the day: the guard, the single switch, what is
 * half typed. Pure: a state and an event give a state and effects; the runner has the timers.
 */

export type HandsState = {
	guard: typeof guardStart;
	oneKey: typeof oneKeyStart;
	entry: Entry;
	/** When what is typed is taken by itself; `never`: some of it was taken back, and it waits for Enter. */
	taken: number | 'never' | null;
	/** Presses of the single switch so far, and the corner chosen by it. */
	presses: number;
	chosen: Corner | null;
};

export const handsStart: HandsState = {
	guard: guardStart,
	oneKey: oneKeyStart,
	entry: emptyEntry,
	taken: null,
	presses: 0,
	chosen: null,
};

export type Effect =
	| { do: 'answer'; answer: Answer }
	| { do: 'notice'; code: NoticeCode }
	| { do: 'leave' }
	| { do: 'suspend' }
	| { do: 'move-clock'; by_ms: number }
	| { do: 'say-again' }
	/** What is half done on the screen looks different now. */
	| { do: 'redraw' };

export type HandsSetup = { layout: Layout; oneKey: boolean };
type Step = { state: HandsState; effects: Effect[] };

const typingOf = (view: View): Typing =>
	asksNumber(view) ? 'number' : view.ask === 'text' ? 'text' : 'nothing';
const signedOf = (view: View): boolean => asksNumber(view) && (view.min ?? 0) < 0;

const minute_ms = 60_000;
const clockKeys: Record<string, number> = { right: minute_ms, up: 10 * minute_ms, 'page-up': 60 * minute_ms };

/** A closed day has at most the next morning to answer: any other corner leaves it. */
function answerCorner(view: View, corner: Corner): Effect {
	if (view.ask === 'closed' && !view.corners[corner]) return { do: 'leave' };
	return view.corners[corner]
		? { do: 'answer', answer: { key: corner } }
		: { do: 'notice', code: 'no-answer-there' };
}

function withGuard(state: HandsState, view: View, event: GuardEvent): Step & { typed: boolean } {
	const step = guard(state.guard, event);
	const effect = (output: GuardOutput): Effect[] => {
		if (output.give === 'corner') return [answerCorner(view, output.corner)];
		if (output.give === 'hold') return [{ do: 'answer', answer: { key: 'hold' } }];
		return output.give === 'notice' ? [{ do: 'notice', code: output.notice }] : [];
	};
	return {
		state: { ...state, guard: step.state },
		effects: step.out.flatMap(effect),
		typed: step.out.some(({ give }) => give === 'type'),
	};
}

function withSwitch(state: HandsState, view: View, event: OneKeyEvent): Step {
	const step = oneKey(state.oneKey, event);
	let next: HandsState = { ...state, oneKey: step.state };
	const effects: Effect[] = [];
	const one = (output: OneKeyOutput): void => {
		const chosen = output.give === 'choice' ? output.corner : null;
		const known = chosen !== null && view.corners[chosen] !== undefined;
		next = { ...next, presses: output.give === 'echo' ? output.presses : 0, chosen: known ? chosen : null };
		effects.push({ do: 'redraw' });
		if (chosen !== null && !known) effects.push(answerCorner(view, chosen));
		if (output.give === 'corner') effects.push(answerCorner(view, output.corner));
		if (output.give === 'hold') effects.push({ do: 'answer', answer: { key: 'hold' } });
		if (output.give === 'let-go') effects.push({ do: 'notice', code: 'let-go' });
	};
	for (const output of step.out) one(output);
	return { state: next, effects };
}

function entered(view: View, entry: Entry): Effect {
	if (view.ask === 'text') {
		const text = entry.text.trim();
		return text === '' ? { do: 'notice', code: 'no-words' } : { do: 'answer', answer: { text } };
	}
	const limits = {
		...(view.min !== undefined && { min: view.min }),
		...(view.max !== undefined && { max: view.max }),
	};
	const read = numberOf(entry, limits);
	return 'number' in read
		? { do: 'answer', answer: { number: read.number } }
		: { do: 'notice', code: read.refused };
}

/** What is entered stands no longer on the screen. */
const enter = (state: HandsState, view: View): Step => ({
	state: { ...state, entry: emptyEntry, taken: null },
	effects: [entered(view, state.entry), { do: 'redraw' }],
});

/** Readings of two figures that one figure alone would seldom pass for: no level, and no weight. */
const ofTwoFigures: readonly (string | undefined)[] = ['airC', 'humidity', 'surfaceC'];

/** When what is typed is taken without Enter. */
function takenAt({ taken }: HandsState, view: View, bound: BoundTyping, { text }: Entry, at: number) {
	if (bound.is !== 'type' || taken === 'never') return 'never';
	const isWhole = view.ask === 'number' && ofTwoFigures.includes(view.of) && /^-?\d{2}$/.test(text);
	return isWhole ? at + keyTimes.figures_ms : null;
}

function edit(state: HandsState, view: View, bound: BoundTyping, at: number): Step {
	if (bound.is === 'enter') return enter(state, view);
	const [way] = corners.filter(corner => view.corners[corner]);
	if (bound.is === 'clear' && view.ask === 'text' && state.entry.text === '' && way)
		return { state, effects: [answerCorner(view, way)] };
	const put = view.ask === 'text' ? typeText : typeNumber;
	const change = { clear: () => emptyEntry, erase: () => erase(state.entry) };
	const entry = bound.is === 'type' ? put(state.entry, bound.character) : change[bound.is]();
	return {
		state: { ...state, entry, taken: takenAt(state, view, bound, entry, at) },
		effects: [{ do: 'redraw' }],
	};
}

function strike(state: HandsState, view: View, bound: Bound, repeat: boolean, at: number): Step {
	switch (bound.is) {
		case 'hold':
			return withGuard({ ...state, entry: emptyEntry, taken: null }, view, { is: 'hold', at });
		case 'corner':
			return withGuard(state, view, { ...bound, repeat, at });
		case 'type':
		case 'erase':
		case 'clear':
		case 'enter': {
			const guarded = withGuard(state, view, { is: 'type', at });
			const answered = guarded.effects.some(effect => effect.do === 'answer');
			if (!guarded.typed || answered) return guarded;
			const after = edit(guarded.state, view, bound, at);
			return { state: after.state, effects: [...guarded.effects, ...after.effects] };
		}
		case 'again':
			return { state, effects: [{ do: 'say-again' }] };
		case 'quit':
			return { state, effects: [{ do: 'leave' }] };
		case 'suspend':
			return { state, effects: [{ do: 'suspend' }] };
		case 'paste':
			return { state, effects: [{ do: 'notice', code: 'paste' }] };
		case 'dead':
			return { state, effects: [] };
	}
}

/** Keys of the single switch: any that is not hold, nor needed for typing or leaving. */
const isSwitch = (bound: Bound, key: Key): boolean =>
	(bound.is === 'corner' || bound.is === 'dead') && key.key !== 'unknown';

/**
 * A key was struck.
 *
 * @param at instant in ms on the monotonic clock
 * @returns the state after it and what is to be done: at most one answer, and none but hold from a key that the
 * guard drops
 */
export function strikeKey(state: HandsState, view: View, setup: HandsSetup, key: Key, at: number): Step {
	const bound = bind(key, setup.layout, typingOf(view), signedOf(view));
	const forward = clockKeys[key.key];
	if (view.rehearsal && forward !== undefined && bound.is === 'dead' && key.kind !== 'release')
		return { state, effects: [{ do: 'move-clock', by_ms: forward }] };
	if (!setup.oneKey || !isSwitch(bound, key)) return strike(state, view, bound, key.kind === 'repeat', at);
	const event: OneKeyEvent =
		key.kind === 'release' ? { is: 'release', at } : { is: 'press', repeat: key.kind === 'repeat', at };
	return withSwitch(state, view, event);
}

/** The question changed: what was half done belongs to the last one. */
export function newScreen(state: HandsState, view: View, at: number): Step {
	const fresh = { ...state, entry: emptyEntry, taken: null, presses: 0, chosen: null };
	const guarded = withGuard(fresh, view, { is: 'screen', at });
	const switched = withSwitch(guarded.state, view, { is: 'screen', at });
	return { state: switched.state, effects: [...guarded.effects, ...switched.effects] };
}

/** The program stood still, or was stopped and continued: what is half typed waits for Enter. */
export function stood(state: HandsState, view: View, at: number): Step {
	const waits: HandsState = { ...state, taken: state.entry.text === '' ? null : 'never' };
	const guarded = withGuard(waits, view, { is: 'stall', at });
	const switched = withSwitch(guarded.state, view, { is: 'stall', at });
	return { state: switched.state, effects: [...guarded.effects, ...switched.effects] };
}

/** Time has passed. */
export function passTime(state: HandsState, view: View, at: number): Step {
	const guarded = withGuard(state, view, { is: 'time', at });
	const switched = withSwitch(guarded.state, view, { is: 'time', at });
	const effects = [...guarded.effects, ...switched.effects];
	const { taken } = state;
	if (typeof taken !== 'number' || at < taken || effects.some(effect => effect.do === 'answer'))
		return { state: switched.state, effects };
	const own = enter(switched.state, view);
	return { state: own.state, effects: [...effects, ...own.effects] };
}

/** The instant at which the hands want to be told of the time, if any. */
export function handsDue(state: HandsState): number | null {
	const own = typeof state.taken === 'number' ? state.taken : null;
	const due = [guardDue(state.guard), oneKeyDue(state.oneKey), own].filter(at => at !== null);
	return due.length > 0 ? Math.min(...due) : null;
}
