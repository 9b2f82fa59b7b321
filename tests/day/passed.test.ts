import { describe, expect, test } from 'vitest';
import { passed, unknown_ms } from '../../src/day/passed.ts';

/** What clocks that disagree leave of the time between two looks at them. Choices of this project, no source. */

const min = (minutes: number) => minutes * 60_000;
const from = { wall: 0, mono: 0, up: min(100), run: 1 };
const gone = (wall: number, mono: number, up?: number) =>
	passed(up === undefined ? { ...from, up } : from, {
		wall: min(wall),
		mono: min(mono),
		up: up === undefined ? up : min(100 + up),
		run: 1,
	});
const bounds = (least: number, most: number) => ({ least: min(least), most: min(most) });

describe('within one run of the program', () => {
	test('clocks that agree: what the monotonic one says', () => expect(gone(5, 5, 5)).toEqual(bounds(5, 5)));

	test('asleep, and the uptime says so: all of it counts, for both kinds', () =>
		expect(gone(35, 5, 35)).toEqual(bounds(35, 35)));

	test('the clock went on by itself, and no uptime proves a sleep: set or asleep, nobody can tell', () => {
		expect(gone(35, 5)).toEqual(bounds(5, 35));
		expect(gone(35, 5, 5)).toEqual(bounds(5, 35));
	});

	test('the clock went back: it was set, and the monotonic one counts', () => {
		expect(gone(-55, 5)).toEqual(bounds(5, 5));
		expect(gone(-55, 5, 5)).toEqual(bounds(5, 5));
	});

	test('asleep, and the clock was set as well: the uptime counts, to a second', () => {
		const second = 1 / 60;
		expect(gone(10, 5, 35)).toEqual(bounds(35 - second, 35 + second));
		expect(gone(95, 5, 35)).toEqual(bounds(35 - second, 95));
	});
});

describe('from one run to the next', () => {
	const restarted = (wall: number, up?: number) =>
		passed(up === undefined ? { ...from, up } : from, {
			wall: min(wall),
			mono: 0,
			up: up === undefined ? up : min(up),
			run: 2,
		});
	const second = 1 / 60;

	test('the wall clock counts, where nothing gainsays it', () => {
		expect(restarted(30)).toEqual(bounds(30, 30));
		expect(restarted(30, 130)).toEqual(bounds(30, 30));
		expect(restarted(30, 5)).toEqual(bounds(30, 30));
	});

	test('the clock is behind: at the least what the machine has run, at the most nobody knows', () => {
		expect(restarted(-30)).toEqual({ least: 0, most: unknown_ms });
		expect(restarted(-30, 110)).toEqual({ least: min(10 - second), most: unknown_ms });
		expect(restarted(2, 5)).toEqual({ least: min(5 - second), most: unknown_ms });
	});

	test('the clock is further on than the uptime: it was set, or the machine was started anew', () =>
		expect(restarted(90, 110)).toEqual(bounds(10 - second, 90)));
});
