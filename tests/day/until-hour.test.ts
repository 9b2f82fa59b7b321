import { describe, expect, test } from 'vitest';
import { historyAfter } from '../../src/day/history.ts';
import { waits_s } from '../../src/day/sheet-wait.ts';
import { parseJob } from '../../src/job/load.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { coats, sheetOf, standardLists } from './courses/sheets.ts';
import { rehearsed } from './rehearsed.ts';

const hour_ms = 3_600_000;

describe('a wait until an hour of the morning', () => {
	test.each([
		['the evening before', '2027-03-02T17:10:00Z', 'UTC', '2027-03-03T08:00:00Z'],
		['just past it', '2027-03-02T08:00:30Z', 'UTC', '2027-03-03T08:00:00Z'],
		['by the clock of the shop', '2027-03-02T17:10:00Z', 'Asia/Kolkata', '2027-03-03T02:30:00Z'],
		['over a night that is an hour short', '2027-03-27T17:00:00Z', 'Europe/Berlin', '2027-03-28T06:00:00Z'],
		['over a night that is an hour long', '2027-10-30T17:00:00Z', 'Europe/Berlin', '2027-10-31T07:00:00Z'],
	])('%s', (_, from, zone, until) => {
		const ended = Date.parse(from);
		expect(ended + waits_s({ wait_h: 1, until_min: 480 }, ended, zone) * 1000).toBe(Date.parse(until));
	});

	test('is no shorter than its hours', () => {
		const ended = Date.parse('2027-03-02T07:00:00Z');
		expect(waits_s({ wait_h: 9, until_min: 480 }, ended, 'UTC')).toBe(9 * 3600);
	});

	test('the next day, begun before it, waits for it', async () => {
		const text = sheetOf({
			parts: 'shelf',
			primer: { windows: 'wait: 0 to 20 min, spray: from 20 min' },
			stages: `${coats(1)}  - wait: until 08:00\n${coats(1)}`,
		});
		const loaded = parseJob(text.replace('day: 16 h', 'day: 9 h'), 'hatch.yaml');
		if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
		const shop = { job: loaded.job, lists: await standardLists() };
		const first = rehearsed({ ...shop, at: Date.parse('2027-03-02T08:00:00Z') });
		first.toEnd();
		const next = rehearsed({
			...shop,
			at: Date.parse('2027-03-03T05:00:00Z'),
			before: historyAfter(first.records()),
		});
		const { timers } = next.line();
		expect(timers.find(({ code }) => code === 'opens')?.due).toBe('2027-03-03T08:00:00.000Z');
		next.toEnd();
		const [started] = next.ofType('face.started');
		expect(Date.parse(started?.at ?? '') / hour_ms).toBeGreaterThanOrEqual(
			Date.parse('2027-03-03T08:00:00Z') / hour_ms,
		);
		expect(checkDayFile(next.bytes(), [first.bytes()])).toEqual([]);
	});
});
