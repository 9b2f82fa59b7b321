import { expect, test } from 'vitest';
import { instantIn } from '../../src/cli/instant.ts';

test('a date, or a date and a time with its zone, is an instant', () => {
	expect(instantIn('2027-03-02')).toBe(Date.UTC(2027, 2, 2));
	expect(instantIn('2027-03-02T08:00:00Z')).toBe(Date.UTC(2027, 2, 2, 8));
	expect(instantIn('2027-03-02T08:00:00.250Z')).toBe(Date.UTC(2027, 2, 2, 8, 0, 0, 250));
	expect(instantIn('2028-02-29T10:00+02:00')).toBe(Date.UTC(2028, 1, 29, 8));
});

test.each([
	'2027-02-30T08:00:00Z',
	'2027-02-29',
	'2027-03-02T08:00:00',
	'12',
	'8:00',
	'2027-13-01',
	'',
	'now',
])('"%s" is none: nothing is guessed', text => {
	expect(instantIn(text)).toBeNull();
});
