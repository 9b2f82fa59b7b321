import { assign, setup } from 'xstate';
import type { DayEvent, UnknownWhy } from '../src/day/records.ts';
import type { Horns } from '../src/job/job.ts';

/** What the last gun check found, and the check it rests on. */
export type Known = { horns: Horns; fanHeight_mm: number; check: number; passedOver: readonly string[] };

/** A check that was passed: what it found. */
type Found = { type: 'gun.found'; found: Known };

/** Planned work on the gun: the short check clears it. */
const planned: readonly UnknownWhy[] = ['cap-turn', 'knob', 'refill', 'age'];

/** What ends the knowledge of a gun, and the check that brings it back. */
const lost = {
	'break.began': 'fullCheckDue',
	'wait.began': 'fullCheckDue',
	'face.late': 'fullCheckDue',
	'fault.seen': 'fullCheckDue',
	'cup.emptied': 'fullCheckDue',
	'batch.loaded': [{ guard: 'isRefill', target: 'shortCheckDue' }, { target: 'fullCheckDue' }],
	'gun.unknown': [{ guard: 'isPlanned', target: 'shortCheckDue' }, { target: 'fullCheckDue' }],
} as const;

/**
 * The gun: known since its last check, or to be checked before the next pass, in full or by pattern and letter. Once
 * the full check is due no lesser cause makes it less.
 */
export const gunMachine = setup({
	types: { context: {} as { found: Known | null }, events: {} as DayEvent | Found },
	guards: {
		isRefill: ({ event }) => event.type === 'batch.loaded' && event.refill,
		isPlanned: ({ event }) => event.type === 'gun.unknown' && planned.includes(event.why),
	},
	actions: {
		know: assign({ found: ({ event }) => (event.type === 'gun.found' ? event.found : null) }),
		forget: assign({ found: null }),
	},
}).createMachine({
	id: 'gun',
	context: { found: null },
	initial: 'fullCheckDue',
	states: {
		known: { entry: 'know', exit: 'forget', on: lost },
		shortCheckDue: { on: { ...lost, 'gun.found': 'known' } },
		fullCheckDue: { on: { 'gun.found': 'known' } },
	},
});
