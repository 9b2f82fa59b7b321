import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dated, isAskedNow, monthsFrom, overdueLine } from '../../src/by-date/dates.ts';

/** What holds for a month or a year: when it is asked again, and what is said of it when it is overdue. */

const today = '2027-03-02';

test.each([
	['2027-03-02', 1, '2027-04-02'],
	['2027-01-31', 1, '2027-02-28'],
	['2028-01-31', 1, '2028-02-29'],
	['2027-03-02', -14, '2026-01-02'],
	['2027-12-15', 1, '2028-01-15'],
	['2027-03-31', -1, '2027-02-28'],
])('%s and %i months is %s', (date, months, wanted) => {
	expect(monthsFrom(date, months)).toBe(wanted);
});

test('months on and back lead to the same month', () => {
	fc.assert(
		fc.property(fc.integer({ min: 1, max: 28 }), fc.integer({ min: -240, max: 240 }), (day, months) => {
			const date = `2027-03-${String(day).padStart(2, '0')}`;
			expect(monthsFrom(monthsFrom(date, months), -months)).toBe(date);
		}),
	);
});

describe('what is asked', () => {
	test('what was never answered', () => {
		expect(isAskedNow(undefined, today)).toBe(true);
	});

	test('what was done lately is asked again when it ends, and no day before', () => {
		const fit = dated(4, 12, today);
		expect(fit).toEqual({ last: '2026-11-02', due: '2027-11-02', again: '2027-11-02' });
		expect([isAskedNow(fit, '2027-11-01'), isAskedNow(fit, '2027-11-02')]).toEqual([false, true]);
		expect(overdueLine({ 'fit-test': fit }, '2027-11-01')).toBe('');
	});

	test('what is overdue is one line, and is asked again after a month', () => {
		const late = { 'fit-test': dated(15, 12, today), 'medical-clearance': dated('not-yet', 12, today) };
		expect(overdueLine(late, today)).toBe('Overdue: fit test, medical clearance.');
		for (const one of Object.values(late)) {
			expect(isAskedNow(one, '2027-04-01')).toBe(false);
			expect(isAskedNow(one, '2027-04-02')).toBe(true);
		}
	});

	test('what is not for a painter is never overdue, and is asked once more after a year', () => {
		const certificate = dated('not-mine', 60, today);
		expect(overdueLine({ certificate }, '2040-01-01')).toBe('');
		expect([isAskedNow(certificate, '2028-03-01'), isAskedNow(certificate, '2028-03-02')]).toEqual([
			false,
			true,
		]);
	});
});
