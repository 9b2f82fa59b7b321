import type { Corner } from '../../day/view.ts';
import { keyTimes } from './thresholds.ts';

/**
 * The key guard: which of the keys struck count. Pure; every event carries its instant in ms on one monotonic
 * clock. Hold passes at once, whatever else is going on, and lets go of a corner that was waiting.
 */

export type GuardEvent = { at: number } & (
	| { is: 'corner'; corner: Corner; repeat: boolean }
	| { is: 'hold' }
	/** A character, an erase or an enter of something typed. */
	| { is: 'type' }
	/** The question on the screen is another one. */
	| { is: 'screen' }
	/** The program stood still, or was stopped and continued: what is read now was meant for an older screen. */
	| { is: 'stall' }
	| { is: 'time' }
);

export type GuardNotice = 'two-blocks' | 'too-soon' | 'after-stall';
export type GuardOutput =
	| { give: 'corner'; corner: Corner }
	| { give: 'hold' }
	| { give: 'type' }
	| { give: 'notice'; notice: GuardNotice };

export type GuardState = {
	/** A corner that counts unless another is struck with it. */
	pending: { corner: Corner; at: number } | null;
	/** When each corner was last seen, counted or not. */
	seen: Partial<Record<Corner, number>>;
	/** Until then nothing counts, and why. */
	deafUntil: number;
	deafAfter: 'screen' | 'stall';
	/** Until then a corner belongs to the two that were struck together. */
	chordUntil: number;
	/** Until then typing belongs to a run whose beginning was dropped. */
	cutUntil: number;
};

const long = Number.NEGATIVE_INFINITY;

export const guardStart: GuardState = {
	pending: null,
	seen: {},
	deafUntil: long,
	deafAfter: 'screen',
	chordUntil: long,
	cutUntil: long,
};

type Step = { state: GuardState; out: GuardOutput[] };

const say = (notice: GuardNotice): GuardOutput => ({ give: 'notice', notice });

/** A corner that has waited out the chord time counts; one looked at far too late was overtaken by a stall. */
function ripen(state: GuardState, at: number): Step {
	const { pending } = state;
	if (!pending || at - pending.at < keyTimes.chord_ms) return { state, out: [] };
	if (at - pending.at >= keyTimes.chord_ms + keyTimes.stall_ms)
		return { state: deafen(state, at, 'stall'), out: [say('after-stall')] };
	return { state: { ...state, pending: null }, out: [{ give: 'corner', corner: pending.corner }] };
}

const deafNotice = (state: GuardState): GuardOutput =>
	say(state.deafAfter === 'stall' ? 'after-stall' : 'too-soon');

function onCorner(state: GuardState, corner: Corner, repeat: boolean, at: number): Step {
	const before = state.seen[corner] ?? long;
	const next = { ...state, seen: { ...state.seen, [corner]: at } };
	if (repeat || at - before < keyTimes.repeat_ms) return { state: next, out: [] };
	if (at < state.deafUntil) return { state: next, out: [deafNotice(state)] };
	if (at < state.chordUntil) return { state: { ...next, chordUntil: at + keyTimes.chord_ms }, out: [] };
	if (!state.pending) return { state: { ...next, pending: { corner, at } }, out: [] };
	return {
		state: { ...next, pending: null, chordUntil: at + keyTimes.chord_ms },
		out: [say('two-blocks')],
	};
}

/** Typing whose first characters were dropped is dropped to its end, so that no number loses its head. */
function onType(state: GuardState, at: number): Step {
	if (at < state.deafUntil || at < state.cutUntil) {
		const fresh = at >= state.cutUntil;
		const next = { ...state, cutUntil: at + keyTimes.newScreen_ms };
		return { state: next, out: fresh ? [deafNotice(state)] : [] };
	}
	return { state, out: [{ give: 'type' }] };
}

function deafen(state: GuardState, at: number, after: GuardState['deafAfter']): GuardState {
	const deafUntil = Math.max(state.deafUntil, at + keyTimes.newScreen_ms);
	const since = at < state.deafUntil && state.deafAfter === 'stall' ? 'stall' : after;
	return { ...state, pending: null, deafUntil, deafAfter: since };
}

function apply(state: GuardState, event: GuardEvent): Step {
	switch (event.is) {
		case 'hold':
			return { state: { ...state, pending: null }, out: [{ give: 'hold' }] };
		case 'corner':
			return onCorner(state, event.corner, event.repeat, event.at);
		case 'type':
			return onType(state, event.at);
		case 'screen':
			return { state: deafen(state, event.at, 'screen'), out: [] };
		case 'stall':
			return { state: deafen(state, event.at, 'stall'), out: [] };
		case 'time':
			return { state, out: [] };
	}
}

/**
 * One step of the guard. A corner waiting since before the event is given first, where its time is up; what was
 * waiting when the program stood still is not.
 *
 * @returns the state after the event, and what it gives: at most one answer, and notices
 */
export function guard(state: GuardState, event: GuardEvent): Step {
	if (event.is === 'stall' || event.is === 'screen' || event.is === 'hold') return apply(state, event);
	const ripe = ripen(state, event.at);
	const after = apply(ripe.state, event);
	return { state: after.state, out: [...ripe.out, ...after.out] };
}

/** The instant at which the guard wants a `time` event, if any. */
export const guardDue = (state: GuardState): number | null =>
	state.pending ? state.pending.at + keyTimes.chord_ms : null;
