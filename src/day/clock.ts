import { uptime } from 'node:os';
import type { Shown } from './passed.ts';

/** Where time comes from. The rehearsal has one that can be moved. */
export type Clock = {
	/** Wall clock, ms since 1970 UTC, monotonic clock and uptime, ms. */
	now(): Omit<Shown, 'run'>;
	/** Calls back once, at or after a wall clock time; the last call replaces the one before. */
	wakeAt(wall: number | null, wake: () => void): void;
};

/**
 * Systems on which the uptime counts sleep and is no child of the wall clock: Linux (boot time), Windows (ticks since the
 * start, sleep included); from memory. On macOS it is worked out from the wall clock, and on others it may stand still.
 */
const tellsSleep = ['linux', 'win32'];

const up_ms = (): number | undefined =>
	tellsSleep.includes(process.platform) ? Math.round(uptime() * 1000) : undefined;

/**
 * Calls back once after so long, behind every signal that came meanwhile: whoever was stopped hears of that before
 * anything falls due.
 * @returns how to call it off
 */
export function afterSignals(wait_ms: number, then: () => void): () => void {
	let isOff = false;
	const timer = setTimeout(() => setImmediate(() => isOff || then()), wait_ms);
	return () => {
		isOff = true;
		clearTimeout(timer);
	};
}

/** The machine's own clocks. */
export function realClock(): Clock {
	let callOff = () => {};
	return {
		now: () => ({ wall: Date.now(), mono: Math.round(performance.now()), up: up_ms() }),
		wakeAt(wall, wake) {
			callOff();
			if (wall !== null) callOff = afterSignals(Math.min(Math.max(0, wall - Date.now()), 2 ** 31 - 1), wake);
		},
	};
}

export type MovedClock = Clock & {
	/** Time passes on both clocks; what falls due meanwhile is called in order. */
	pass(ms: number): void;
	/** The machine sleeps: the monotonic clock stands still. */
	sleep(ms: number): void;
	/** Somebody sets the wall clock. */
	set(step_ms: number): void;
};

/**
 * A clock that stands still until it is moved.
 * @param tellsSleep whether its machine has an uptime that goes on in sleep
 */
export function movedClock(start: number, tellsSleep = true): MovedClock {
	let wall = start;
	let mono = 0;
	let slept = 0;
	let alarm: { at: number; wake: () => void } | null = null;
	return {
		now: () => ({ wall, mono, ...(tellsSleep && { up: mono + slept }) }),
		wakeAt(at, wake) {
			alarm = at === null ? null : { at, wake };
		},
		pass(ms) {
			const end = wall + ms;
			while (alarm && alarm.at <= end) {
				const { at, wake } = alarm;
				alarm = null;
				const step = Math.max(0, at - wall);
				wall += step;
				mono += step;
				wake();
			}
			mono += Math.max(0, end - wall);
			wall = Math.max(wall, end);
		},
		sleep(ms) {
			wall += ms;
			slept += ms;
		},
		set(step_ms) {
			wall += step_ms;
		},
	};
}
