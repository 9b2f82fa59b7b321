import { describe, expect, test } from 'vitest';
import { planData } from '../../src/cli/plan-data.ts';
import { planText } from '../../src/cli/plan-text.ts';
import { lateOdds } from '../../src/film/odds.ts';
import type { Job } from '../../src/job/job.ts';
import { type DayPlan, planDay } from '../../src/plan/day-plan.ts';
import { planJob } from '../../src/plan/job-plan.ts';
import { orderFor } from '../../src/plan/order.ts';
import type { Step } from '../../src/plan/timeline.ts';
import { drawnOdds, seedOf, windowOdds } from '../../src/plan/window-odds.ts';
import { sketch, topcoat } from './jobs.ts';

/** Three coats on one face, wet on wet 45 minutes apart; each window closes so long after the coat before it. */
const jobClosing = (after_min: number): Job =>
	sketch({
		faces: [{ part: 'left door', name: 'outside', horns: ['level', 'level', 'level'], spray_s: 600 }],
		material: topcoat({
			flash: { min_min: 45, max_min: after_min, at_C: 21, touch: ['tacky'] },
			recoat: [],
		}),
	});
const planOf = (job: Job): DayPlan => planDay(job, orderFor(job, 0));

/** Two coats of one face with nothing waited for between them: some work, and a window that closes. */
function withoutWaits(closes_s: number): DayPlan {
	const lengths = [240, 60, 300, 45, 90, 120, 20, 60, 5, 200];
	const steps: Step[] = [{ does: 'spray', from_s: 0, to_s: 100, face: 'lid/top', coat: 1 }];
	let at = 100;
	for (const length of lengths) {
		steps.push({ does: 'check', from_s: at, to_s: at + length });
		at += length;
	}
	steps.push({ does: 'spray', from_s: at, to_s: at + 100, face: 'lid/top', coat: 2 });
	const common = { face: 'lid/top', part: 'lid', cup: ['A'] };
	const laid = [
		{ ...common, coat: 1, from_s: 0, to_s: 100, opens_s: null, closes_s: null },
		{ ...common, coat: 2, from_s: at, to_s: at + 100, opens_s: null, closes_s: 100 + closes_s },
	];
	return { ...planOf(jobClosing(60)), steps, laid, start_s: 0 };
}

describe('the chance that a window is missed', () => {
	test('started at 15 min, give or take 3, before a window that closes at 20 min: 4.8 % (by hand)', () => {
		expect(lateOdds(15 * 60, 20 * 60, 3 * 60)).toBeCloseTo(0.048, 3);
		expect(lateOdds(10, 20, 0)).toBe(0);
		expect(lateOdds(20.1, 20, 0)).toBe(1);
	});

	test('where nothing is waited for it is worked out, and drawn days agree within three standard errors', () => {
		for (const closes_s of [1200, 1500, 1800]) {
			const plan = withoutWaits(closes_s);
			const [odds] = windowOdds(plan, 1);
			const whole = 1140;
			const squares = [240, 60, 300, 45, 90, 120, 20, 60, 5, 200].reduce((sum, one) => sum + one ** 2, 0);
			expect(odds?.by).toBe('closed form');
			expect(odds?.missed).toBeCloseTo(lateOdds(whole, closes_s, 0.25 * Math.sqrt(whole ** 2 + squares)), 12);
			const share = odds?.missed ?? 0;
			const error = Math.sqrt((share * (1 - share)) / 4000);
			for (const seed of [1, 2, 3]) {
				const [drawn = -1] = drawnOdds(plan, seed);
				expect(Math.abs(drawn - share), `${closes_s}, ${seed}`).toBeLessThan(3 * error);
			}
		}
	});

	test('where a flash is waited out it is drawn, and falls as the window stays open longer', () => {
		const missed = [46, 50, 60, 120].map(after_min => {
			const odds = windowOdds(planOf(jobClosing(after_min)), 7);
			expect(odds).not.toEqual([]);
			expect(odds.every(({ by }) => by === 'drawn')).toBe(true);
			return Math.max(...odds.map(one => one.missed));
		});
		expect(missed).toEqual(missed.toSorted((one, other) => other - one));
		expect(missed.at(-1)).toBe(0);
	});

	test('the same sheet has the same odds, whenever it is planned', () => {
		const [one, other] = [jobClosing(50), jobClosing(50)];
		expect(seedOf(one)).toBe(seedOf(other));
		expect(windowOdds(planOf(one), seedOf(one))).toEqual(windowOdds(planOf(other), seedOf(other)));
		expect(seedOf(jobClosing(51))).not.toBe(seedOf(one));
	});

	test('`plan` says the one that is likeliest, and as data each of them', () => {
		const start = Date.parse('2027-03-02T08:00:00Z');
		const said = (job: Job) =>
			planText(planJob({ job, start }), { start, zone: 'UTC', units: 'metric', width: 80 }).join(' ');
		expect(said(jobClosing(120))).toMatch(
			/Window likeliest missed: left door outside, coat \d: less than 1 in 1000\./,
		);
		const job = jobClosing(50);
		const laid = planData(planJob({ job, start })).stages.flatMap(stage => stage.laid);
		expect(laid.map(({ windowMissed }) => windowMissed)).toEqual([
			null,
			...windowOdds(planOf(job), seedOf(job)).map(({ missed }) => missed),
		]);
		const open = sketch({ faces: [{ part: 'lid', name: 'top', horns: ['level'] }] });
		expect(said(open)).toContain('Windows: none closes.');
	});
});
