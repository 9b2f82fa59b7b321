import { describe, expect, test } from 'vitest';
import { cartDay } from './cart-day.ts';
import { cartSheet, door, lid } from './cart-sheet.ts';
import { changed, like, putAfter, shifted } from './draft.ts';
import type { Property } from './finding.ts';
import type { Raw } from './lines.ts';
import { foundIn } from './mutilated.ts';
import { hoursAt, type Point } from './points.ts';

const points = (...list: [hours: number, at_C: number][]): Point[] =>
	list.map(([hours, at_C]) => ({ hours, at_C }));

describe('a time by points', () => {
	// Of an epoxy's data sheet, 48 h at 7 °C, 24 h at 20 °C, 8 h at 30 °C; what lies between worked out by hand.
	const life = points([48, 7], [24, 20], [8, 30]);
	const gate = points([6, 7], [4, 20], [3, 30]);

	test.each([
		[13.5, 33.94],
		[25, 13.86],
		[20, 24],
		[35, 4.62],
		[0, 48],
	])('an end at %f °C is %f h: never longer than at the coldest', (at_C, hours) => {
		expect(hoursAt(life, at_C, 'end')).toBeCloseTo(hours, 2);
	});

	test.each([
		[25, 3.46],
		[35, 3],
		[0, 9.75],
	])('a beginning at %f °C is %f h: never shorter than at the warmest', (at_C, hours) => {
		expect(hoursAt(gate, at_C, 'beginning')).toBeCloseTo(hours, 2);
	});

	test('the order of the list is of no account; the factor of a sheet stands for both rules of thumb', () => {
		expect(hoursAt(life.toReversed(), 25, 'end')).toBeCloseTo(13.86, 2);
		expect(hoursAt(life, 40, 'end', 2)).toBeCloseTo(4, 6);
		expect(hoursAt(gate, -3, 'beginning', 4)).toBeCloseTo(24, 6);
	});

	test('more than 20 °C beyond its points an end has passed and a beginning has not come', () => {
		expect([hoursAt(life, 51, 'end'), hoursAt(life, -14, 'end')]).toEqual([0, 0]);
		expect([hoursAt(gate, 51, 'beginning'), hoursAt(gate, -14, 'beginning')]).toEqual([Infinity, Infinity]);
	});
});

const read = (airC: number, surfaceC: number) => ({ airC, humidity: 0.5, surfaceC, spray: true });

/** A day on a sheet whose paint is told so. */
function painted(own: Raw, day: Raw[] = cartDay()): Raw[] {
	const sheet = cartSheet(0);
	const materials = Object.fromEntries(
		Object.entries(sheet.materials).map(([id, paint]) => [id, { ...paint, ...own }]),
	);
	return changed(day, like('day.opened'), { sheet: { ...sheet, materials } });
}
const says = (property: Property, day: Raw[]) =>
	foundIn(day).flatMap(found => (found.property === property ? [found.says] : []));

describe('pot life by points', () => {
	const single = { at_C: 21, hours: 0.6 };
	const unread = (day: Raw[]) =>
		day.map(record => (record.type === 'cup.timed' ? { ...record, cup: 'none', tempC: 0 } : record));
	const living = (potLife: Point[], day = unread(cartDay()), more: Raw = {}) =>
		painted({ potLife: single, clocks: { potLife, ...more } }, day);
	const inAir = (airC: number) =>
		unread(cartDay()).map(record => (record.type === 'air.read' ? { ...record, airC } : record));
	const lidBeyond = expect.stringMatching(/top starts from batch A: it has used 1\d\d % of its pot life/);

	test('the lid gets its second coat 41 min after the hardener: too late for 36 min at 21 °C, by points in time at 16 °C', () => {
		expect(says(13, painted({ potLife: single }))).toContainEqual(lidBeyond);
		expect(says(13, living(points([1.5, 11], [0.6, 21])))).toContainEqual(lidBeyond);
		expect(says(13, painted({ potLife: { at_C: 21, hours: 0.75 } }))).toEqual([]);
		expect(says(13, living(points([0.55, 16], [0.3, 26]), inAir(17)))).toContainEqual(lidBeyond);
		expect(foundIn(living(points([1.5, 16], [0.9, 26]), inAir(17)))).toEqual([]);
	});

	test('past the points it is shortened by three for 10 °C, or by the factor of the sheet', () => {
		const hot = inAir(31);
		expect(says(13, living(points([4, 1], [2.2, 21]), hot))).toContainEqual(lidBeyond);
		expect(says(13, living(points([4, 1], [2.2, 21]), hot, { factorPer10C: 2 }))).toEqual([]);
	});

	test('a pot is warmer than its air by 1 °C, a large one by 2', () => {
		const listed = points([0.8, 21], [0.2, 31]);
		const made = (make_mL: number) =>
			unread(cartDay()).map(record => (record.type === 'batch.started' ? { ...record, make_mL } : record));
		expect(says(13, living(listed, made(300)))).toEqual([]);
		expect(says(13, living(points([0.75, 21], [0.2, 31]), made(300)))).toContainEqual(lidBeyond);
		expect(says(13, living(listed, made(400)))).toContainEqual(lidBeyond);
	});

	test('a reading counts back to the one before it, and air that is not read again grows warmer', () => {
		const listed = points([1.15, 21], [0.4, 31]);
		expect(says(13, living(listed))).toEqual([]);
		const warm = putAfter(unread(cartDay()), like('wait.ended'), 'air.read', read(31, 21));
		expect(says(13, living(listed, warm))).toEqual([
			expect.stringMatching(/top starts from batch A: it has used 2\d\d %/),
		]);
		const late = shifted(unread(cartDay()), like('wait.ended'), 3 * 3600);
		expect(says(13, living(points([5, 21], [1.4, 31]), late))).toEqual([lidBeyond]);
		expect(says(13, living(points([5, 21], [4.9, 31]), late))).toEqual([]);
	});

	test("the paint's own temperature, read at the flow cup, stands for the air", () => {
		const listed = points([1.2, 21], [0.6, 31]);
		const timed = (tempC: number) => changed(cartDay(), like('cup.timed', { batch: 'A' }), { tempC });
		expect(says(13, living(listed, timed(31)))).toEqual([lidBeyond]);
		expect(says(13, living(listed, timed(21)))).toEqual([]);
		expect(says(13, living(listed, changed(timed(31), like('cup.timed'), { cup: 'none' })))).toEqual([]);
	});

	test('a batch is mixed in vain by the life at the air read', () => {
		expect(says(22, living(points([1, 11], [0.09, 21])))).not.toEqual([]);
		expect(says(22, living(points([1, 11], [0.5, 21])))).toEqual([]);
	});
});

