import { expect, test } from 'vitest';
import { acrossDays } from '../../src/trace/across.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { builtIn } from './built-in.ts';
import { makeCase } from './generator/case.ts';
import { tuning } from './generator/seeds.ts';

const cases = Array.from({ length: 40 }, (_, nth) => makeCase(tuning.from + nth));
const found = acrossDays(
	cases.map(one => one.days),
	builtIn,
);
const all = cases.flatMap(one => one.days.flat());

test('days, faults, first readings and breaks are counted as they stand in the files', () => {
	expect(found.days).toBe(cases.flatMap(one => one.days).length);
	expect(found.jobs).toBe(cases.length);
	const seen = all.filter(record => record.type === 'fault.seen' && record.face !== undefined);
	expect(found.faults.reduce((sum, { faces }) => sum + faces, 0)).toBe(seen.length);
	const first = all.filter(record => record.type === 'reading.taken' && record.attempt === 1);
	expect(found.readings.reduce((sum, one) => sum + one.first, 0)).toBe(first.length);
	const breaks = all.filter(record => record.type === 'break.began');
	expect(found.breaks.reduce((sum, { count }) => sum + count, 0)).toBe(breaks.length);
});

test('a feature whose first reading never differed, often asked, is a warning', () => {
	expect(found.readings.find(({ feature }) => feature === 'breathing')).toMatchObject({
		differed: 0,
		warning: true,
	});
	expect(found.readings.find(({ feature }) => feature === 'can')?.warning).toBe(false);
});

test('each fault says what came last before its faces, and the causes found for it', () => {
	const soft = found.faults.find(({ fault }) => fault === 'stays-soft');
	expect(soft?.after.length).toBeGreaterThan(0);
	expect(soft?.causes.map(({ code }) => code)).toContain('no-hardener');
});

test('an insect is counted and starts no trace', () => {
	expect(found.faults.find(({ fault }) => fault === 'insect')?.causes).toEqual([]);
});

test('a break counts in the hour in which it can have begun, not in which it was noticed', () => {
	const day = rehearsed();
	day.toAsk('go');
	day.send('sleep 3 h');
	expect(acrossDays([[day.records()]], builtIn).breaks).toEqual([{ hour: 8, count: 1 }]);
});
