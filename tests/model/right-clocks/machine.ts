import type { MovedClock } from '../../../src/day/clock.ts';

/**
 * A machine beside the true time, which no program sees: its wall clock, its monotonic clock, its uptime, and what may
 * come between them.
 */
export type TrueMachine = MovedClock & {
	/** True time since the machine was made, ms. */
	truth(): number;
	/** Somebody else's machine stops this one, which only pretends to be: its wall clock alone is put right afterwards. */
	stopped(ms: number): void;
	/** No program runs for so long; `anew`: the machine was off meanwhile. `step`: somebody set the wall clock, ms. */
	off(ms: number, anew: boolean, step: number): void;
};

/**
 * @param start wall clock at the beginning, ms
 * @param tellsSleep whether it has an uptime that goes on in sleep
 */
export function trueMachine(start: number, tellsSleep: boolean): TrueMachine {
	let truth = 0;
	let wall = start;
	let mono = 0;
	let up = 600_000;
	let alarm: { at: number; wake: () => void } | null = null;
	const all = (ms: number) => {
		truth += ms;
		wall += ms;
		mono += ms;
		up += ms;
	};
	return {
		truth: () => truth,
		now: () => ({ wall, mono, ...(tellsSleep && { up }) }),
		wakeAt(at, wake) {
			alarm = at === null ? null : { at, wake };
		},
		pass(ms) {
			const end = truth + ms;
			while (alarm && alarm.at - wall <= end - truth) {
				const { at, wake } = alarm;
				alarm = null;
				all(Math.max(0, at - wall));
				wake();
			}
			all(end - truth);
		},
		sleep(ms) {
			truth += ms;
			wall += ms;
			up += ms;
		},
		stopped(ms) {
			truth += ms;
			wall += ms;
		},
		set(step_ms) {
			wall += step_ms;
		},
		off(ms, anew, step) {
			truth += ms;
			wall += ms + step;
			mono = 0;
			up = anew ? Math.min(ms, 30_000) : up + ms;
		},
	};
}