describe('one time is one point', () => {
	const living = (hours: number, airC: number, more: Raw = {}) => {
		const day = cartDay().map(record => (record.type === 'air.read' ? { ...record, airC } : record));
		return says(13, painted({ potLife: { at_C: 21, hours }, ...more }, day));
	};
	const waited = (minutes: number, surfaceC: number, own: Raw) => {
		const day = shifted(cartDay({ surfaceC }), like('wait.ended'), minutes * 60);
		return says(3, painted(own, day)).filter(text => text.includes('the sheet says'));
	};
	const flash = (min_min: number, max_min: number) => ({
		flash: { min_min, max_min, at_C: 21, touch: ['tacky', 'dry'] },
	});

	test('no cold lengthens a pot life, and warmth shortens it by three, or by the factor of the sheet', () => {
		expect(living(0.6, 12)).not.toEqual([]);
		expect(living(0.75, 12)).toEqual([]);
		expect(living(1.95, 31)).not.toEqual([]);
		expect(living(2.4, 31)).toEqual([]);
		expect(living(2.4, 31, { factorPer10C: 4 })).not.toEqual([]);
		expect(living(1.6, 31, { clocks: { factorPer10C: 2 } })).toEqual([]);
	});

	test('no warmth shortens a flash; cold lengthens it', () => {
		expect(waited(0, 26, flash(30, 90))).toEqual([]);
		expect(waited(-6, 26, flash(30, 90))).toHaveLength(1);
		expect(waited(0, 16, flash(30, 90))).toEqual([]);
		expect(waited(-6, 16, flash(30, 90))).toHaveLength(1);
	});

	test('no cold puts the end of a flash off; warmth brings it nearer', () => {
		expect(waited(0, 16, flash(20, 48))).toEqual([]);
		expect(waited(6, 16, flash(20, 48))).toHaveLength(1);
		expect(waited(0, 26, flash(20, 61))).toEqual([]);
		expect(waited(6, 26, flash(20, 61))).toHaveLength(1);
	});
});

describe('flash by points', () => {
	const flash = { from: points([1, 16], [0.25, 26]), to: points([3, 16], [1, 26]) };
	const early = (minutes: number, surfaceC = 21) =>
		shifted(cartDay({ surfaceC }), like('wait.ended'), -minutes * 60);
	const bySheet = (day: Raw[]) => says(3, day).filter(text => text.includes('the sheet says'));

	test('at 21 °C a coat after 32 min is right, after 26 min too early; at 16 °C after 43 min it is', () => {
		const given = { clocks: { flash } };
		expect(bySheet(painted(given))).toEqual([]);
		expect(bySheet(painted(given, early(6)))).toHaveLength(1);
		expect(bySheet(painted(given, early(0, 16)))[0]).toMatch(/gets coat 2: the sheet says wait/);
	});

	test('a shorter one than the single time, of the material or of one kind of coat', () => {
		const short = { from: points([0.3, 21]), to: null };
		expect(bySheet(painted({}, early(8)))).toHaveLength(1);
		expect(bySheet(painted({ clocks: { flash: short } }, early(8)))).toEqual([]);
		expect(bySheet(painted({ clocks: {}, coats: { full: { flash: short } } }, early(8)))).toEqual([]);
		expect(bySheet(painted({ clocks: {}, coats: { tack: { flash: short } } }, early(8)))).toHaveLength(1);
	});

	test('its end counts by the coldest reading', () => {
		const laid = like('window.set', { face: lid, coat: 1 });
		const warm = putAfter(early(-60), laid, 'air.read', read(21, 26));
		expect(bySheet(painted({ clocks: { flash } }, warm))).toEqual([]);
		const short = { from: flash.from, to: points([1.2, 16], [1, 26]) };
		expect(bySheet(painted({ clocks: { flash: short } }, warm))).not.toEqual([]);
	});

	test('dust beside a coat that is wet by it, and not beside one that is not', () => {
		const sanded = shifted(
			putAfter(cartDay(), like('wait.ended'), 'stage.done', { face: door, stage: 'sand', place: null }),
			like('stage.done', { stage: 'sand' }),
			0,
		);
		expect(says(19, painted({}, sanded))).toEqual([]);
		const long = { from: points([1, 21]), to: null };
		expect(says(19, painted({ clocks: { flash: long } }, sanded))[0]).toMatch(/beside wet counter lid/);
		expect(says(19, painted({ clocks: {}, coats: { full: { flash: long } } }, sanded))).not.toEqual([]);
	});
});
