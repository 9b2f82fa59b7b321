import { createMachine, initialTransition, transition } from 'xstate';
import type { DayRecord } from '../../src/day/records.ts';
import { type DayState, fold } from '../../src/day/state.ts';
import { beside, type Figure, inPairs, time_ms } from './figure.ts';
import { playedRecords } from './played-records.ts';

const pairs = 9;
const count = 10_000;

const bare = createMachine({
	initial: 'one',
	states: { one: { on: { '*': 'other' } }, other: { on: { '*': 'one' } } },
});

function bareFold(records: readonly DayRecord[]): void {
	let state = initialTransition(bare)[0];
	for (const record of records) state = transition(bare, state, record)[0];
}

function dayFold(records: readonly DayRecord[]): void {
	let state: DayState | null = null;
	for (const record of records) state = fold(state, record);
}

/** The fold of a long day against a bare machine of two states stepped over the same records. */
export async function measure(): Promise<Figure[]> {
	const records = playedRecords(count);
	const [plain, ours] = [() => time_ms(() => bareFold(records)), () => time_ms(() => dayFold(records))];
	plain();
	ours();
	const found = await inPairs(pairs, plain, ours);
	return [beside(`the fold of ${count} records`, 'ms', 'a machine of two states', found, 3)];
}
