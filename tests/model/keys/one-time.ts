import type { Clock } from '../../../src/day/clock.ts';
import type { ScreenClock } from '../../../src/screen/session-port.ts';

/** One time for the screen and the day, which passes only when it is told to. */
export type OneTime = {
	screen: ScreenClock;
	day: Clock;
	/** Time passes; alarms ring in their order, each at its moment. */
	pass(ms: number): void;
	/** Time passes and the program is busy: what falls due rings only with the next `pass`. */
	late(ms: number): void;
};

type Alarm = { at: number; then: () => void };

/** @param start wall clock at the beginning, ms */
export function oneTime(start: number): OneTime {
	let now = 0;
	const alarms = new Set<Alarm>();
	const after = (wait_ms: number, then: () => void) => {
		const alarm = { at: now + wait_ms, then };
		alarms.add(alarm);
		return () => void alarms.delete(alarm);
	};
	let callOff = () => {};
	const soonest = () => {
		let first: Alarm | null = null;
		for (const alarm of alarms) if (first === null || alarm.at < first.at) first = alarm;
		return first;
	};
	return {
		screen: { mono: () => now, after },
		day: {
			now: () => ({ wall: start + now, mono: now }),
			wakeAt(wall, wake) {
				callOff();
				callOff = wall === null ? () => {} : after(Math.max(0, wall - start - now), wake);
			},
		},
		pass(ms) {
			const end = now + ms;
			for (let due = soonest(); due && due.at <= end; due = soonest()) {
				alarms.delete(due);
				now = Math.max(now, due.at);
				due.then();
			}
			now = end;
		},
		late(ms) {
			now += ms;
		},
	};
}
