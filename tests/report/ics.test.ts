import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import { folded, ics } from '../../src/report/ics.ts';
import { plain } from '../../src/report/said.ts';
import { tablesOf } from '../../src/report/tables/tables.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { cartDay } from './cart-day.ts';
import { dayNamed, hostileNames, hostileText } from './hostile.ts';

const stamped = '2027-03-02T12:00:00.000Z';

/** The entries of a calendar as another reader of it sees them. */
function entriesOf(text: string) {
	const calendar = new ICAL.Component(ICAL.parse(text));
	return calendar.getAllSubcomponents('vevent').map(component => {
		const event = new ICAL.Event(component);
		return {
			uid: event.uid,
			summary: event.summary,
			says: event.description,
			from: event.startDate.toJSDate().toISOString(),
			until: event.endDate.toJSDate().toISOString(),
			zone: event.startDate.zone.tzid,
			alarms: component.getAllSubcomponents('valarm').length,
		};
	});
}

describe('the calendar of a day, read back by another program', () => {
	test('a window opens when its entry begins and closes when it ends', () => {
		const day = rehearsed();
		day.until(({ state, coat }) => state === 'wait' && coat === 2);
		const tables = tablesOf(day.records());
		const entries = entriesOf(ics(tables, stamped));
		const spray = entries.find(({ summary }) => summary.includes('May be sprayed: left door edges'));
		const row = tables.windows.find(({ face }) => face === 'left door/edges');
		const window = row?.windows.find(({ does }) => does === 'spray');
		expect(window).toBeDefined();
		expect(spray).toMatchObject({ from: window?.from, until: window?.until, zone: 'UTC' });
		expect(spray?.alarms).toBe(2);
		const sand = entries.find(({ summary }) => summary.includes('Sand first: left door edges'));
		expect(sand?.says).toContain('stays open');
	});

	test('sanding due and the next stage lie where the sheet and the data sheet put them', async () => {
		const day = await cartDay();
		const entries = entriesOf(ics(tablesOf(day), stamped));
		const next = entries.find(({ summary }) => summary.endsWith('Next stage may begin: spray topcoat'));
		// The sheet waits two days after the last primer; the right door was set aside and does not count.
		const primed = day.findLast(
			record => record.type === 'face.ended' && record.extent === 'all' && !record.face.startsWith('right'),
		);
		expect(Date.parse(next?.from ?? '') - Date.parse(primed?.at ?? '')).toBe(48 * 3_600_000);
		const sanding = entries.filter(({ summary }) => summary.includes('Sanding due: '));
		expect(sanding.map(({ summary }) => summary)).toContain('Rehearsed. Sanding due: right door');
		expect(sanding.map(({ summary }) => summary)).toContain('Rehearsed. Sanding due: canopy rail');
	});

	test('a day after which nothing is due is an entry all the same: an empty calendar is none', () => {
		const day = rehearsed();
		day.toEnd();
		const entries = entriesOf(ics(tablesOf(day.records()), stamped));
		expect(entries).toMatchObject([
			{ summary: 'Rehearsed. Spraying day: Coffee cart doors', from: day.records()[0]?.at, alarms: 0 },
		]);
	});

	test('a part set aside has no window to be sprayed in', async () => {
		const entries = entriesOf(ics(tablesOf(await cartDay()), stamped));
		const open = entries.filter(({ summary }) => /May be sprayed|first: /.test(summary));
		expect(open.length).toBeGreaterThan(0);
		expect(open.filter(({ summary }) => summary.includes('right door'))).toEqual([]);
	});

	test('the same day gives the same bytes, and its entries keep their names as the day goes on', async () => {
		const day = await cartDay();
		expect(ics(tablesOf(day), stamped)).toBe(ics(tablesOf(day), stamped));
		const names = (records: typeof day) => entriesOf(ics(tablesOf(records), stamped)).map(({ uid }) => uid);
		const closed = day.findIndex(({ type }) => type === 'day.closed');
		expect(names(day.slice(0, closed + 1))).toEqual(names(day));
		expect(new Set(names(day)).size).toBe(names(day).length);
	});
});

test('no line is longer than 75 octets, and unfolding gives back what was folded', () => {
	fc.assert(
		fc.property(fc.array(hostileText, { maxLength: 8 }), parts => {
			const line = plain(parts.join(''));
			const pieces = folded(line).split('\r\n');
			for (const piece of pieces) expect(Buffer.byteLength(piece)).toBeLessThanOrEqual(75);
			expect(pieces.map((piece, nth) => (nth === 0 ? piece : piece.slice(1))).join('')).toBe(line);
		}),
		{ numRuns: 300 },
	);
});

test('hostile names make no entry, no property and no line of their own', () => {
	const plainNames = {
		job: 'job',
		part: 'part',
		face: 'face',
		material: 'm',
		reason: 'r',
		fault: 'f',
		zone: 'UTC',
	};
	const count = entriesOf(ics(tablesOf(dayNamed(plainNames)), stamped)).length;
	expect(count).toBeGreaterThan(0);
	fc.assert(
		fc.property(hostileNames, names => {
			const said = { ...names, part: `p${names.part.replaceAll('/', '_')}`, face: `f${names.face}` };
			const text = ics(tablesOf(dayNamed(said)), stamped);
			const entries = entriesOf(text);
			expect(entries).toHaveLength(count);
			for (const { summary } of entries) expect(summary).not.toMatch(/[\r\n]/);
			expect(text.replaceAll('\r\n', '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
		}),
		{ numRuns: 60 },
	);
});
