import fc from 'fast-check';
import { planDay } from '../../src/plan/day-plan.ts';
import { orderFor } from '../../src/plan/order.ts';
import { jobs } from '../plan/jobs.ts';

/**
 * Two hundred faces with three coats, in both orders and played through a day, on random sheets: horns by coat,
 * one or two fan heights, `after` inside parts. Processor time, so that a busy machine does not count. `node tests/bench/run.js plan [SHEETS]`.
 */
const sheets = Number(process.argv[3] ?? 5);
const limit_ms = 1000;

const time_ms = <Result>(work: () => Result): [number, Result] => {
	const from = process.cpuUsage();
	const result = work();
	return [process.cpuUsage(from).user / 1000, result];
};

let slowest = 0;
for (const fans of [[250], [250, 150]])
	for (const parts of [20, 40, 100])
		for (const which of ['fewest-turns', 'wettest-edge'] as const) {
			const shape = { faces: [200, 200] as [number, number], coats: 3, fans, parts };
			const found = fc.sample(jobs(shape), { numRuns: sheets, seed: parts }).map(job => {
				const [ordering, order] = time_ms(() => orderFor(job, 0, which));
				const [playing] = time_ms(() => planDay(job, order));
				return { ordering, playing, proved: order.exact, off: order.turns - order.atLeast };
			});
			const most = (of: 'ordering' | 'playing') => Math.max(...found.map(each => each[of]));
			slowest = Math.max(slowest, most('ordering'));
			process.stdout.write(
				`${which}, ${parts} parts, ${2 * fans.length} gun states: ordered in ${most('ordering').toFixed(0)} ms at most, ` +
					`played in ${most('playing').toFixed(0)} ms; ${found.filter(each => each.proved).length} of ${sheets} proved, ` +
					`the others within ${Math.max(...found.map(each => each.off))} turns\n`,
			);
		}
process.exitCode = slowest <= limit_ms ? 0 : 1;
