import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Line } from '../../src/day/rehearsal.ts';
import type { Horns, Job } from '../../src/job/job.ts';
import { keyFor } from '../../src/painter/painter.ts';
import { planDay } from '../../src/plan/day-plan.ts';
import { orderFor } from '../../src/plan/order.ts';
import { standardPace } from '../../src/plan/pace.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { smallLists } from '../day/small-job.ts';
import { sketch } from './jobs.ts';

/** A day played by a painter whose own speeds stray from the plan's. */

const listed = (name: string) => smallLists().find(({ list }) => list === name)?.items.length ?? 1;

/** Seconds that a screen takes at the plan's pace. */
function taken_s({ state }: Line, size: 'full' | 'short'): number {
	const pace = standardPace;
	if (state.startsWith('list.before-spraying') || state.startsWith('air.'))
		return pace.setUp_s / (listed('before-spraying') + 3);
	if (state.startsWith('list.clean-up')) return pace.clean_s / listed('clean-up');
	if (state === 'mix.begin') return 0;
	if (state.startsWith('mix.')) return pace.mix_s / 8;
	if (state === 'load') return pace.load_s;
	if (state === 'gunCheck.set') return pace.turn_s;
	if (state.startsWith('gunCheck.')) return size === 'full' ? pace.fullCheck_s / 6 : pace.shortCheck_s / 2;
	return state === 'ready' ? pace.move_s : 0;
}

/** Plays the day; every piece of work takes its planned time, times a factor of its own. Returns its length, min. */
function played_min(job: Job, factors: readonly number[]): number {
	const day = rehearsed({ job });
	let count = 0;
	const factor = () => factors[count++ % factors.length] ?? 1;
	const began = Date.parse(day.line().at);
	for (let step = 0; step < 3000 && day.line().ask !== 'closed'; step++) {
		const line = day.line();
		const mayMix = Object.values(line.corners).some(({ code }) => code === 'mix');
		const left_s = line.timers[0]?.left_s ?? 0;
		if (line.state === 'wait' && mayMix && left_s > 480) day.send(`wait ${left_s - 480} s`);
		else if (line.state === 'wait' && mayMix) day.send(keyFor(line, 'mix'));
		else if (line.state === 'spraying') {
			const { stretch, faces } = day.state().book;
			const wanted = stretch.reduce((sum, id) => sum + (faces.get(id)?.pass?.spray_s ?? 0), 0);
			day.send(`wait ${(wanted * factor()).toFixed(1)} s`);
			day.pick('finished');
		} else {
			const size = day.state().machine.context.checked?.size ?? 'full';
			const seconds = taken_s(line, size) * factor();
			if (seconds > 0) day.send(`wait ${seconds.toFixed(1)} s`);
			day.send(day.painter.answer(day.line()) ?? '');
		}
	}
	expect(day.line().ask).toBe('closed');
	expect(day.findings()).toEqual([]);
	return (Date.parse(day.line().at) - began) / 60_000;
}

const kinds = (kind: Horns, coats: number): Horns[] => Array(coats).fill(kind);
const jobOf = (parts: number, coats: number): Job =>
	sketch({
		faces: ['left door', 'right door', 'corner box', 'counter lid', 'canopy rail']
			.slice(0, parts)
			.flatMap(part => [
				{ part, name: 'edges', horns: kinds('upright', coats) },
				{ part, name: 'outside', horns: kinds('level', coats), after: [`${part}/edges`] },
			]),
	});

test('rehearsed by a painter whose speeds stray by 20 %, a day ends within 15 % of its planned length', () => {
	const speeds = fc.array(fc.double({ min: 0.8, max: 1.2, noNaN: true }), { minLength: 20, maxLength: 40 });
	fc.assert(
		fc.property(
			fc.integer({ min: 2, max: 5 }),
			fc.integer({ min: 2, max: 3 }),
			speeds,
			(parts, coats, factors) => {
				const job = jobOf(parts, coats);
				const planned = planDay(job, orderFor(job, 0)).minutes;
				const took = played_min(job, factors);
				expect(took / planned).toBeGreaterThan(0.85);
				expect(took / planned).toBeLessThan(1.15);
			},
		),
		{ numRuns: 12 },
	);
});
