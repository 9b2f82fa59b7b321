import { describe, expect, test } from 'vitest';
import { cartDay } from './cart-day.ts';
import { cartSheet, lid } from './cart-sheet.ts';
import { changed, like, putAfter, shifted } from './draft.ts';
import type { Property } from './finding.ts';
import type { Raw } from './lines.ts';
import { foundIn } from './mutilated.ts';

const row = (from_C: number, to_C: number, opens: number, shuts: number) => ({
	from_C,
	to_C,
	windows: [
		{ does: 'wait', from_h: 0, until_h: opens },
		{ does: 'spray', from_h: opens, until_h: shuts },
		{ does: 'scuff', from_h: shuts, until_h: null },
	],
});
/** A day on paint with such a table, whose flash opens nothing. */
function tabled(rows: Raw[], day: Raw[] = cartDay()): Raw[] {
	const sheet = cartSheet(0);
	const flash = { min_min: 6000, max_min: 6001, at_C: 21, touch: ['tacky', 'dry'] };
	const materials = Object.fromEntries(
		Object.entries(sheet.materials).map(([id, paint]) => [
			id,
			{ ...paint, flash, recoat: [{ under: 'cart-green', rows }] },
		]),
	);
	return changed(day, like('day.opened'), { sheet: { ...sheet, materials } });
}
const says = (property: Property, day: Raw[]) =>
	foundIn(day).flatMap(found => (found.property === property ? [found.says] : []));
const bySheet = (day: Raw[]) => says(3, day).filter(text => text.includes('the sheet says'));
const read = (surfaceC: number) => ({ airC: 21, humidity: 0.5, surfaceC, spray: true });
const first = like('window.set', { face: lid, coat: 1 });
const cold = /^counter lid\/top gets coat 2: the sheet says wait /;
const shut = /^counter lid\/top gets coat 2: the sheet says scuff /;

/** The lid is started at 6:06:18, finished at 6:07:01 and sprayed over at 6:41:16, 0.5708 h later; 21 °C is read at 6:00:12. */
describe('a coat over another by a table of several rows', () => {
	const hot = row(24, 30, 0.1, 2);
	const icy = row(7, 15, 0.8, 3);

	test('opens by the row that holds the reading, to the second', () => {
		expect(bySheet(tabled([row(16, 22, 0.57, 2), hot]))).not.toContainEqual(expect.stringMatching(cold));
		expect(bySheet(tabled([row(16, 22, 0.573, 2), hot]))).toContainEqual(expect.stringMatching(cold));
		expect(bySheet(tabled([row(16, 22, 0.5, 2), hot]))).toEqual([]);
	});

	test('opens by the colder of two readings, from the one back to the other', () => {
		const rows = [icy, row(16, 22, 0.5, 2)];
		expect(bySheet(tabled(rows))).toEqual([]);
		for (const when of [first, like('wait.ended')])
			expect(bySheet(tabled(rows, putAfter(cartDay(), when, 'air.read', read(10))))).toContainEqual(
				expect.stringMatching(cold),
			);
	});

	test('shuts by its row, counted from the start of the coat', () => {
		expect(bySheet(tabled([row(16, 22, 0.1, 0.585), hot]))).toEqual([]);
		expect(bySheet(tabled([row(16, 22, 0.1, 0.577), hot]))[0]).toMatch(shut);
	});

	test('shuts by the highest reading held, though it is cool again', () => {
		const rows = [row(16, 22, 0.1, 2), row(24, 30, 0.1, 0.55)];
		expect(bySheet(tabled(rows))).toEqual([]);
		const warmed = putAfter(cartDay(), first, 'air.read', read(26));
		expect(bySheet(tabled(rows, warmed))).toContainEqual(expect.stringMatching(shut));
	});

	test('opens later where the surface may have cooled since it was read', () => {
		const late = shifted(cartDay(), like('wait.ended'), 3 * 3600);
		const rows = (from_C: number) => [row(1, 2, 9, 90), row(from_C, 22, 3.5, 30)];
		const [lidOnly] = bySheet(tabled(rows(16), late)).filter(text => cold.test(text));
		expect(lidOnly).toBeUndefined();
		expect(bySheet(tabled(rows(21), late))).toContainEqual(expect.stringMatching(cold));
	});
});

/** Told at 6:39:52, 0.5475 h after the coat. */
describe('a window told of a face by a table of several rows', () => {
	const moved = (to: string, rows: Raw[], day = cartDay()) =>
		says(17, tabled(rows, putAfter(day, like('wait.ended'), 'window.moved', { face: lid, coat: 2, to })));
	const wrong = [expect.stringMatching(/^the window of counter lid\/top moves to /)];
	const cool = row(7, 15, 0.6, 3);

	test('opens no sooner than its clock', () => {
		expect(moved('spray', [cool, row(16, 22, 0.547, 2)])).toEqual([]);
		expect(moved('spray', [cool, row(16, 22, 0.549, 2)])).toEqual(wrong);
	});

	test('stands no longer open than its clock', () => {
		expect(moved('spray', [cool, row(16, 22, 0.1, 0.57)])).toEqual([]);
		expect(moved('spray', [cool, row(16, 22, 0.1, 0.5)])).toEqual(wrong);
		expect(moved('scuff', [cool, row(16, 22, 0.1, 0.5)])).toEqual([]);
	});

	test('is none that no temperature within reach would show', () => {
		expect(moved('scuff', [cool, row(16, 22, 0.1, 2)])).toEqual(wrong);
		expect(moved('sand', [cool, row(16, 22, 0.1, 0.5)])).toEqual(wrong);
	});

	test('is the more careful of what two rows tell once the surface may have passed from one to the other', () => {
		const windows = (does: string[], hours: number[]) =>
			does.map((one, n) => ({ does: one, from_h: hours[n] ?? 0, until_h: hours[n + 1] ?? null }));
		const rows = [
			{ from_C: 12, to_C: 20, windows: windows(['wait', 'spray', 'sand'], [0, 0.4, 4.8]) },
			{
				from_C: 20.5,
				to_C: 32,
				windows: windows(['wait', 'spray', 'wait', 'spray', 'sand'], [0, 0.2, 0.8, 1.8, 6]),
			},
		];
		const late = shifted(cartDay(), like('wait.ended'), 4.5 * 3600);
		expect(moved('sand', rows, late)).toEqual([]);
		expect(moved('spray', rows, late)).toEqual(wrong);
		expect(moved('sand', rows)).toEqual(wrong);
	});
});
