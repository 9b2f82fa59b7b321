import { describe, expect, test } from 'vitest';
import type { DayRecord } from '../../src/day/records.ts';
import { reportAs } from '../../src/report/report.ts';
import { tablesOf } from '../../src/report/tables/tables.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { smallJob } from '../day/small-job.ts';
import { builtIn } from '../trace/built-in.ts';
import { added } from './cart-day.ts';

/** Film against target: flow and transfer are unsure, and a dry gauge reads all coats through. Common practice, no source. */

const face = 'left door/flat';

/** Flow good to a tenth, transfer to a twentieth of itself. */
const gun = { ...smallJob().gun, transfer_tolerance: 0.03, flow_tolerance: 0.1 };
const played = () => rehearsed({ job: { ...smallJob(), gun } });

/** The small day, each pass a minute by plan, the trigger pulled so many seconds in each. */
function pulled(pull_s: number): DayRecord[] {
	const day = played();
	for (let nth = 0; nth < 6; nth++) {
		day.until(({ ask }) => ask === 'spraying');
		day.send('trigger on', `wait ${pull_s} s`, 'trigger off', 'wait 15 s');
		day.pick('finished');
	}
	day.toEnd();
	return day.records();
}
const filmOn = (day: readonly DayRecord[], coat: number) => {
	const row = tablesOf(day).film.find(one => one.face === face && one.coat === coat);
	if (!row) throw new Error('no film');
	return row;
};
const filmSaid = (day: readonly DayRecord[]): string => {
	const html = reportAs('html', { day, days: [day], faults: builtIn, sheet: 'coats' }).replaceAll(
		'\u00a0',
		' ',
	);
	const [, section = ''] = /<section aria-labelledby="film">(.*?)<\/section>/s.exec(html) ?? [];
	return section.replaceAll(/<[^>]*>/g, ' ');
};

describe('by the pulls', () => {
	test.each([
		[40, 'under'],
		[60, 'within'],
		[72, 'over'],
		[150, 'over'],
	])('%i s of a minute: %s', (pull_s, wanted) => {
		const { against_target, against_by, target_wet_um, laid_low_wet_um, laid_high_wet_um } = filmOn(
			pulled(pull_s),
			1,
		);
		expect([against_target, against_by]).toEqual([wanted, 'pulls']);
		const holds = (laid_low_wet_um ?? 0) <= target_wet_um && target_wet_um <= (laid_high_wet_um ?? 0);
		expect(holds).toBe(wanted === 'within');
	});

	test('planned is said of a film whose bounds hold its target alone, however near the seconds came', () => {
		// A fifth too long is no slow hand, and too much film all the same.
		const day = pulled(72);
		expect(filmOn(day, 1).pace).toBe('right');
		expect(filmSaid(day)).toContain('over its target');
		expect(filmSaid(day)).not.toContain('as planned');
		expect(filmSaid(pulled(60))).toContain('as planned');
	});

	test('the figures of the day count what departs', () => {
		expect(tablesOf(pulled(72)).counts).toMatchObject({ films_worked_out: 6, films_over: 6, films_under: 0 });
		expect(tablesOf(pulled(60)).counts).toMatchObject({ films_worked_out: 6, films_over: 0, films_under: 0 });
	});
});

describe('by a gauge', () => {
	const read = (day: readonly DayRecord[], film: { dry_um: number } | { wet_um: number }) =>
		added(day, 15, [{ type: 'film.read', face, coat: 2, ...film, by: 'gauge' }]);
	const day = pulled(60);

	test('a dry one on coat 2 is set against both coats, wanted and worked out', () => {
		// 40 µm dry a coat, by the sheet.
		const row = filmOn(read(day, { dry_um: 79 }), 2);
		expect(row).toMatchObject({
			against_target: 'within',
			against_by: 'dry reading',
			build_target_dry_um: 80,
		});
		const one = row.laid_dry_um ?? 0;
		expect(row.build_dry_um).toBeCloseTo(2 * one, 6);
		expect(row.build_low_dry_um).toBeLessThan(2 * one);
		expect(row.build_high_dry_um).toBeGreaterThan(2 * one);
		expect(filmSaid(read(day, { dry_um: 79 }))).toMatch(
			/79 µm dry through 2 coats, 80 µm wanted, \d+–\d+ µm worked out/,
		);
	});

	test('what one coat should be is too little through two', () => {
		expect(filmOn(read(day, { dry_um: 40 }), 2).against_target).toBe('under');
	});

	test('the build is not worked out where a coat under it has no pulls; what was wanted stands', () => {
		const without = played();
		without.toEnd();
		const row = filmOn(read(without.records(), { dry_um: 79 }), 2);
		expect(row).toMatchObject({ build_dry_um: null, build_target_dry_um: 80, against_target: 'within' });
	});

	test('a wet one speaks for its coat, and before the pulls', () => {
		expect(filmOn(read(day, { wet_um: 170 }), 2)).toMatchObject({
			against_target: 'over',
			against_by: 'wet reading',
		});
	});
});
