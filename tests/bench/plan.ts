import fc from 'fast-check';
import { planDay } from '../../src/plan/day-plan.ts';
import { orderFor } from '../../src/plan/order.ts';
import { jobs } from '../plan/jobs.ts';
import { cpu_ms, type Figure, under } from './figure.ts';

const sheets = 3;

/**
 * Two hundred faces with three coats, in both orders and played through a day, the slowest of random sheets: horns
 * by coat, one or two fan heights, `after` inside parts.
 */
export async function measure(): Promise<Figure[]> {
	let [ordering, playing] = [0, 0];
	for (const fans of [[250], [250, 150]])
		for (const parts of [20, 40, 100])
			for (const job of fc.sample(jobs({ faces: [200, 200], coats: 3, fans, parts }), {
				numRuns: sheets,
				seed: parts,
			}))
				for (const which of ['fewest-turns', 'wettest-edge'] as const) {
					ordering = Math.max(
						ordering,
						cpu_ms(() => orderFor(job, 0, which)),
					);
					const order = orderFor(job, 0, which);
					playing = Math.max(
						playing,
						cpu_ms(() => planDay(job, order)),
					);
				}
	return [
		under('200 faces put in order, the slowest sheet', 'ms', ordering, 1000),
		under('200 faces played through a day', 'ms', playing, 1000),
	];
}
