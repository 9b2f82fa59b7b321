import { describe, expect, test } from 'vitest';
import { cartDay } from './cart-day.ts';
import { door, lid } from './cart-sheet.ts';
import { like, putAfter } from './draft.ts';
import type { Raw } from './lines.ts';
import { foundIn } from './mutilated.ts';

const says17 = (day: Raw[]) => foundIn(day).flatMap(found => (found.property === 17 ? [found.says] : []));
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
