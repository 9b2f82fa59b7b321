import type { Clock } from './clock.ts';

type Timed = { on: boolean; after_ms: number };

export type PulledClock = Clock & {
	/** No further pull comes. */
	stop(): void;
};

/**
 * A clock on which recorded pulls of the trigger fall due, each before anything else that is due with it.
 * @param pulls in the order of time, ms after the instant at which the clock is made
 */
export function pulledClock(clock: Clock, pulls: readonly Timed[], pull: (on: boolean) => void): PulledClock {
	const begins = clock.now().wall;
	let left = [...pulls];
	let alarm: { at: number; wake: () => void } | null = null;
	const pullAt = () => (left[0] ? begins + left[0].after_ms : Number.POSITIVE_INFINITY);
	const alarmAt = () => alarm?.at ?? Number.POSITIVE_INFINITY;
	const arm = () => {
		const at = Math.min(pullAt(), alarmAt());
		clock.wakeAt(Number.isFinite(at) ? at : null, ring);
	};
	const ring = () => {
		const { wall } = clock.now();
		const [first] = left;
		if (first && pullAt() <= Math.min(wall, alarmAt())) {
			left = left.slice(1);
			pull(first.on);
		} else if (alarm && alarm.at <= wall) {
			const { wake } = alarm;
			alarm = null;
			wake();
		}
		arm();
	};
	arm();
	return {
		now: clock.now,
		wakeAt(at, wake) {
			alarm = at === null ? null : { at, wake };
			arm();
		},
		stop() {
			left = [];
			arm();
		},
	};
}
