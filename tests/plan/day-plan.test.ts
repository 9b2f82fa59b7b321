import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Horns, Job } from '../../src/job/job.ts';
import { lifeOf_s } from '../../src/plan/batches.ts';
import { type DayPlan, planDay } from '../../src/plan/day-plan.ts';
import { orderFor } from '../../src/plan/order.ts';
import { openings } from '../../src/plan/windows.ts';
import { jobs, sketch, topcoat } from './jobs.ts';

const parts = ['counter lid', 'left door', 'right door', 'wheel-arch cover', 'corner box', 'canopy rail'];
const horns = (kind: Horns, coats: number): Horns[] => Array.from({ length: coats }, () => kind);

/** Six parts, edges before the flat, three coats. */
const cart = (over: Partial<Parameters<typeof sketch>[0]> = {}) =>
	sketch({
		faces: parts.flatMap(part => [
			{ part, name: 'edges', horns: horns('upright', 3), volume_mL: 15, spray_s: 25 },
			{
				...{ part, name: 'outside', horns: horns('level', 3), volume_mL: 45, spray_s: 60 },
				after: [`${part}/edges`],
			},
		]),
		hours: 540,
		...over,
	});

const planOf = (job: Job, which: 'fewest-turns' | 'wettest-edge' = 'fewest-turns') =>
	planDay(job, orderFor(job, 0, which));

const startsOf = (plan: DayPlan, coat: number) =>
	plan.laid.filter(each => each.coat === coat).map(each => each.from_s);

describe('common practice, no source', () => {
	test('three coats 45 minutes apart over six parts fit one afternoon, with no idle longer than the flash', () => {
		for (const which of ['fewest-turns', 'wettest-edge'] as const) {
			const plan = planOf(cart({ hours: 300 }), which);
			expect(plan.missed).toEqual([]);
			expect(plan.nights).toBe(0);
			expect(plan.minutes).toBeLessThan(300);
			expect(plan.longestIdle_s).toBeLessThanOrEqual(45 * 60);
		}
	});
	test('no coat goes on before the 45 minutes of its own face are over', () => {
		const plan = planOf(cart());
		for (const now of plan.laid.filter(each => each.coat > 1)) {
			const before = plan.laid.find(each => each.face === now.face && each.coat === now.coat - 1);
			expect(now.from_s - (before?.to_s ?? 0)).toBeGreaterThanOrEqual(45 * 60);
		}
	});
});

/** Hours, polyurethane over polyurethane: UFGS 09971 ¶3.7.1.4, by the highest surface temperature in °F. */
const published = [
	[60, 70, 8, 48],
	[71, 80, 6, 48],
	[81, 90, 4, 36],
	[91, 100, 3, 24],
] as const;
const celsius = (fahrenheit: number) => ((fahrenheit - 32) * 5) / 9;

const byTable = (fahrenheit: number, hours: number | null) =>
	cart({
		hours,
		air_C: celsius(fahrenheit),
		material: topcoat({
			recoat: [
				{
					under: 'topcoat',
					rows: published.map(([from, to, opens, closes]) => ({
						from_C: celsius(from),
						to_C: celsius(to),
						windows: [
							{ does: 'wait' as const, from_h: 0, until_h: opens },
							{ does: 'spray' as const, from_h: opens, until_h: closes },
							{ does: 'sand' as const, from_h: closes, until_h: null },
						],
					})),
				},
			],
		}),
	});

describe('UFGS 09971 ¶3.7.1.4 drives a three-coat plan', () => {
	for (const [fahrenheit, opens, closes] of [
		[65, 8, 48],
		[75, 6, 48],
		[85, 4, 36],
		[95, 3, 24],
	] as const)
		test(`at ${fahrenheit} °F coats follow ${opens} h to ${closes} h after one another`, () => {
			for (const hours of [null, 540]) {
				const plan = planOf(byTable(fahrenheit, hours));
				expect(plan.missed).toEqual([]);
				for (const now of plan.laid.filter(each => each.coat > 1)) {
					const before = plan.laid.find(each => each.face === now.face && each.coat === now.coat - 1);
					const ended = before?.to_s ?? 0;
					expect((now.opens_s ?? 0) - ended).toBeCloseTo(opens * 3600, 3);
					expect((now.closes_s ?? 0) - ended).toBeCloseTo(closes * 3600, 3);
					expect(now.from_s).toBeGreaterThanOrEqual(now.opens_s ?? 0);
				}
			}
		});
	test('a day of nine hours is too short for three coats at 65 and 75 °F: they are spread over days', () => {
		const nights = [65, 75, 85, 95].map(fahrenheit => planOf(byTable(fahrenheit, 540)).nights);
		expect(nights).toEqual([1, 1, 0, 0]);
	});
	test('the first face of a later coat starts the moment its window opens, where the shop is open', () => {
		const plan = planOf(byTable(95, null));
		for (const coat of [2, 3]) {
			const first = plan.laid.find(each => each.coat === coat);
			expect(first?.from_s).toBeCloseTo(first?.opens_s ?? 0, 3);
		}
	});
});

