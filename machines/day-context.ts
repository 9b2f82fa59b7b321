import type { SnapshotFrom } from 'xstate';
import type { DayEvent, EventOf } from '../src/day/records.ts';
import type { MixStep } from '../src/job/job.ts';
import type { batchMachine } from './batch.ts';
import { type CoatRule, type FaceInput, faceMachine } from './face.ts';
import type { gunMachine, Known } from './gun.ts';
import type { gunCheckMachine } from './gun-check.ts';
import { transition } from './step.ts';

/** What a day knows of its gun, faces and batches, and what one event does to them. */

export type FaceState = SnapshotFrom<typeof faceMachine>;
export type BatchState = SnapshotFrom<typeof batchMachine>;
export type CheckState = SnapshotFrom<typeof gunCheckMachine>;
export type GunState = SnapshotFrom<typeof gunMachine>;

export type DayInput = {
	faces: readonly FaceInput[];
	/** `isocyanate`: only supplied air will do, for it has some, or its sheet names no cartridge. */
	materials: Readonly<Record<string, { isocyanate: boolean; order: readonly MixStep[] }>>;
};

export type DayContext = {
	rules: DayInput;
	faces: readonly FaceState[];
	batches: Readonly<Record<string, BatchState>>;
	/** Letters of the batches in the gun's cup. */
	cup: readonly string[];
	/** The list or gun check being gone through; what it is, and the face it is for, stay until the next begins. */
	check: CheckState | null;
	checked: { no: number; size: 'full' | 'short'; rule: CoatRule; passedOver: readonly string[] } | null;
	gun: GunState;
	/** Lists closed today. */
	listsDone: readonly string[];
	/** Items of those lists passed over with a reason. */
	passedOver: readonly string[];
	list: string | null;
	/** A face ran over its time; the painter has not said yet whether it went through in one go. */
	late: boolean;
};

export type Args = { context: DayContext; event: DayEvent };

export const of = <Type extends DayEvent['type']>(event: DayEvent, type: Type): EventOf<Type> | null =>
	event.type === type ? (event as EventOf<Type>) : null;

/** The next coat of a face: what it wants of gun and batch. A coat beyond the plan repeats the last rule. */
export function ruleFor(face: FaceState): CoatRule | undefined {
	const { rules, laid } = face.context;
	return rules.coats[laid] ?? rules.coats.at(-1);
}

/** What is known of the gun; null: nothing. */
export const knownOf = ({ gun }: Pick<DayContext, 'gun'>): Known | null => gun.context.found;

export const faceNamed = ({ faces }: DayContext, id: string | null) =>
	faces.find(face => face.context.rules.id === id);

/** Materials that the faces get next; a coat beyond the plan counts where a reason was given for it. */
export const materialsNext = ({ faces }: DayContext) => {
	const wanted = faces.filter(
		({ context: { rules, laid, overrides } }) => laid < rules.coats.length || overrides.includes('coats'),
	);
	return wanted.flatMap(face => ruleFor(face)?.material ?? []);
};

/** Faces that an event speaks of. */
function spokenOf(event: DayEvent): readonly string[] {
	switch (event.type) {
		case 'face.started':
		case 'face.ended':
		case 'stage.done':
		case 'rework.done':
		case 'window.moved':
			return [event.face];
		case 'override.given':
			return event.face === null ? [] : [event.face];
		case 'reading.taken':
		case 'part.setAside':
			return event.faces ?? [];
		default:
			return [];
	}
}

export const stepFace = (face: FaceState, event: DayEvent) => transition(faceMachine, face, event)[0];

/** A face of its part has a fault, and is not back in line. */
const isHeldUp = (faces: readonly FaceState[], { context: { rules } }: FaceState) =>
	faces.some(face => face.matches('aside') && face.context.rules.part === rules.part);

/** Faces after an event; what is sound of a part comes back in line with the last of it that had a fault. */
export const stepFaces = (faces: readonly FaceState[], event: DayEvent) => {
	const ids = spokenOf(event);
	const concerned = (face: FaceState) =>
		event.type === 'air.read' ||
		(event.type === 'break.began' ? face.matches('spraying') : ids.includes(face.context.rules.id));
	const moved = faces.map(face => (concerned(face) ? stepFace(face, event) : face));
	return moved.map(face => (face.matches('beside') && !isHeldUp(moved, face) ? stepFace(face, event) : face));
};

/** Sound faces leave the line with one of their part that has a fault, and with no other. */
export const noneIsStranded = ({ faces }: DayContext, event: DayEvent) => {
	const after = stepFaces(faces, event);
	return after.every(face => !face.matches('beside') || isHeldUp(after, face));
};

export const facesMove = ({ faces }: DayContext, event: DayEvent) =>
	stepFaces(faces, event).some((face, index) => face !== faces[index]);

export const batchMoves = (batch: BatchState | undefined, event: DayEvent) => batch?.can(event) === true;

const finished: readonly string[] = ['ready', 'inCup', 'discarded'];

/** The batch being mixed, standing or not. */
export const batchInHand = ({ batches }: Pick<DayContext, 'batches'>) =>
	Object.entries(batches).find(([, batch]) => !finished.includes(batch.value));

export const same = (one: readonly string[], other: readonly string[]) =>
	one.length === other.length && one.every(letter => other.includes(letter));
