import type { Clock } from './clock.ts';

export type RunningClock = Clock & {
	/** Puts both clocks forward; what falls due meanwhile is called in order. */
	forward(by_ms: number): void;
};

/**
 * The clock of a rehearsal that somebody watches: it goes like the machine's own, and can be put forward. It tells no
 * uptime: put forward, that would mean nothing to the next run.
 *
 * @param real the clock underneath
 * @param begins wall clock at which it begins, ms; left out, now
 */
export function runningClock(real: Clock, begins = real.now().wall): RunningClock {
	let ahead_ms = 0;
	const moved_ms = begins - real.now().wall;
	let alarm: { at: number; wake: () => void } | null = null;
	const now = () => {
		const { wall, mono } = real.now();
		return { wall: wall + moved_ms + ahead_ms, mono: mono + ahead_ms };
	};
	const arm = () => real.wakeAt(alarm === null ? null : alarm.at - moved_ms - ahead_ms, ring);
	const ring = () => {
		const due = alarm;
		if (due === null) return;
		alarm = null;
		due.wake();
	};
	return {
		now,
		wakeAt(at, wake) {
			alarm = at === null ? null : { at, wake };
			arm();
		},
		forward(by_ms) {
			const end = ahead_ms + Math.max(0, by_ms);
			const start = real.now().wall + moved_ms;
			while (alarm !== null && alarm.at <= start + end) {
				ahead_ms = Math.max(ahead_ms, alarm.at - start);
				ring();
			}
			ahead_ms = end;
			arm();
		},
	};
}
