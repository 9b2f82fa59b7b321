import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { example, folder, run } from './run.ts';

const start = ['--start', '2027-03-02T08:00:00Z'];
const data = (...args: string[]) => JSON.parse(run(['plan', example, ...start, '--json', ...args]).stdout);

/** The example with something changed, in a file of its own. */
function changed(from: string | RegExp, to: string): string {
	const path = join(folder(), 'sheet.yaml');
	writeFileSync(path, readFileSync(example, 'utf8').replace(from, to));
	return path;
}

describe('fanwise plan', () => {
	test('--json has both orders, the batches and whether it can be kept', () => {
		const plan = data();
		expect(plan).toMatchObject({ feasible: true, reasons: [] });
		expect(plan.orders.map((order: { name: string }) => order.name)).toEqual([
			...['fewest-turns', 'wettest-edge'],
			...['fewest-turns', 'wettest-edge'],
		]);
		for (const order of plan.orders) {
			expect(order).toMatchObject({ turns: expect.any(Number), minutes: expect.any(Number) });
			for (const { coat, faces } of order.coats) {
				expect(coat).toBeGreaterThan(0);
				expect(faces).toContain('left door/edges');
			}
		}
		for (const batch of plan.batches)
			expect(batch).toMatchObject({
				...{ letter: expect.stringMatching(/^[A-Z]+$/), material: expect.any(String) },
				...{ volume_mL: expect.any(Number), mixAt: expect.stringMatching(/Z$/) },
				...{ from: expect.stringMatching(/Z$/), to: expect.stringMatching(/Z$/) },
			});
	});
	test('coats are counted over all stages of a face that none leaves out', () => {
		const coats = data().orders.map((order: { coats: { coat: number }[] }) =>
			order.coats.map(each => each.coat),
		);
		expect(coats).toEqual([
			[1, 2],
			[1, 2],
			[3, 4, 5],
			[3, 4, 5],
		]);
	});
	test('the text fits 80 columns, and shows the timeline of every face', () => {
		const { status, stdout, stderr } = run(['plan', example, ...start]);
		expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
		for (const line of stdout.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
		expect(stdout).toMatch(/^left door outside +3·+4·+5/m);
		expect(stdout).toMatch(/fewest turns/);
		expect(stdout).toMatch(/wettest edge/);
	});
	test('a day too short for the windows: exit 1, which window, by how much, the smallest change', () => {
		const path = changed('day: 9 h', 'day: 2 h');
		const { status, stdout } = run(['plan', path, ...start, '--json']);
		const plan = JSON.parse(stdout);
		expect(status).toBe(1);
		expect(plan.feasible).toBe(false);
		expect(plan.reasons.join('\n')).toMatch(/coat \d: the window closes .+ before the face can be begun/);
		expect(plan.reasons.at(-1)).toMatch(/smallest change that mends it: a day \d+ min longer/);
		expect(run(['plan', path, ...start]).stdout).toMatch(/This cannot be kept:/);
	});
	test('what cannot be used is one line and exit 2', () => {
		for (const args of [
			['plan'],
			['plan', 'missing.yaml'],
			['plan', example, '--order', 'fewest'],
			['plan', example, '--start', 'noon'],
			['plan', example, '--units', 'stone'],
		]) {
			const { status, stdout, stderr } = run(args);
			expect({ status, stdout, lines: stderr.trimEnd().split('\n').length }).toEqual({
				status: 2,
				stdout: '',
				lines: 1,
			});
		}
	});
	test('the order can be asked for', () => {
		expect(data('--order', 'wettest-edge').order).toBe('wettest-edge');
		expect(data('--order', 'sheet').order).toBe('sheet');
	});
});

describe('fanwise now', () => {
	test('without a day there is nothing to say: one line, exit 2', () => {
		const { status, stdout, stderr } = run(['now']);
		expect({ status, stdout, lines: stderr.trimEnd().split('\n').length }).toEqual({
			status: 2,
			stdout: '',
			lines: 1,
		});
	});
	test('after a rehearsed beginning every face is answered for', () => {
		const day = join(folder(), 'now.day.jsonl');
		run(['rehearse', example, '--json', '--day', day, '--start', '2027-03-02T08:00:00Z'], {
			input: 'hold\n',
		});
		const { status, stdout } = run(['now', day, '--json']);
		expect(status).toBe(0);
		const { faces } = JSON.parse(stdout);
		expect(faces.length).toBe(10);
		for (const face of faces)
			expect(face).toMatchObject({ coats: 0, planned: 5, next: { may: 'prep', step: 'wipe' } });
		expect(run(['now', day]).stdout).toMatch(/^left door edges +0 of 5 +wipe now$/m);
	});
});
