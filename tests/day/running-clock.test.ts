import { expect, test } from 'vitest';
import { movedClock } from '../../src/day/clock.ts';
import { runningClock } from '../../src/day/running-clock.ts';

test('it goes with the clock underneath', () => {
	const real = movedClock(1000);
	const clock = runningClock(real);
	real.pass(500);
	expect(clock.now()).toEqual({ wall: 1500, mono: 500 });
});

test('put forward, both clocks go on alike, and alarms ring in order at their own time', () => {
	const real = movedClock(0);
	const clock = runningClock(real);
	const rung: number[] = [];
	const ring = () => {
		rung.push(clock.now().wall);
		if (rung.length < 3) clock.wakeAt(clock.now().wall + 1000, ring);
	};
	clock.wakeAt(1000, ring);
	clock.forward(60_000);
	expect(rung).toEqual([1000, 2000, 3000]);
	expect(clock.now()).toEqual({ wall: 60_000, mono: 60_000 });
});

test('an alarm beyond where it was put rings when its time comes', () => {
	const real = movedClock(0);
	const clock = runningClock(real);
	const rung: number[] = [];
	clock.wakeAt(5000, () => rung.push(clock.now().wall));
	clock.forward(2000);
	real.pass(2999);
	expect(rung).toEqual([]);
	real.pass(1);
	expect(rung).toEqual([5000]);
});

test('an alarm called off does not ring', () => {
	const real = movedClock(0);
	const clock = runningClock(real);
	clock.wakeAt(1000, () => expect.unreachable());
	clock.wakeAt(null, () => {});
	clock.forward(5000);
	expect(clock.now().wall).toBe(5000);
});

test('it may begin at another time of day than it is', () => {
	const real = movedClock(10_000);
	const clock = runningClock(real, 2000);
	const rung: number[] = [];
	clock.wakeAt(5000, () => rung.push(clock.now().wall));
	clock.forward(1000);
	real.pass(1999);
	expect(rung).toEqual([]);
	real.pass(1);
	expect(rung).toEqual([5000]);
	expect(clock.now()).toEqual({ wall: 5000, mono: 3000 });
});
