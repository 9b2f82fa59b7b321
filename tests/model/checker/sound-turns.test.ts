import { describe, expect, test } from 'vitest';
import { cartDay } from './cart-day.ts';
import { door, lid } from './cart-sheet.ts';
import { checkDayFile } from './check.ts';
import { changed, find, like, putAfter, seal, shifted } from './draft.ts';
import type { Raw } from './lines.ts';
import { foundIn } from './mutilated.ts';

/** Turns that a day may well take and that are no fault: the checker must let each pass. */

const poured = (component: string) => like('batch.poured', { component });
const level = (component: string, level_mL: number, found: string, wanted_mL = level_mL) => ({
	batch: 'A',
	component,
	can: component === 'base' ? 'ring' : 'cross',
	level_mL,
	wanted_mL,
	found,
});

describe('mixing', () => {
	test('a pour short at first and then right', () => {
		const short = changed(cartDay(), poured('hardener'), { level_mL: 280, found: 'short' });
		expect(
			foundIn(putAfter(short, poured('hardener'), 'batch.poured', level('hardener', 301, 'right', 300))),
		).toEqual([]);
	});

	test('too much hardener made good by more base', () => {
		const over = changed(cartDay(), poured('hardener'), { level_mL: 322, found: 'over' });
		expect(foundIn(putAfter(over, poured('hardener'), 'batch.poured', level('base', 360, 'right')))).toEqual(
			[],
		);
	});

	test('too much hardener made good by too little base is found', () => {
		const over = changed(cartDay(), poured('hardener'), { level_mL: 342, found: 'over' });
		const found = foundIn(putAfter(over, poured('hardener'), 'batch.poured', level('base', 350, 'right')));
		expect(found.map(({ property }) => property)).toContain(13);
	});

	test('a break after the hardener that finds the level as it was', () => {
		const before = { batch: 'A', component: 'hardener', level_mL: 302, found: 'before' };
		expect(foundIn(putAfter(cartDay(), poured('hardener'), 'batch.found', before))).toEqual([]);
	});

	test('an unknown level of base alone, read again', () => {
		const lost = changed(cartDay(), poured('base'), { level_mL: 120, found: 'short' });
		const unknown = putAfter(lost, poured('base'), 'batch.found', {
			batch: 'A',
			component: 'base',
			found: 'unknown',
		});
		const again = putAfter(unknown, like('batch.found'), 'batch.poured', level('base', 201, 'right', 200));
		expect(foundIn(again)).toEqual([]);
	});
});

describe('clocks', () => {
	const start = like('face.started', { face: lid, coat: 2 });
	const setBack = (seconds: number) => {
		const day = cartDay();
		const from = find(day, start);
		const { run, mono, at } = day[from - 1] ?? {};
		const back = new Date(Date.parse(String(at)) - seconds * 1000).toISOString();
		const later = shifted(day, start, -seconds).map((record, n) =>
			n < from ? record : { ...record, mono: day[n]?.mono },
		);
		return later.toSpliced(from, 0, {
			seq: 0,
			run,
			mono,
			at: back,
			type: 'clock.set',
			stepMs: -seconds * 1000,
		});
	};

	test('a clock set back by a second asks for no check', () => {
		expect(foundIn(setBack(1)).map(({ property }) => property)).toEqual([]);
	});

	test('a clock set back by an hour is a break', () => {
		expect(foundIn(setBack(3600)).map(({ property }) => property)).toContain(1);
	});
});

describe('the cup', () => {
	/** Half-way through the first coat the cup is filled again from the same batch, or the gun spits. */
	const beforeDoor = (records: Raw[]) => (day: Raw[]) => {
		const n = find(day, like('gun.unknown', { why: 'cap-turn' }));
		const { run, mono, at } = day[n] ?? {};
		return day.toSpliced(n, 0, ...records.map(record => ({ seq: 0, run, mono, at, ...record })));
	};

	test('a refill from the same batch is cleared by the short check', () => {
		const refill = beforeDoor([
			{ type: 'batch.loaded', batch: 'A', volume_mL: 50, refill: true },
			{ type: 'gun.unknown', why: 'refill' },
		]);
		expect(foundIn(refill(cartDay()))).toEqual([]);
	});

	test('a gun fault is not cleared by the short check', () => {
		const spit = beforeDoor([{ type: 'fault.seen', fault: 'spit', gun: true }]);
		expect(foundIn(spit(cartDay()))).toContainEqual(expect.objectContaining({ property: 4 }));
	});

	test('two batches in the cup are both read from the tape', () => {
		const day = cartDay({ joined: true });
		const both = like('reading.taken', { value: 'A+B' });
		expect(foundIn(day)).toEqual([]);
		expect(foundIn(changed(day, both, { value: 'B' })).map(({ property }) => property)).toContain(1);
	});
});

test('an item passed over until it is closed after all marks only the faces between', () => {
	const item = like('item.answered', { item: 'extractor' });
	const off = changed(cartDay(), item, { answer: 'off', passed: false });
	const given = { rule: 'extractor', reason: 'fuse', face: null, coat: null };
	const over = putAfter(off, item, 'override.given', given);
	const on = { check: 1, list: 'before-spraying', item: 'extractor', answer: 'on', passed: true };
	const closed = putAfter(over, like('window.set', { face: lid }), 'item.answered', on);
	const marked = changed(closed, like('face.started'), { overrides: ['extractor'] });
	expect(foundIn(marked)).toEqual([]);
});

test('a day that carries on from the days before it', () => {
	const whole = cartDay();
	const yesterday = whole.slice(0, find(whole, like('fault.seen')));
	const endOf = (face: string) => String(yesterday[find(yesterday, like('face.ended', { face }))]?.at);
	const coats = (face: string) => [{ coat: 1, ended: endOf(face), cup: ['A'], surfaceC: 21 }];
	const history = (face: string) => ({ coats: coats(face), prep: [], aside: null });
	const [opened] = whole;
	const before = { faces: { [lid]: history(lid), [door]: history(door) }, letters: 1 };
	const today = shifted([{ ...opened, before }], () => true, 9 * 3600);
	expect(checkDayFile(seal(today), [seal(yesterday)])).toEqual([]);
});
