import { expect, test } from 'vitest';
import { movedClock } from '../../src/day/clock.ts';
import { pulledClock } from '../../src/day/pulled-clock.ts';

const pulls = [
	{ on: true, after_ms: 1000 },
	{ on: false, after_ms: 2000 },
	{ on: true, after_ms: 2000 },
];

function played() {
	const bare = movedClock(500);
	const log: string[] = [];
	const note = (what: string) => log.push(`${what} at ${bare.now().wall}`);
	const clock = pulledClock(bare, pulls, on => note(on ? 'on' : 'off'));
	return { bare, clock, log, note };
}

test('recorded pulls come at their times, one after another', () => {
	const { bare, log } = played();
	bare.pass(1400);
	expect(log).toEqual(['on at 1500']);
	bare.pass(5000);
	expect(log).toEqual(['on at 1500', 'off at 2500', 'on at 2500']);
});

test('what else is due comes between them in its turn, after a pull of the same instant', () => {
	const { bare, clock, log, note } = played();
	clock.wakeAt(1500, () => {
		note('alarm');
		clock.wakeAt(2000, () => note('second alarm'));
	});
	bare.pass(5000);
	expect(log).toEqual([
		...['on at 1500', 'alarm at 1500', 'second alarm at 2000'],
		...['off at 2500', 'on at 2500'],
	]);
});

test('an alarm can be set anew and called off without losing a pull', () => {
	const { bare, clock, log, note } = played();
	clock.wakeAt(700, () => note('old'));
	clock.wakeAt(800, () => note('new'));
	bare.pass(400);
	clock.wakeAt(1600, () => note('never'));
	clock.wakeAt(null, () => {});
	bare.pass(1000);
	expect(log).toEqual(['new at 800', 'on at 1500']);
});

test('stopped, no further pull comes and alarms still do', () => {
	const { bare, clock, log, note } = played();
	bare.pass(1200);
	clock.stop();
	clock.wakeAt(9000, () => note('alarm'));
	bare.pass(10_000);
	expect(log).toEqual(['on at 1500', 'alarm at 9000']);
});
