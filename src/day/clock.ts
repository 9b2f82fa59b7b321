import type { Shown } from './instant.ts';

/** Where time comes from. The rehearsal has one that can be moved. */
export type Clock = {
	/** Wall clock, ms since 1970 UTC, and monotonic clock, ms. */
	now(): Omit<Shown, 'run'>;
	/** Calls back once, at or after a wall clock time; the last call replaces the one before. */
	wakeAt(wall: number | null, wake: () => void): void;
};

/** The machine's own clocks. */
export function realClock(): Clock {
	let timer: NodeJS.Timeout | null = null;
	return {
		now: () => ({ wall: Date.now(), mono: Math.round(performance.now()) }),
		wakeAt(wall, wake) {
			if (timer) clearTimeout(timer);
			timer = wall === null ? null : setTimeout(wake, Math.min(Math.max(0, wall - Date.now()), 2 ** 31 - 1));
		},
	};
}

export type MovedClock = Clock & {
	/** Time passes on both clocks; what falls due meanwhile is called in order. */
	pass(ms: number): void;
	/** The machine sleeps: only the wall clock goes on. */
	sleep(ms: number): void;
	/** Somebody sets the wall clock. */
	set(step_ms: number): void;
};

/** A clock that stands still until it is moved. */
export function movedClock(start: number): MovedClock {
	let wall = start;
	let mono = 0;
	let alarm: { at: number; wake: () => void } | null = null;
	return {
		now: () => ({ wall, mono }),
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
		},
		set(step_ms) {
			wall += step_ms;
		},
	};
}
