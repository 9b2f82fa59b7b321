import { afterEach, expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

const given = process.env.TZ;
afterEach(() => {
	if (given === undefined) delete process.env.TZ;
	else process.env.TZ = given;
});

test.each([
	['put forward', '2027-03-28T00:40:00Z'],
	['put back', '2027-10-31T00:40:00Z'],
])('the hour of a whole country %s in the middle of a day is no break, and moves no wait', (_, at) => {
	process.env.TZ = 'Europe/Berlin';
	const [before, after] = [Date.parse(at), Date.parse(at) + 3_600_000].map(ms => new Date(ms).getHours());
	expect(after).not.toBe((Number(before) + 1) % 24);
	const day = rehearsed({ at: Date.parse(at) });
	day.toEnd();
	const ends = Date.parse(day.records().at(-1)?.at ?? '');
	expect(ends).toBeGreaterThan(Date.parse(at) + 20 * 60_000);
	expect(day.ofType('break.began')).toEqual([]);
	expect(day.ofType('clock.set')).toEqual([]);
	expect(day.findings()).toEqual([]);

	const elsewhere = rehearsed();
	elsewhere.toEnd();
	const types = (one: typeof day) => one.records().map(({ type }) => type);
	expect(types(day)).toEqual(types(elsewhere));
});
