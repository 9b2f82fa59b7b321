import { describe, expect, test } from 'vitest';
import type { Job, Material } from '../../src/job/job.ts';
import { planDay } from '../../src/plan/day-plan.ts';
import { orderFor } from '../../src/plan/order.ts';
import { trace } from '../../src/trace/trace.ts';
import { builtIn } from '../trace/built-in.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** Days with a product of four parts, 8:2:2:1 with accelerator, and of five, with flattener. Every level is arithmetic. */

function mixedAs(ratio: Material['ratio'], order: Material['order']): Job {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has a topcoat');
	const coats = { full: { dry_um: 40, reducer_parts: 2 } };
	return { ...job, materials: { topcoat: { ...topcoat, ratio, reducer_parts: 2, coats, order } } };
}
const four = () =>
	mixedAs({ by: 'volume', base: 8, hardener: 2, accelerator: 1 }, [
		...(['stir', 'base', 'hardener', 'accelerator', 'reducer', 'stir', 'strain', 'cup'] as const),
	]);
const five = () =>
	mixedAs({ by: 'volume', base: 8, hardener: 2, accelerator: 1, flattener: 4 }, [
		...([
			'stir',
			'base',
			'flattener',
			'hardener',
			'reducer',
			'accelerator',
			'stir',
			'strain',
			'cup',
		] as const),
	]);

type Day = ReturnType<typeof rehearsed>;
const makes = (day: Day, amount: number) => {
	day.toState('mix.begin');
	day.pick('amount');
	day.send(`number ${amount}`);
};
const markOf = (day: Day, component: string) =>
	day.ofType('day.opened')[0]?.cans.find(can => can.component === component)?.mark ?? '';
const toCan = (day: Day, component: string) =>
	day.until(({ ask, say }) => ask === 'can' && say.toLowerCase().startsWith(component));
const poured = (day: Day) =>
	day.ofType('batch.poured').map(({ component, level_mL, found }) => [component, level_mL, found]);

describe('8:2:2:1 with accelerator', () => {
	test('each can has a mark of its own, and the pot shows 400, 500, 550 and 650 mL in the order of the sheet', () => {
		const day = rehearsed({ job: four() });
		expect(day.toState('mix.begin').lines.join(' ')).toContain(`accelerator ${markOf(day, 'accelerator')}`);
		makes(day, 650);
		day.toState('mix.strain');
		expect(poured(day)).toEqual([
			['base', 400, 'right'],
			['hardener', 500, 'right'],
			['accelerator', 550, 'right'],
			['reducer', 650, 'right'],
		]);
		const cans = day.ofType('batch.poured').map(({ can }) => can);
		expect(new Set(cans).size).toBe(4);
		expect(day.ofType('batch.started')[0]?.ratio).toEqual({
			base: 8,
			hardener: 2,
			reducer: 2,
			accelerator: 1,
		});
		day.toEnd();
		expect(day.ofType('batch.ready')[0]?.volume_mL).toBe(650);
		expect(day.findings()).toEqual([]);
	});

	test("the accelerator's can in the hand where the hardener is due stops the mixing", () => {
		const day = rehearsed({ job: four() });
		toCan(day, 'hardener');
		day.pick(markOf(day, 'accelerator'));
		expect(day.line()).toMatchObject({ state: 'mix.wrong-can' });
		day.pick('done');
		day.toEnd();
		expect(day.findings()).toEqual([]);
	});

	test('too much accelerator: base and hardener are topped up for the larger batch before the reducer', () => {
		const day = rehearsed({ job: four() });
		makes(day, 390);
		day.toState('mix.level.accelerator');
		day.send('number 340');
		day.pick('holds');
		day.toState('mix.strain');
		expect(poured(day).map(([component]) => component)).toEqual([
			...['base', 'hardener', 'accelerator'],
			...['base', 'hardener', 'reducer'],
		]);
		expect(poured(day).slice(3)).toEqual([
			['base', 420, 'right'],
			['hardener', 440, 'right'],
			['reducer', 520, 'right'],
		]);
		day.toEnd();
		expect(day.findings()).toEqual([]);
	});

	test('the plan mixes it by the same parts, and no amount whose accelerator the marks cannot give', () => {
		const job = four();
		const { batches } = planDay(job, orderFor(job, 0));
		expect(batches.length).toBeGreaterThan(0);
		for (const { volume_mL, base_mL } of batches) expect(base_mL / volume_mL).toBeCloseTo(8 / 13, 9);
		const day = rehearsed({ job });
		makes(day, 60);
		expect(day.line().lines.join(' ') + day.line().say).toMatch(/marks/);
	});

	test('an accelerator that was poured short and sprayed is traced as a wrong ratio; one from another can as a wrong can', () => {
		const day = rehearsed({ job: four() });
		day.toEnd();
		const changed = (more: { level_mL?: number; can?: string }) =>
			day
				.records()
				.map(record =>
					record.type === 'batch.poured' && record.component === 'accelerator'
						? { ...record, ...more }
						: record,
				);
		const reasons = (code: string, records: ReturnType<typeof changed>) =>
			trace({ days: [records], fault: 'stays-soft', face: 'left door/edges', coat: 1 }, builtIn)
				.candidates.find(one => one.code === code)
				?.reasons.join() ?? '';
		const level = day.ofType('batch.poured').find(({ component }) => component === 'hardener')?.level_mL ?? 0;
		expect(reasons('wrong-ratio', changed({ level_mL: level + 5 }))).toMatch(
			/accelerator was read as right, at/,
		);
		expect(reasons('wrong-can', changed({ can: 'knot' }))).toMatch(
			/accelerator came from the can marked knot/,
		);
		expect(reasons('wrong-ratio', changed({}))).not.toMatch(/accelerator (was|came)/);
	});
});

describe('five parts', () => {
	test('levels go up one by one, the flattener into the base', () => {
		const day = rehearsed({ job: five() });
		makes(day, 510);
		day.toState('mix.strain');
		expect(poured(day)).toEqual([
			['base', 240, 'right'],
			['flattener', 360, 'right'],
			['hardener', 420, 'right'],
			['reducer', 480, 'right'],
			['accelerator', 510, 'right'],
		]);
		day.toEnd();
		expect(day.findings()).toEqual([]);
	});

	test('four of the five cans are asked after, the right one always, and no other tells it by being left out', () => {
		const left = new Set<string>();
		for (let seed = 0; seed < 4; seed++) {
			const day = rehearsed({ job: five(), seed });
			const line = toCan(day, 'hardener');
			const shown = Object.values(line.corners).map(({ code }) => code);
			expect(shown).toHaveLength(4);
			expect(shown).toContain(markOf(day, 'hardener'));
			for (const { mark } of day.ofType('day.opened')[0]?.cans ?? [])
				if (!shown.includes(mark)) left.add(mark);
		}
		expect(left.size).toBe(4);
	});
});

test('the marks of a job without such parts are those they always were', () => {
	const [opened] = rehearsed().ofType('day.opened');
	expect(opened?.cans.map(({ mark }) => mark)).toEqual(['ring', 'cross', 'bars']);
});
