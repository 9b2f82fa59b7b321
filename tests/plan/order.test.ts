import { describe, expect, test } from 'vitest';
import type { Horns } from '../../src/job/job.ts';
import { orderFor, planOrders } from '../../src/plan/order.ts';
import { stretches } from '../../src/plan/stretches.ts';
import { type FaceSketch, sketch } from './jobs.ts';

const twice = (kind: Horns): Horns[] => [kind, kind];

/** Doors with edges up and down before an outside side to side. */
const doors = (...parts: string[]): FaceSketch[] =>
	parts.flatMap(part => [
		{ part, name: 'outside', horns: twice('level'), after: [`${part}/edges`] },
		{ part, name: 'edges', horns: twice('upright') },
	]);

describe('fewest turns', () => {
	test('takes all edges, then all outsides: one turn a coat, and one between coats', () => {
		const order = orderFor(sketch({ faces: doors('left door', 'right door') }), 0, 'fewest-turns');
		expect(order).toMatchObject({ turns: 3, exact: true });
		expect(order.coats[0]?.faces).toEqual([
			'left door/edges',
			'right door/edges',
			'left door/outside',
			'right door/outside',
		]);
		expect(order.coats[1]?.faces).toEqual(order.coats[0]?.faces);
	});
	test('a coat begins in the state that the one before ended in, where after lets it', () => {
		const faces = doors('left door').map(face => ({ ...face, after: [] }));
		const order = orderFor(sketch({ faces }), 0, 'fewest-turns');
		expect(order.turns).toBe(2);
		expect(order.coats[0]?.faces.at(-1)).toBe(order.coats[1]?.faces[0]);
	});
	test('starts at the part farthest from the extractor, and takes the parts in that order', () => {
		const places = { 'left door': 1, 'right door': 3, 'corner box': 2 };
		const job = sketch({ faces: doors('left door', 'right door', 'corner box'), places });
		const { coats, gaveWay } = orderFor(job, 0, 'fewest-turns');
		for (const { faces } of coats)
			expect(faces.map(face => face.split('/')[0])).toEqual([
				...['right door', 'corner box', 'left door'],
				...['right door', 'corner box', 'left door'],
			]);
		expect(gaveWay).toEqual([]);
	});
	test('turns win over the start and over the same part order, and it says so', () => {
		const faces: FaceSketch[] = [
			{ part: 'left door', name: 'edges', horns: ['level', 'level'] },
			{ part: 'right door', name: 'edges', horns: ['upright', 'upright'] },
			{ part: 'canopy rail', name: 'front', horns: ['level', 'level'], after: ['corner box/sides'] },
			{ part: 'corner box', name: 'sides', horns: ['upright', 'upright'] },
		];
		const { turns, gaveWay } = orderFor(sketch({ faces, places: { 'canopy rail': 4 } }), 0, 'fewest-turns');
		expect(turns).toBe(3);
		expect(gaveWay).toContain('start');
		const free = faces.map(face => ({ ...face, after: [] }));
		expect(orderFor(sketch({ faces: free }), 0, 'fewest-turns').gaveWay).toEqual(['part-order']);
	});
});

describe('wettest edge', () => {
	test('finishes each part before the next, in one order in every coat', () => {
		const job = sketch({ faces: doors('left door', 'right door', 'corner box') });
		const [fewest, wettest] = planOrders(job, 0);
		expect(wettest?.coats.map(({ faces }) => faces.map(face => face.split('/')[0]))).toEqual([
			['left door', 'left door', 'right door', 'right door', 'corner box', 'corner box'],
			['left door', 'left door', 'right door', 'right door', 'corner box', 'corner box'],
		]);
		expect(wettest?.turns).toBe(11);
		expect(fewest?.turns).toBe(3);
	});
	test('parts that wait for each other are sprayed together', () => {
		const faces: FaceSketch[] = [
			{ part: 'left door', name: 'edges', horns: ['level'] },
			{ part: 'left door', name: 'outside', horns: ['level'], after: ['right door/edges'] },
			{ part: 'right door', name: 'edges', horns: ['upright'], after: ['left door/edges'] },
			{ part: 'canopy rail', name: 'front', horns: ['level'] },
		];
		const [coat] = orderFor(sketch({ faces }), 0, 'wettest-edge').coats;
		const doorsOnly = coat?.faces.filter(face => !face.startsWith('canopy'));
		expect(doorsOnly).toEqual(['left door/edges', 'right door/edges', 'left door/outside']);
		expect([0, 3]).toContain(coat?.faces.indexOf('canopy rail/front'));
	});
});

test('as written follows the sheet, changed only as far as after asks', () => {
	const order = orderFor(sketch({ faces: doors('left door', 'right door') }), 0, 'sheet');
	expect(order.coats[0]?.faces).toEqual([
		'left door/edges',
		'left door/outside',
		'right door/edges',
		'right door/outside',
	]);
});

test('two hundred faces are ordered, both ways, by a proof or with a bound', () => {
	const parts = Array.from({ length: 100 }, (_, at) => `part ${at}`);
	const faces = doors(...parts).map((face, at) => ({ ...face, fanHeight_mm: at % 3 === 0 ? 250 : 150 }));
	for (const order of planOrders(sketch({ faces }), 0)) {
		expect(order.coats.map(coat => new Set(coat.faces).size)).toEqual([200, 200]);
		expect(order.atLeast).toBeLessThanOrEqual(order.turns);
		expect(order.exact).toBe(order.atLeast === order.turns);
	}
});

test('stretches hold faces with nothing on the gun to touch between, four minutes at most', () => {
	const job = sketch({ faces: doors('left door', 'right door').map(face => ({ ...face, spray_s: 100 })) });
	const { faces } = orderFor(job, 0).coats[0] ?? { faces: [] };
	expect(stretches(faces, job, () => 1)).toEqual([
		['left door/edges', 'right door/edges'],
		['left door/outside', 'right door/outside'],
	]);
	expect(stretches(faces, job, () => 1, 150).length).toBe(4);
});
