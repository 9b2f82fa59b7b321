import type { ScreenClock } from '../../src/screen/session-port.ts';

export type TestClock = ScreenClock & {
	/** Lets so many milliseconds pass, alarms ringing at their time. */
	pass(wait_ms: number): void;
	/** Stands still for so long: alarms ring only afterwards, late. */
	stall(wait_ms: number): void;
};

export function testClock(): TestClock {
	let now = 1000;
	let alarms: { at: number; then: () => void }[] = [];
	const ring = () => {
		const due = alarms.filter(({ at }) => at <= now).sort((one, other) => one.at - other.at)[0];
		if (!due) return false;
		alarms = alarms.filter(alarm => alarm !== due);
		due.then();
		return true;
	};
	return {
		mono: () => now,
		after(wait_ms, then) {
			const alarm = { at: now + wait_ms, then };
			alarms.push(alarm);
			return () => {
				alarms = alarms.filter(other => other !== alarm);
			};
		},
		pass(wait_ms) {
			const until = now + wait_ms;
			for (;;) {
				const next = Math.min(...alarms.map(({ at }) => at));
				if (next > until) break;
				now = Math.max(now, next);
				ring();
			}
			now = until;
		},
		stall(wait_ms) {
			now += wait_ms;
			while (ring());
		},
	};
}
