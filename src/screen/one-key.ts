import { type Corner, corners } from '../day/view.ts';
import { keyTimes, oneKeyTimes } from './keys/thresholds.ts';

/**
 * Everything answered with one switch. One to four presses choose a corner, in reading order; after a pause the
 * choice is shown, and one more press, standing alone, confirms it. Held down, or pressed six times: hold. Pure;
 * instants are ms on one monotonic clock.
 */

export type OneKeyEvent = { at: number } & (
	| { is: 'press'; repeat: boolean }
	| { is: 'release' }
	| { is: 'screen' }
	| { is: 'stall' }
	| { is: 'time' }
);

export type OneKeyOutput =
	| { give: 'echo'; presses: number }
	| { give: 'choice'; corner: Corner }
	| { give: 'corner'; corner: Corner }
	| { give: 'hold' }
	| { give: 'let-go' };

/** Presses without a pause between them. A mute run began before its screen could be read: it can only be a hold. */
type Run = { presses: number; last: number; mute: boolean };

export type OneKeyState = {
	run: Run | null;
	chosen: { corner: Corner; at: number } | null;
	/** When the switch was last seen, counted or not, and how often in a row nearer than a bounce. */
	seen: number;
	near: number;
	/** Since when it is down; only where the terminal reports releases. */
	down: number | null;
	releases: boolean;
	/** It has been taken as held down: nothing counts until it is let go. */
	held: boolean;
	deafUntil: number;
};

const long = Number.NEGATIVE_INFINITY;

export const oneKeyStart: OneKeyState = {
	run: null,
	chosen: null,
	seen: long,
	near: 0,
	down: null,
	releases: false,
	held: false,
	deafUntil: long,
};

type Step = { state: OneKeyState; out: OneKeyOutput[] };

const hold = (state: OneKeyState): Step => ({
	state: { ...state, run: null, chosen: null, held: true },
	out: [{ give: 'hold' }],
});

/** It is down, as far as is known: it may yet turn out to be a hold. */
const isDown = (state: OneKeyState): boolean => state.releases && state.down !== null && !state.held;

const isHeld = (state: OneKeyState, at: number): boolean =>
	isDown(state) && at - (state.down ?? at) >= oneKeyTimes.held_ms;

/** What a run means once it is over. */
function endRun(state: OneKeyState, run: Run, at: number): Step {
	const over = { ...state, run: null };
	const corner = corners[run.presses - 1];
	if (run.mute || !corner) return { state: over, out: [{ give: 'let-go' }] };
	return { state: { ...over, chosen: { corner, at } }, out: [{ give: 'choice', corner }] };
}

/** What the time alone brings about. */
function ripen(state: OneKeyState, at: number): Step {
	if (isHeld(state, at)) return hold(state);
	if (isDown(state)) return { state, out: [] };
	const { run, chosen } = state;
	if (run) {
		const quiet = at - run.last;
		const confirms = chosen && !run.mute && run.presses === 1;
		if (confirms && quiet >= oneKeyTimes.confirm_ms) {
			const out: OneKeyOutput[] = [{ give: 'corner', corner: chosen.corner }];
			return { state: { ...state, run: null, chosen: null }, out };
		}
		return quiet >= oneKeyTimes.count_ms ? endRun(state, run, at) : { state, out: [] };
	}
	if (chosen && at - chosen.at >= oneKeyTimes.lapse_ms)
		return { state: { ...state, chosen: null }, out: [{ give: 'let-go' }] };
	return { state, out: [] };
}

function count(state: OneKeyState, at: number): Step {
	const run = state.run
		? { ...state.run, presses: state.run.presses + 1, last: at }
		: { presses: 1, last: at, mute: at < state.deafUntil };
	const next = { ...state, run, near: 0, held: false, down: at };
	if (run.presses >= oneKeyTimes.holdPresses) return hold(next);
	return { state: next, out: run.mute ? [] : [{ give: 'echo', presses: run.presses }] };
}

function onPress(state: OneKeyState, repeat: boolean, at: number): Step {
	const gap = at - state.seen;
	const seen = { ...state, seen: at };
	if (state.held && (repeat || gap < oneKeyTimes.count_ms)) return { state: seen, out: [] };
	if (repeat) return { state: { ...seen, down: state.down ?? at, releases: true }, out: [] };
	if (gap >= oneKeyTimes.bounce_ms) return count(seen, at);
	const near = { ...seen, near: state.near + 1 };
	return near.near >= oneKeyTimes.heldRepeats ? hold(near) : { state: near, out: [] };
}

/**
 * One step of the switch.
 *
 * @returns the state after the event, and what it gives: at most one answer for a press
 */
export function oneKey(state: OneKeyState, event: OneKeyEvent): Step {
	const { at } = event;
	const ripe = ripen(state, at);
	const now = ripe.state;
	switch (event.is) {
		case 'press': {
			const after = onPress(now, event.repeat, at);
			return { state: after.state, out: [...ripe.out, ...after.out] };
		}
		case 'release':
			return { state: { ...now, down: null, held: false, releases: true }, out: ripe.out };
		case 'screen':
		case 'stall': {
			const run = now.run && { ...now.run, mute: true };
			return { state: { ...state, run, chosen: null, deafUntil: at + keyTimes.newScreen_ms }, out: [] };
		}
		case 'time':
			return ripe;
	}
}

/** The instant at which the switch wants a `time` event, if any. */
export function oneKeyDue(state: OneKeyState): number | null {
	const { run, chosen, down } = state;
	if (isDown(state)) return (down ?? 0) + oneKeyTimes.held_ms;
	if (!run) return chosen ? chosen.at + oneKeyTimes.lapse_ms : null;
	const confirms = chosen && !run.mute && run.presses === 1;
	return run.last + (confirms ? oneKeyTimes.confirm_ms : oneKeyTimes.count_ms);
}
