import { expect, test } from 'vitest';
import type { Horns, Job } from '../../src/job/job.ts';
import { planDay } from '../../src/plan/day-plan.ts';
import { judgeStage } from '../../src/plan/judge.ts';
import { orderFor } from '../../src/plan/order.ts';
import { sketch, topcoat } from './jobs.ts';

const both: Horns[] = ['level', 'level'];

/** Parts of one face, a window that closes soon after it opens. */
const tight = (parts: number, over: Partial<Parameters<typeof sketch>[0]> = {}, closes_h = 1) =>
	sketch({
		faces: Array.from({ length: parts }, (_, at) => ({
			...{ part: `panel ${at + 1}`, name: 'front', horns: both },
			...{ spray_s: 240, volume_mL: 60 },
		})),
		material: topcoat({
			flash: { min_min: 20, max_min: closes_h * 60, at_C: 21, touch: ['tacky'] },
			recoat: [],
		}),
		cup_mL: 2000,
		...over,
	});

const again = (job: Job, hours: number): boolean =>
	planDay({ ...job, shop: { ...job.shop, hours } }, orderFor(job, 0)).missed.length === 0;

test('a plan that can be kept has no reasons', () => {
	expect(judgeStage(tight(4), 0)).toMatchObject({ feasible: true, reasons: [], mend: null });
});

test('a window that closes before its face comes round is named, with by how much', () => {
	const { feasible, reasons, plan } = judgeStage(tight(4, { hours: 60 }, 2), 0);
	expect(feasible).toBe(false);
	expect(reasons[0]).toMatch(
		/^panel \d front, coat 2: the window closes .+ before the face can be begun, with a night/,
	);
	const missed = plan.missed.find(each => each.why === 'window');
	const laid = plan.laid.find(each => each.face === missed?.face && each.coat === 2);
	expect(missed?.by_s).toBeCloseTo((laid?.from_s ?? 0) - (laid?.closes_s ?? 0), 6);
});

test('the smallest longer day that mends it is named, in steps of five minutes', () => {
	const job = tight(4, { hours: 60 }, 2);
	const { mend, reasons } = judgeStage(job, 0);
	if (mend?.change !== 'day') throw new Error('no longer day was found');
	expect(reasons.at(-1)).toMatch(/^the smallest change that mends it: a day .+ longer$/);
	expect(again(job, 60 + mend.longer_min)).toBe(true);
	expect(again(job, 60 + mend.longer_min - 5)).toBe(false);
});

test('where too many parts share a short window, a cooler shop or parts left out mend it', () => {
	const job = tight(14);
	const { feasible, mend } = judgeStage(job, 0);
	expect(feasible).toBe(false);
	expect(['air', 'leave-out']).toContain(mend?.change);
	const fixed = tight(20, { air_C: 20 });
	const { mend: other } = judgeStage(
		{
			...fixed,
			materials: {
				topcoat: topcoat({
					...fixed.materials.topcoat,
					limits: { air_C: [20, 35], humidity_max: 0.8, margin_C: 3 },
				}),
			},
		},
		0,
	);
	if (other?.change !== 'leave-out') throw new Error('no parts were left out');
	const rest = { ...fixed, faces: fixed.faces.filter(face => !other.parts.includes(face.part)) };
	expect(judgeStage(rest, 0).feasible).toBe(true);
});

test('the other order is the first change tried', () => {
	const faces = ['left door', 'right door', 'corner box', 'counter lid'].flatMap(part => [
		{ part, name: 'edges', horns: ['upright', 'upright', 'upright'] as Horns[], spray_s: 240 },
		{ part, name: 'front', horns: ['level', 'level', 'level'] as Horns[], spray_s: 240 },
	]);
	const material = topcoat({ flash: { min_min: 20, max_min: 42, at_C: 21, touch: ['tacky'] }, recoat: [] });
	const { feasible, mend } = judgeStage(sketch({ faces, material, cup_mL: 2000 }), 0, 'fewest-turns');
	expect(feasible).toBe(false);
	expect(mend).toEqual({ change: 'order', to: 'wettest-edge' });
});

test('a face that wants more paint than the cup holds, or dies before it is done, cannot be planned', () => {
	const big = sketch({ faces: [{ part: 'canopy rail', name: 'front', horns: ['level'], volume_mL: 700 }] });
	expect(judgeStage(big, 0).reasons[0]).toBe(
		'canopy rail front, coat 1: wants 100 mL more than the cup holds; split the face',
	);
	const slow = sketch({
		faces: [{ part: 'canopy rail', name: 'front', horns: ['level'], spray_s: 3600 }],
		material: topcoat({ potLife: { at_C: 21, hours: 0.5 } }),
	});
	expect(judgeStage(slow, 0).reasons[0]).toMatch(/a fresh batch dies .+ before the face is done/);
});

test('a coat that no window ever opens for is said to want sanding', () => {
	const closed = topcoat({
		recoat: [
			{
				under: 'topcoat',
				rows: [{ from_C: 0, to_C: 40, windows: [{ does: 'sand', from_h: 0, until_h: null }] }],
			},
		],
	});
	const job = sketch({ faces: [{ part: 'canopy rail', name: 'front', horns: both }], material: closed });
	expect(judgeStage(job, 0).reasons[0]).toMatch(/no window ever opens for it; sand or scuff/);
});
