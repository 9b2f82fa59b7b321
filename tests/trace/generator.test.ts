import { expect, test } from 'vitest';
import { eventSchema } from '../../src/day/records.ts';
import { makeCase } from './generator/case.ts';
import { causes } from './generator/plants.ts';
import { tuning } from './generator/seeds.ts';

const cases = Array.from({ length: 60 }, (_, nth) => makeCase(tuning.from + nth));

test('every record that is made up is one that a day file may hold', () => {
	for (const record of cases.slice(0, 12).flatMap(one => one.days.flat())) {
		const { seq, run, at, mono, more, ...event } = record;
		expect(eventSchema.safeParse(event).error, `${record.type} ${seq}`).toBeUndefined();
	}
});

test('records are numbered without gaps and stand in order of time', () => {
	for (const records of cases.flatMap(one => one.days))
		for (const [place, record] of records.entries()) {
			expect(record.seq).toBe(place + 1);
			if (place > 0) expect(record.at >= (records[place - 1]?.at ?? '')).toBe(true);
		}
});

test('a face keeps the air reading it was sprayed under, wherever late findings were put', () => {
	for (const records of cases.flatMap(one => one.days))
		for (const record of records)
			if (record.type === 'face.started' && record.air !== null)
				expect(records[record.air - 1]?.type).toBe('air.read');
});

test('the same seed gives the same days', () => {
	expect(makeCase(7)).toEqual(makeCase(7));
});

test('the fault asked about lies in the file, and its coat or the one before is spoilt', () => {
	for (const one of cases) {
		const seen = one.days.flat().filter(record => record.type === 'fault.seen' && record.fault === one.fault);
		expect(seen.some(record => 'face' in record && record.face === one.face)).toBe(true);
		expect(one.affected.some(bad => bad.face === one.face && bad.coat <= one.coat)).toBe(true);
	}
});

test('at least ten kinds of cause are planted, and some leave no record', () => {
	expect(causes.length).toBeGreaterThanOrEqual(10);
	expect(new Set(cases.map(one => one.cause)).size).toBeGreaterThanOrEqual(10);
	const told = cases.filter(one => one.tells).length;
	expect(told).toBeGreaterThan(cases.length / 2);
	expect(told).toBeLessThan(cases.length);
});