describe('on random sheets', () => {
	const sheets = fc
		.tuple(
			jobs({ faces: [3, 14], coats: 3, fans: [250, 150] }),
			fc.record({
				volume: fc.integer({ min: 10, max: 180 }),
				spray: fc.integer({ min: 10, max: 200 }),
				life: fc.double({ min: 0.5, max: 3, noNaN: true }),
				flash: fc.integer({ min: 10, max: 60 }),
				hours: fc.constantFrom(null, 480, 600),
				standing: fc.constantFrom(0, 10),
			}),
		)
		.map(([job, of]): Job => {
			const material = topcoat({
				potLife: { at_C: 21, hours: of.life },
				standing_min: of.standing,
				flash: { min_min: of.flash, max_min: null, at_C: 21, touch: ['tacky'] },
				recoat: [],
			});
			return {
				...job,
				shop: { ...job.shop, hours: of.hours },
				materials: { topcoat: material },
				faces: job.faces.map((face, at) => ({
					...face,
					coats: face.coats.map(coat => ({
						...coat,
						volume_mL: 5 + ((of.volume * (at + 3)) % 170),
						spray_s: 5 + ((of.spray * (at + 2)) % 200),
					})),
				})),
			};
		});
	test('a plan that says it can be kept breaks no after, window, pot life or cup', () => {
		let kept = 0;
		fc.assert(
			fc.property(sheets, fc.constantFrom('fewest-turns' as const, 'wettest-edge' as const), (job, which) => {
				const plan = planOf(job, which);
				expect(plan.laid.length).toBe(job.faces.length * 3);
				if (plan.missed.length > 0) return;
				kept += 1;
				keeps(job, plan);
			}),
			{ numRuns: 150 },
		);
		expect(kept).toBeGreaterThan(100);
	});
});

function keeps(job: Job, plan: DayPlan): void {
	const ended = new Map<string, number>();
	let at = plan.start_s;
	for (const step of plan.steps) {
		expect(step.from_s).toBeCloseTo(at, 3);
		at = step.to_s;
	}
	for (const now of plan.laid) {
		const face = job.faces.find(each => each.id === now.face);
		const coat = face?.coats[now.coat - 1];
		if (!face || !coat) throw new Error(`no ${now.face}`);
		for (const before of face.after)
			expect(
				plan.laid.find(each => each.face === before && each.coat === now.coat)?.to_s,
			).toBeLessThanOrEqual(now.from_s);
		const since = ended.get(now.face);
		if (since !== undefined) {
			const hours = (now.from_s - since) / 3600 + 1e-6;
			const open = openings(job, face, now.coat - 1, job.shop.air_C);
			expect(
				open.some(({ from_h, until_h }) => hours >= from_h && (until_h === null || hours <= until_h)),
			).toBe(true);
		}
		ended.set(now.face, now.to_s);
		const mixed = plan.batches.filter(({ letter }) => now.cup.includes(letter));
		expect(mixed.length).toBeGreaterThan(0);
		for (const { mix_s } of mixed) {
			expect(mix_s).toBeLessThan(now.from_s);
			expect(now.to_s - mix_s).toBeLessThanOrEqual(lifeOf_s(job, 'topcoat'));
		}
	}
	const takes_mL = job.faces.flatMap(({ coats }) => coats.map(({ volume_mL }) => volume_mL));
	const sum_mL = (all: readonly number[]) => all.reduce((sum, each) => sum + each, 0);
	expect(sum_mL(plan.batches.map(({ volume_mL }) => volume_mL))).toBeGreaterThan(sum_mL(takes_mL));
	for (const batch of plan.batches) expect(batch.serves.length).toBeGreaterThan(0);
	expect(new Set(plan.batches.map(batch => batch.letter)).size).toBe(plan.batches.length);
	expect(startsOf(plan, 1).every((start, index, all) => index === 0 || start > (all[index - 1] ?? 0))).toBe(
		true,
	);
}
