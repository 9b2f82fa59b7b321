import {
	type AnyActorScope,
	type AnyStateMachine,
	createActor,
	createMachine,
	type EventFromLogic,
	type SnapshotFrom,
} from 'xstate';

const idle = createActor(createMachine({}));

/**
 * The surroundings of every step: these machines start, send and delay nothing, so that one that does nothing serves
 * them all. xstate's own `transition` makes a whole actor, with the machine's first state, for each step.
 */
const surroundings: AnyActorScope = {
	self: idle,
	system: idle.system,
	id: '',
	sessionId: '',
	logger: () => {},
	defer: () => {},
	emit: () => {},
	stopChild: () => {},
	actionExecutor: () => {},
};

/** One step of a machine: the same as xstate's `transition` of a machine without effects, and many times as fast. */
export const transition = <Machine extends AnyStateMachine>(
	machine: Machine,
	snapshot: SnapshotFrom<Machine>,
	event: EventFromLogic<Machine>,
): [SnapshotFrom<Machine>] => [machine.transition(snapshot, event, surroundings) as SnapshotFrom<Machine>];
