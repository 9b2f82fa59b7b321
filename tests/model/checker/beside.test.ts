import { describe, expect, test } from 'vitest';
import { cartDay } from './cart-day.ts';
import { door, lid } from './cart-sheet.ts';
import { changed, find, like, putAfter } from './draft.ts';
import type { Raw } from './lines.ts';
import { foundIn } from './mutilated.ts';

type Which = ReturnType<typeof like>;

const says17 = (day: Raw[]) => foundIn(day).flatMap(found => (found.property === 17 ? [found.says] : []));
/** The day with a record more in the write of another. */
const writtenWith = (which: Which, type: string, fields: Raw, nth = 0, day = cartDay()) =>
	putAfter(changed(day, which, { more: true }, nth), which, type, fields, nth);

describe('property 17: the step that ends a line of its own is told of the face that was in it', () => {
	const respray = (face: string) => ({ face, step: 'respray' });

	test('of a sound face it is not, nor of one whose fault is yet to come', () => {
		const laid = like('window.set', { face: lid, coat: 2 });
		expect(says17(putAfter(cartDay(), laid, 'rework.done', respray(lid)))).toEqual([
			`${lid}: respray on a face that has no fault`,
		]);
		const first = like('window.set', { face: door, coat: 1 });
		expect(says17(putAfter(cartDay(), first, 'rework.done', respray(door)))).toEqual([
			`${door}: respray on a face that has no fault`,
		]);
	});

	test('of the face with the run it is, once', () => {
		const again = like('window.set', { face: door, coat: 1 });
		const told = putAfter(cartDay(), again, 'rework.done', respray(door), 1);
		expect(foundIn(told)).toEqual([]);
		const twice = putAfter(told, like('rework.done', { step: 'respray' }), 'rework.done', respray(door));
		expect(says17(twice)).toEqual([`${door}: respray on a face that has no fault`]);
	});
});

describe('property 17: windows are set by the own coat, by the air or as the day opens', () => {
	const [first] = cartDay().filter(like('window.set', { face: lid }));
	const own = (coat: number) => ({ face: lid, coat, surfaceC: 21, windows: first?.windows });
	const elsewhere = [`the windows of ${lid} are set by what is done elsewhere`];

	test('not by the end of the line of another face, nor by its coat, nor by themselves', () => {
		const clean = like('rework.done', { step: 'clean' });
		const ended = like('window.set', { face: door, coat: 2 });
		expect(says17(writtenWith(clean, 'window.set', own(2)))).toEqual(elsewhere);
		expect(says17(writtenWith(ended, 'window.set', own(2)))).toEqual(elsewhere);
		expect(says17(putAfter(cartDay(), clean, 'window.set', own(2)))).toEqual(elsewhere);
	});

	test('not for a coat that is not whole, nor for another than the one laid', () => {
		const ended = like('face.ended', { face: lid, coat: 1 });
		expect(says17(changed(cartDay(), ended, { extent: 'part' }))).toEqual(elsewhere);
		expect(says17(changed(cartDay(), like('window.set', { face: lid }), { coat: 2 }))).toEqual(elsewhere);
	});

	test('by a reading of the air, for the coat that lies there', () => {
		const read = like('air.read');
		expect(says17(writtenWith(read, 'window.set', own(2), 1))).toEqual([]);
		expect(says17(writtenWith(read, 'window.set', own(1), 1))).toEqual(elsewhere);
	});

	test('as the day opens, for a coat of an earlier day, before anything is keyed', () => {
		const coats = [{ coat: 1, ended: '2027-03-01T09:00:00.000Z', surfaceC: 21 }];
		const [opened, ...rest] = cartDay().slice(0, find(cartDay(), like('stage.done')) + 1);
		const before = { faces: { [lid]: { coats, prep: [], aside: null } }, letters: 0 };
		const day = [{ ...opened, before }, ...rest];
		const set = (after: Which, coat = 1) => says17(putAfter(day, after, 'window.set', own(coat)));
		expect(set(like('day.opened'))).toEqual([]);
		expect(set(like('day.opened'), 2)).toEqual(elsewhere);
		expect(set(like('stage.done'))).toEqual(elsewhere);
	});
});
