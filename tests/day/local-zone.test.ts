import { afterEach, expect, test } from 'vitest';
import { localDate, localZone } from '../../src/day/local-zone.ts';

const given = process.env.TZ;
afterEach(() => {
	if (given === undefined) delete process.env.TZ;
	else process.env.TZ = given;
});

/** The hour of an instant in the zone that is named, and by the system's own clock. */
function hours(instant: string): [named: number, system: number] {
	const format = new Intl.DateTimeFormat('en-GB', { timeZone: localZone(), hour: '2-digit' });
	return [Number(format.format(Date.parse(instant))), new Date(instant).getHours()];
}

test('the zone that is named has the hours of the system’s own clock, in summer and in winter', () => {
	for (const zone of [undefined, 'Asia/Kathmandu', 'America/Chicago', 'UTC']) {
		if (zone === undefined) delete process.env.TZ;
		else process.env.TZ = zone;
		for (const instant of ['2027-01-02T06:30:00Z', '2027-07-02T18:30:00Z']) {
			const [named, system] = hours(instant);
			expect([zone, named]).toEqual([zone, system]);
		}
	}
});

test('where TZ names a zone, it is that one', () => {
	process.env.TZ = 'America/Chicago';
	expect(localZone()).toBe('America/Chicago');
});

test('the date is the one of the machine’s own time zone', () => {
	const late = Date.parse('2027-03-02T23:30:00Z');
	const dates = ['UTC', 'Asia/Tokyo', 'America/Chicago'].map(zone => {
		process.env.TZ = zone;
		return localDate(late);
	});
	expect(dates).toEqual(['2027-03-02', '2027-03-03', '2027-03-02']);
	process.env.TZ = 'UTC';
	expect(localDate(Date.parse('2027-12-31T00:00:00Z'))).toBe('2027-12-31');
});
