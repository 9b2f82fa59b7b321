import { describe, expect, test } from 'vitest';
import type { Horns } from '../../src/job/job.ts';
import { planDay } from '../../src/plan/day-plan.ts';
import { gunFor, passesOf } from '../../src/plan/gun.ts';
import { orderFor } from '../../src/plan/order.ts';
import { type Progress, replan } from '../../src/plan/replan.ts';
import { sketch } from './jobs.ts';

const kinds = (kind: Horns): Horns[] => [kind, kind];
const job = sketch({
	faces: ['left door', 'right door', 'corner box'].flatMap(part => [
		{ part, name: 'edges', horns: kinds('upright') },
		{ part, name: 'outside', horns: kinds('level'), after: [`${part}/edges`] },
	]),
	hours: 540,
});
const old = planDay(job, orderFor(job, 0));

/** The day as planned up to `count` passes, and then nothing for `late` seconds. */
function sofar(count: number, late_s: number, over: Partial<Progress> = {}): Progress {
	const done = old.laid.slice(0, count);
	const last = done.at(-1);
	const pass = passesOf(job, 0)
		.flatMap(coat => coat.passes)
		.find(each => each.face.id === last?.face && each.count === last.coat);
	return {
		on: Object.fromEntries(done.map(each => [each.face, each.coat])),
		ends: Object.fromEntries(done.map(each => [each.face, each.to_s])),
		aside: [],
		at_s: (last?.to_s ?? 0) + late_s,
		gun: pass ? gunFor(pass) : null,
		cup: { letter: 'A', left_mL: 400, dies_s: old.batches[0]?.dies_s ?? 0 },
		pots: [],
		letters: 1,
		...over,
	};
}

describe('after a break the rest of the day is planned again', () => {
	test('what is done is not done again, and the order in force is kept', () => {
		const { plan } = replan(job, old, sofar(4, 600));
		expect(plan.laid.map(each => `${each.face} ${each.coat}`)).toEqual(
			old.laid.slice(4).map(each => `${each.face} ${each.coat}`),
		);
		expect(plan.missed).toEqual([]);
		expect(plan.steps[0]?.from_s).toBeCloseTo((old.laid[3]?.to_s ?? 0) + 600, 6);
		expect(plan.batches[0]?.letter).toBe('A');
		const dumped = replan(job, old, sofar(4, 600, { cup: null }));
		expect(dumped.plan.batches[0]?.letter).toBe('B');
		expect(dumped.changed).toMatch(/more pot/);
		const dead = sofar(4, 600, { cup: { letter: 'A', left_mL: 400, dies_s: 0 } });
		expect(replan(job, old, dead).plan.batches[0]?.letter).toBe('B');
	});
	test('one sentence says how much is lost', () => {
		const { changed } = replan(job, old, sofar(6, 3600));
		expect(changed).toMatch(/^(1 more pot to mix; )?\d+ min lost\.$/);
	});
	test('what is lost is said from a minute on', () => {
		const said = Array.from({ length: 40 }, (_, step) =>
			replan(job, old, sofar(old.laid.length - 1, step * 5)),
		);
		const first = said.map(({ changed }) => changed).find(changed => / lost/.test(changed));
		expect(said[0]?.changed).toBe('Nothing changed.');
		expect(first).toMatch(/^(60 s|1 min) lost/);
	});
	test('a break inside the flash changes nothing', () => {
		const { changed } = replan(job, old, sofar(6, 60));
		expect(changed).toBe('Nothing changed.');
	});
	test('a part set aside is left out, and said', () => {
		const aside = ['corner box/edges', 'corner box/outside'];
		const { plan, changed } = replan(job, old, sofar(6, 60, { aside }));
		expect(plan.laid.some(each => aside.includes(each.face))).toBe(false);
		expect(changed).toMatch(/^Corner box edges, corner box outside left out/);
	});
	test('where the gun now stands otherwise, an order that turns it less is taken, and said', () => {
		const free = sketch({
			faces: [
				{ part: 'left door', name: 'front', horns: ['level'] },
				{ part: 'right door', name: 'front', horns: ['upright'] },
				{ part: 'corner box', name: 'front', horns: ['level'] },
				{ part: 'canopy rail', name: 'front', horns: ['upright'] },
			],
		});
		const first = planDay(free, orderFor(free, 0));
		const gun = { material: 'topcoat', horns: 'upright' as const, fanHeight_mm: 250 };
		const { plan, changed } = replan(free, first, sofar(0, 900, { gun, letters: 0 }));
		expect(plan.order.turns).toBe(1);
		expect(plan.laid[0]?.face).toBe('right door/front');
		expect(changed).toMatch(/^The order changed, right door front comes next/);
	});
	test('a window lost to the break is said first, with by how much', () => {
		const narrow = {
			...job,
			materials: {
				topcoat: {
					...job.materials.topcoat,
					flash: { min_min: 45, max_min: 60, at_C: 21, touch: ['tacky' as const] },
					recoat: [],
				},
			},
		} as typeof job;
		const { changed } = replan(narrow, old, sofar(6, 2 * 3600));
		expect(changed).toMatch(/, coat 2: too late for its window, by \d+ min\.$/);
	});
});
