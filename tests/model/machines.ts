import { batchMachine } from '../../machines/batch.ts';
import { type DayMachineState, dayMachine } from '../../machines/day.ts';
import type { BatchState, FaceState } from '../../machines/day-context.ts';
import { faceMachine, faceStops } from '../../machines/face.ts';
import { gunCheckMachine } from '../../machines/gun-check.ts';
import { transition } from '../../machines/step.ts';
import { stopsOf } from '../../machines/stops.ts';
import { windowMachine } from '../../machines/window.ts';
import type { DayEvent } from '../../src/day/records.ts';

/** The machines, as they are or with one thing changed, and what is said to stand before the coat of a face. */
export type Machines = {
	day: typeof dayMachine;
	face: typeof faceMachine;
	batch: typeof batchMachine;
	gunCheck: typeof gunCheckMachine;
	window: typeof windowMachine;
	faceStops: typeof faceStops;
	stopsOf: typeof stopsOf;
};

export const asTheyAre: Machines = {
	day: dayMachine,
	face: faceMachine,
	batch: batchMachine,
	gunCheck: gunCheckMachine,
	window: windowMachine,
	faceStops,
	stopsOf,
};

/** Guards asked since the last event was put: a chart that goes round by itself asks without end. */
export const asked = { guards: 0 };

type Steps<Snapshot> = { getTransitionData(snapshot: Snapshot, event: DayEvent): readonly unknown[] };

/**
 * One event put to a machine.
 * @returns the state after it (null: the chart has no transition for it here), and how many transitions took it
 */
export function put<Snapshot>(
	machine: Machines[Exclude<keyof Machines, 'faceStops' | 'stopsOf'>],
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
