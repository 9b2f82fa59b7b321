import type { ScreenClock } from './session-port.ts';

/** One alarm that can be set again and again; setting it calls off the last. */
export type Timer = {
	/** @param wait_ms milliseconds from now, or null for never */
	set(wait_ms: number | null): void;
};

export function openTimer(clock: ScreenClock, then: () => void): Timer {
	let callOff = () => {};
	return {
		set(wait_ms) {
			callOff();
			callOff = wait_ms === null ? () => {} : clock.after(Math.max(0, wait_ms), then);
		},
	};
}
