import type { DayMachineState } from '../../machines/day.ts';
import type { DayEvent, EventOf } from '../../src/day/records.ts';
import { pours, wrongMixing } from './mixed-batch.ts';
import type { Plan } from './plans.ts';
import { wrongBegin, wrongPass, wrongStartOf } from './properties.ts';
import { closesItem, inputOf, isStranded, type Shadow, shadowAfter } from './shadow.ts';
import { inPlace, isNextOfLine, isReasoned, standsFor, toldInLine } from './sprayed-face.ts';

/**
 * The other half of property 7, the way on: an event in its place, that no rule stands against, is taken. So no
 * condition of the charts asks for more than the rules do.
 */

type Put = { plan: Plan; before: DayMachineState; was: Shadow; event: DayEvent };

const brokenOff = (was: Shadow) => Object.values(was.faces).some(({ coat }) => coat === 'broken off');
const inHand = (was: Shadow) => Object.values(was.batches).some(({ stage }) => stage === 'mixing');

/** Whether a face takes what is told of it. */
function ofFace(plan: Plan, was: Shadow, event: DayEvent): boolean {
	const named = 'face' in event && event.face !== null ? was.faces[event.face ?? ''] : undefined;
	const inLine = named !== undefined && !named.aside && (named.coat === 'none' || named.coat === 'part');
	switch (event.type) {
		case 'face.ended': {
			const open = named?.coat === 'under way' || named?.coat === 'broken off';
			return open && event.coat === (named?.laid ?? 0) + 1;
		}
		case 'stage.done':
			return inLine && named?.coat === 'none' && inPlace(named, event.stage, event.place);
		case 'override.given':
			return inLine && inPlace(named, event.step, event.place) && standsFor(named, event);
		case 'part.setAside':
			return mayLeave(plan, was, event);
		case 'rework.done':
			/** That it was sprayed again, or is not, is told of any face, once it is back in line. */
			return toldInLine.includes(event.step) || isNextOfLine(named, event);
		default:
			return false;
	}
}

/** Whether some face leaves the line, and no sound one without one of its part that has a fault. */
function mayLeave(plan: Plan, was: Shadow, event: EventOf<'part.setAside'>): boolean {
	const leaves = event.faces.some(id => {
		const face = was.faces[id];
		if (face?.aside) return event.faulty?.includes(id) !== false;
		return face !== undefined && !face.aside && (face.coat === 'none' || face.coat === 'part');
	});
	const { faces } = shadowAfter(plan, was, event);
	return leaves && !plan.input.faces.some(({ id }) => isStranded(plan, faces, id));
}

/** Whether the batch that an event names takes it. */
function ofBatch(plan: Plan, was: Shadow, event: DayEvent): boolean {
	if (event.type === 'batch.started')
		return !was.batches[event.batch] && plan.input.materials[event.material] !== undefined && !inHand(was);
	if (!('batch' in event) || typeof event.batch !== 'string') return false;
	const batch = was.batches[event.batch];
	if (!batch || batch.stage === 'discarded') return false;
	if (event.type === 'reading.taken')
		return (
			!batch.unknown &&
			event.feature === 'can' &&
			pours.includes(batch.open[0] ?? '') &&
			!batch.can &&
			!batch.adrift
		);
	if (event.type === 'batch.discarded') return batch.stage !== 'in the cup';
	if (event.type === 'batch.loaded' && event.refill !== was.cup.includes(event.batch)) return false;
	return !batch.unknown && wrongMixing(batch, event).length === 0;
}

type Place = Partial<Record<DayEvent['type'], readonly string[]>>;

/** Where an event belongs. */
const places: Place = {
	'face.started': ['ready', 'spraying'],
	'gun.checked': ['check'],
	'check.began': ['bench'],
	'face.ended': ['bench', 'spraying', 'hold'],
	'stage.done': ['bench', 'wait'],
	'part.setAside': ['bench', 'ready', 'hold'],
	'rework.done': ['bench', 'ready', 'wait'],
	'override.given': ['bench', 'ready', 'wait', 'list', 'check'],
	'reading.taken': ['list', 'check', 'mix', 'bench', 'hold'],
	'item.answered': ['list', 'check'],
	'batch.started': ['bench', 'wait'],
	'batch.stepped': ['mix'],
	'batch.poured': ['mix'],
	'batch.found': ['mix'],
	'cup.timed': ['mix'],
	'batch.ready': ['mix'],
	'batch.stood': ['bench', 'wait'],
	'batch.loaded': ['bench', 'ready'],
	'batch.discarded': ['bench', 'mix', 'wait', 'hold'],
	'cup.emptied': ['bench', 'ready', 'wait', 'hold'],
	'wait.began': ['bench', 'ready'],
	'wait.ended': ['wait'],
	'break.ended': ['hold'],
	'day.closed': ['bench', 'wait', 'hold'],
	'gun.unknown': ['bench', 'ready', 'spraying', 'wait', 'hold'],
	'face.late': ['spraying'],
	'fault.seen': ['bench', 'list', 'mix', 'check', 'ready', 'spraying', 'wait', 'hold', 'closed'],
};

/** Whether a list or a check is closed further by an event. */
function ofItem(plan: Plan, { asked }: Shadow, before: DayMachineState, event: DayEvent): boolean {
	const item = asked?.items[asked.closed];
	const isocyanate = before.context.check?.context.isocyanate === true;
	return closesItem(item, event, { isocyanate, pattern: wantedPattern(plan, before) });
}
const wantedPattern = (_: Plan, { context }: DayMachineState) => context.check?.context.pattern ?? undefined;

/** Told of what was sprayed, at the bench and in a hold. */
const accounts: readonly string[] = ['last-face', 'which-face'];

/** Whether a refused event was in its place with no rule against it. */
export function refusedWithoutRule({ plan, before, was, event }: Put): boolean {
	const value = String(before.value);
	if (!places[event.type]?.includes(value)) return false;
	switch (event.type) {
		case 'face.started':
			return inputOf(plan, event.face) !== undefined && wrongStartOf(plan, was, event).length === 0;
		case 'gun.checked':
			return wrongPass(plan, was, event).length === 0;
		case 'check.began':
			return event.list !== 'gun-check' || wrongBegin(plan, was, event).length === 0;
		case 'cup.emptied':
			return was.cup.length > 0;
		case 'fault.seen':
			return event.gun !== true;
		case 'day.closed':
			return !brokenOff(was);
		case 'reading.taken':
		case 'item.answered':
		case 'override.given':
			if (value === 'mix') return ofBatch(plan, was, event);
			if (value === 'list' || value === 'check') return ofItem(plan, was, before, event);
			if (event.type === 'reading.taken') return accounts.includes(event.feature);
			return ofFace(plan, was, event);
		case 'wait.ended':
			return event.facts?.due === true || isReasoned(was.faces[event.face ?? '']);
		case 'break.ended':
			return event.facts?.long !== undefined;
		case 'wait.began':
		case 'gun.unknown':
		case 'face.late':
			return true;
		default:
			return ofFace(plan, was, event) || ofBatch(plan, was, event);
	}
}
