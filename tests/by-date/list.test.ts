import { expect, test } from 'vitest';
import { byDateList, parseByDate } from '../../src/by-date/list.ts';
import { byDateQuestion } from '../../src/cli/ask-by-date.ts';
import { oneQuestion } from '../../src/screen/one-question.ts';

/** What is asked by date, as published rules have it. */

/**
 * Fit test before use and yearly: 29 CFR 1910.134(f)(2), second-hand. Clearance: 1910.134(e)(1), from memory. Biological
 * monitoring: HSE, biological monitoring and paint spraying. Training and refresher by date: 40 CFR 63.11177(a); every five
 * years: 63.11173, from memory. Breathing gear monthly: HSE engineering sheet 18.
 */
test('fit test, clearance and monitoring once a year, the certificate every five, the compressor once a month', () => {
	const { items } = byDateList();
	expect(items.map(({ code, every_months }) => `${code} ${every_months}`)).toEqual([
		'compressor 1',
		'fit-test 12',
		'medical-clearance 12',
		'biological-monitoring 12',
		'painters-certificate 60',
	]);
	for (const { say } of items) expect(say.split(/\s+/).length).toBeLessThanOrEqual(12);
});

/** NIOSH 96-111: symptoms; leave the work, see a doctor. */
test('with it stands what to do when the chest is tight, said with the first question and no later one', () => {
	const { caution, items } = byDateList();
	expect(caution).toBe('Tight chest or cough: stop, out, a doctor. No spraying until cleared.');
	const [first] = items;
	if (!first) throw new Error('nothing is asked by date');
	expect(byDateQuestion(first, caution).lines[0]).toBe(caution);
	expect(byDateQuestion(first, null).lines).not.toContain(caution);
	expect(byDateQuestion(first, caution).lines.length).toBeLessThanOrEqual(3);
});

test('a question takes months, or one of its corners, and nothing else', () => {
	const [first] = byDateList().items;
	if (!first) throw new Error('nothing is asked by date');
	const ask = () => oneQuestion(byDateQuestion(first, null), () => '2027-03-02T08:00:00.000Z');
	const months = ask();
	expect(months.session.view()).toMatchObject({ ask: 'number', unit: 'months', min: 0, max: 240, step: 1 });
	for (const wrong of [{ number: 1.5 }, { key: 'hold' as const }, { text: 'soon' }])
		expect(months.session.answer(wrong).accepted).toBe(false);
	expect(months.session.over?.()).toBe(false);
	expect(months.session.answer({ number: 0 }).accepted).toBe(true);
	expect([months.answered(), months.session.over?.()]).toEqual([0, true]);
	const corner = ask();
	corner.session.answer({ key: 'topRight' });
	expect(corner.answered()).toBe('not-mine');
});

test.each([
	['an unknown key', 'list: by-date\nwhen: 2\n', /by-date\.yaml:2:1: key: found "when"/],
	['another list', 'list: gun-check\n', /by-date\.yaml:1:7: list: found "gun-check"/],
	[
		'days',
		'items:\n  - { code: a, every: 3 days, say: A?, why: B. }\n',
		/every: found "3 days"; allowed: 1 to 120 months/,
	],
])('%s is refused with its line and column', (_what, text, says) => {
	const read = parseByDate(text, 'by-date.yaml');
	const errors = Array.isArray(read) ? read : [];
	expect(
		errors.map(({ file, line, column, says }) => `${file}:${line}:${column}: ${says}`).join('\n'),
	).toMatch(says);
});
