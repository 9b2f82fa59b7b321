import fc from 'fast-check';
import { filmOver } from '../../src/film/map.ts';
import type { Job } from '../../src/job/job.ts';
import { linesOn } from '../../src/job/on-work.ts';
import { planDay } from '../../src/plan/day-plan.ts';
import { orderFor } from '../../src/plan/order.ts';
import { jobs } from '../plan/jobs.ts';
import { cpu_ms, type Figure, under } from './figure.ts';

const sheets = 3;

/** The film of each face, place by place: each of a size of its own, so that none is like another. */
function mapAll({ gun, faces }: Job): void {
	for (const [nth, face] of faces.entries()) {
		const size_mm: [number, number] = [200 + ((nth * 37) % 1800), 30 + ((nth * 53) % 1500)];
		const laid = linesOn(gun, { ...face, size_mm, area_m2: (size_mm[0] * size_mm[1]) / 1e6 }, 'side-to-side');
		filmOver(laid, laid.setting.lead_mm, 1.5);
	}
}

/**
 * Two hundred faces with three coats, in both orders and played through a day, the slowest of random sheets: horns
 * by coat, one or two fan heights, `after` inside parts.
 */
export async function measure(): Promise<Figure[]> {
	let [ordering, playing, mapping] = [0, 0, 0];
	for (const fans of [[250], [250, 150]])
		for (const parts of [20, 40, 100])
			for (const job of fc.sample(jobs({ faces: [200, 200], coats: 3, fans, parts }), {
				numRuns: sheets,
				seed: parts,
			})) {
				mapping = Math.max(
					mapping,
					cpu_ms(() => mapAll(job)),
				);
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
			}
	return [
		under('200 faces put in order, the slowest sheet', 'ms', ordering, 1000),
		under('200 faces played through a day', 'ms', playing, 1000),
		{
			name: 'film of 200 faces, the slowest sheet',
			...{ unit: 'ms', ours: mapping, ratio: mapping / ordering, limit: 1 },
			against: { what: 'putting them in order', value: ordering },
		},
	];
}
