import fc from 'fast-check';
import { expect, test } from 'vitest';
import { inspectionOrder, type Look, narrowed, type Spot } from '../../src/trace/order.ts';

const row = (count: number): Spot[] =>
	Array.from({ length: count }, (_, at) => ({ face: `lid/${at}`, coat: 1 }));
const spot = (at: number): Spot => ({ face: `lid/${at}`, coat: 1 });
const shape = fc.record({
	count: fc.integer({ min: 1, max: 60 }),
	place: fc.nat(),
	first: fc.nat(),
	last: fc.nat(),
});

test('every exposed face but the bad one is looked at once', () => {
	fc.assert(
		fc.property(shape, fc.boolean(), ({ count, place }, stays) => {
			const bad = spot(place % count);
			const order = inspectionOrder(row(count), bad, stays);
			expect(new Set(order.map(({ face }) => face)).size).toBe(count - 1);
			expect(order).not.toContainEqual(bad);
		}),
	);
});

test('a fault that comes and goes is looked for nearest first', () => {
	expect(inspectionOrder(row(5), spot(2), false)).toEqual([spot(1), spot(3), spot(0), spot(4)]);
});

test('a fault that stays in is looked for by halving', () => {
	expect(inspectionOrder(row(9), spot(8), true)[0]).toEqual(spot(3));
});

test('answers narrow the list to exactly the faces that got it, in no more looks than halving needs', () => {
	fc.assert(
		fc.property(shape, ({ count, place, first, last }) => {
			const at = place % count;
			const from = first % (at + 1);
			const to = at + (last % (count - at));
			const looks: Look[] = [];
			let left = narrowed(row(count), spot(at), true, looks);
			while (left.inspect[0]) {
				const next = left.inspect[0];
				const where = Number(next.face.slice(4));
				looks.push({ ...next, bad: where >= from && where <= to });
				left = narrowed(row(count), spot(at), true, looks);
			}
			expect(left.exposed).toEqual(row(count).slice(from, to + 1));
			expect(looks.length).toBeLessThanOrEqual(2 * Math.ceil(Math.log2(count + 1)));
		}),
	);
});

test('a good answer drops that face at once, and only that one, where the fault comes and goes', () => {
	const left = narrowed(row(5), spot(2), false, [{ ...spot(1), bad: false }]);
	expect(left.exposed).toEqual([spot(0), spot(2), spot(3), spot(4)]);
	expect(left.inspect).toEqual([spot(3), spot(0), spot(4)]);
});
