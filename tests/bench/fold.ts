import { createMachine, initialTransition, transition } from 'xstate';
import { transition as step } from '../../machines/step.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { type DayState, fold } from '../../src/day/state.ts';
import { playedRecords } from './played-records.ts';

/**
 * The fold of a day of 10,000 records against a bare two-state machine stepped over the same records, in pairs,
 * each pair in the other order than the one before. `node tests/bench/run.js fold [PAIRS]`.
 */
const pairs = Number(process.argv[3] ?? 9);
const limit = 3;
const count = 10_000;

const bare = createMachine({
	initial: 'one',
	states: { one: { on: { '*': 'other' } }, other: { on: { '*': 'one' } } },
});

const bareFold = (records: readonly DayRecord[]) => {
	let state = initialTransition(bare)[0];
	for (const record of records) state = transition(bare, state, record)[0];
	return state;
};
/** The same through the day's own short step, which makes no actor: said beside it, not judged. */
const shortFold = (records: readonly DayRecord[]) => {
	let state = initialTransition(bare)[0];
	for (const record of records) state = step(bare, state, record)[0];
	return state;
};
const dayFold = (records: readonly DayRecord[]) => {
	let state: DayState | null = null;
	for (const record of records) state = fold(state, record);
	return state;
};

const median = (values: number[]) =>
	[...values].sort((one, other) => one - other)[Math.floor(values.length / 2)] ?? Number.NaN;
const time_ms = (work: () => unknown) => {
	const from = performance.now();
	work();
	return performance.now() - from;
};

const records = playedRecords(count);
const works = [() => bareFold(records), () => dayFold(records)] as const;
for (const work of works) work();
const times: [number, number][] = [];
for (let pair = 0; pair < pairs; pair++) {
	const order = pair % 2 ? ([0, 1] as const) : ([1, 0] as const);
	const time: [number, number] = [0, 0];
	for (const which of order) time[which] = time_ms(works[which]);
	times.push(time);
}
const short_ms = median(Array.from({ length: pairs }, () => time_ms(() => shortFold(records))));
const ratio = median(times.map(([plain, day]) => day / plain));
process.stdout.write(
	`${records.length} records, ${pairs} pairs: bare two-state fold ${median(times.map(([one]) => one)).toFixed(0)} ms, ` +
		`the day's fold ${median(times.map(([, day]) => day)).toFixed(0)} ms, median ratio ${ratio.toFixed(2)} (limit ${limit}); ` +
		`the bare fold by the day's own step ${short_ms.toFixed(0)} ms\n`,
);
process.exitCode = ratio <= limit ? 0 : 1;
