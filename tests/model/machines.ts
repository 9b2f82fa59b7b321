import { batchMachine } from '../../machines/batch.ts';
import { type DayMachineState, dayMachine } from '../../machines/day.ts';
import type { BatchState, FaceState } from '../../machines/day-context.ts';
import { faceMachine } from '../../machines/face.ts';
import { gunCheckMachine } from '../../machines/gun-check.ts';
import { transition } from '../../machines/step.ts';
import type { DayEvent } from '../../src/day/records.ts';

/** The four machines, as they are or with one thing changed. */
export type Machines = {
	day: typeof dayMachine;
	face: typeof faceMachine;
	batch: typeof batchMachine;
	gunCheck: typeof gunCheckMachine;
};

export const asTheyAre: Machines = {
	day: dayMachine,
	face: faceMachine,
	batch: batchMachine,
	gunCheck: gunCheckMachine,
};

/** Guards asked since the last event was put: a chart that goes round by itself asks without end. */
export const asked = { guards: 0 };

type Steps<Snapshot> = { getTransitionData(snapshot: Snapshot, event: DayEvent): readonly unknown[] };

/**
 * One event put to a machine.
 * @returns the state after it (null: the chart has no transition for it here), and how many transitions took it
 */
export function put<Snapshot>(
	machine: Machines[keyof Machines],
	snapshot: Snapshot,
	event: DayEvent,
): { next: Snapshot | null; taken: number } {
	asked.guards = 0;
	const taken = (machine as unknown as Steps<Snapshot>).getTransitionData(snapshot, event).length;
	if (taken === 0) return { next: null, taken };
	return {
		next: transition(machine as typeof dayMachine, snapshot as DayMachineState, event)[0] as Snapshot,
		taken,
	};
}

export type { BatchState, DayMachineState, FaceState };
