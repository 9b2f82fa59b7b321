import type { CoatRule, FaceInput } from '../../machines/face.ts';
import type { DayEvent } from '../../src/day/records.ts';
import { type MixedBatch, mixedAfter, newBatch } from './mixed-batch.ts';
import type { Plan } from './plans.ts';
import { type SprayedFace, sprayedAfter, unsprayed } from './sprayed-face.ts';

/**
 * A second bookkeeping of a day, from the words of the rules and not from the charts: what was read, what was
 * told, what has ended what is known. It follows whatever the machine accepts and judges nothing.
 */

export type Size = 'full' | 'short';

/** A list or gun check under way. */
export type Asked = {
	no: number;
	list: string;
	size: Size | null;
	face: string | null;
	items: readonly string[];
	/** How many of the items are closed, from the first on. */
	closed: number;
	/** The fan as the last pattern or card showed it, for the face of the check. */
	fan: 'fits' | 'differs' | null;
	passedOver: readonly string[];
};

/** What readings say of the gun, and the check that says it. */
export type Known = { horns: string; fanHeight_mm: number; check: number; passedOver: readonly string[] };

export type Shadow = {
	known: Known | null;
	/** The size of check that the gun needs before it is known again. */
	owed: Size | null;
	asked: Asked | null;
	/** A pass ran over its time, and nobody has said whether it went through in one go. */
	late: boolean;
	faces: Readonly<Record<string, SprayedFace>>;
	batches: Readonly<Record<string, MixedBatch>>;
	cup: readonly string[];
	/** Lists gone through today, and the items passed over in them. */
	lists: readonly string[];
	passedOver: readonly string[];
};

export const startOf = ({ input }: Plan): Shadow => ({
	known: null,
	owed: 'full',
	asked: null,
	late: false,
	faces: Object.fromEntries(input.faces.map(face => [face.id, unsprayed(face)])),
	batches: {},
	cup: [],
	lists: [],
	passedOver: [],
});

export const inputOf = ({ input }: Plan, id: string | null): FaceInput | undefined =>
	input.faces.find(face => face.id === id);

/** What the coat of a face wants that is next in the plan, or was the last of it. */
export function wantedBy(plan: Plan, shadow: Shadow, id: string | null): CoatRule | undefined {
	const coats = inputOf(plan, id)?.coats;
	const laid = shadow.faces[id ?? '']?.laid ?? 0;
	return coats?.[Math.min(laid, coats.length - 1)];
}

/** Planned ones of these can be cleared by the short check; every other cause asks for the full one. */
const planned = ['cap-turn', 'knob', 'refill', 'age'];

/** The check that an event makes necessary. */
export function causeIn(shadow: Shadow, event: DayEvent): Size | null {
	switch (event.type) {
		case 'break.began':
		case 'wait.began':
		case 'face.late':
		case 'cup.emptied':
			return 'full';
		case 'gun.unknown': {
			/** In the middle of a pass nothing is planned. */
			const isMidPass = Object.values(shadow.faces).some(({ coat }) => coat === 'under way');
			return planned.includes(event.why) && !isMidPass ? 'short' : 'full';
		}
		case 'batch.loaded':
			return shadow.cup.includes(event.batch) ? 'short' : 'full';
		case 'batch.discarded':
			return shadow.cup.includes(event.batch) ? 'full' : null;
		case 'fault.seen':
			return event.gun === true ? 'full' : null;
		case 'gun.set':
			return event.horns === null && event.fanHeight_mm === null ? null : 'short';
		default:
			return null;
	}
}

const opposite = { level: 'upright', upright: 'level' } as const;
/** Only a reading can say these; no tick and no reason. */
export const onlyByReading = ['mask', 'batch', 'pattern', 'card'];

/** Materials that some face wants for its next coat. */
const materialsLeft = ({ input }: Plan, { faces }: Shadow): string[] =>
	input.faces.flatMap(({ id, coats }) => {
		const face = faces[id];
		const next = coats[face?.laid ?? 0] ?? (face?.overrides.includes('coats') ? coats.at(-1) : undefined);
		return next ? [next.material] : [];
	});

/** Whether an event closes an item, by the words of the rules. */
export function closesItem(
	item: string | undefined,
	event: DayEvent,
	{ isocyanate, pattern }: { isocyanate: boolean; pattern: string | undefined },
): boolean {
	if (item === undefined) return false;
	const told = !onlyByReading.includes(item);
	if (event.type === 'item.answered') return event.item === item && event.passed && told;
	if (event.type === 'override.given') return event.face === null && event.rule === item && told;
	if (event.type !== 'reading.taken') return false;
	if (item === 'mask') {
		const good = isocyanate ? ['supplied-air'] : ['supplied-air', 'filter-mask'];
		return event.feature === 'breathing' && good.includes(String(event.value));
	}
	if (event.feature !== item) return false;
	return item === 'pattern' ? event.value === pattern : event.matched;
}

function closes(plan: Plan, shadow: Shadow, { items, closed, list, face }: Asked, event: DayEvent): boolean {
	const wanted = wantedBy(plan, shadow, face);
	const sprayed = list === 'gun-check' ? [wanted?.material ?? ''] : materialsLeft(plan, shadow);
	const isocyanate = sprayed.some(id => plan.input.materials[id]?.isocyanate === true);
	return closesItem(items[closed], event, { isocyanate, pattern: wanted?.pattern });
}

function askedAfter(plan: Plan, shadow: Shadow, asked: Asked, event: DayEvent): Asked {
	const done = closes(plan, shadow, asked, event);
	const item = asked.items[asked.closed];
	const isFan = event.type === 'reading.taken' && (event.feature === 'pattern' || event.feature === 'card');
	return {
		...asked,
		closed: asked.closed + (done ? 1 : 0),
		fan: isFan && event.feature === item ? (done ? 'fits' : 'differs') : asked.fan,
		passedOver:
			done && event.type === 'override.given' ? [...asked.passedOver, event.rule] : asked.passedOver,
	};
}

function knownFrom(plan: Plan, shadow: Shadow, asked: Asked): Known | null {
	const rule = wantedBy(plan, shadow, asked.face);
	if (!rule || asked.fan === null) return null;
	const horns = asked.fan === 'fits' ? rule.horns : opposite[rule.horns];
	return { horns, fanHeight_mm: rule.fanHeight_mm, check: asked.no, passedOver: asked.passedOver };
}

/** Known and owed, the check under way and the lists, after an event that was accepted. */
function gunAfter(plan: Plan, shadow: Shadow, event: DayEvent): Partial<Shadow> {
	const cause = causeIn(shadow, event);
	const dropped = event.type === 'break.began' ? { asked: null } : {};
	if (cause !== null) {
		const turnedInCheck = event.type === 'gun.set' && shadow.asked !== null;
		if (turnedInCheck) return {};
		return { known: null, owed: cause === 'full' || shadow.owed === 'full' ? 'full' : 'short', ...dropped };
	}
	if (event.type === 'check.began') {
		const { check: no, list, size, face, items } = event;
		return { asked: { no, list, size, face, items, closed: 0, fan: null, passedOver: [] } };
	}
	const { asked } = shadow;
	if (asked === null) return {};
	if (event.type === 'gun.checked') {
		const pays = event.size === 'full' || shadow.owed !== 'full';
		return { asked: null, known: knownFrom(plan, shadow, asked), owed: pays ? null : shadow.owed };
	}
	const now = askedAfter(plan, shadow, asked, event);
	const listDone = now.list !== 'gun-check' && now.closed === now.items.length;
	if (!listDone) return { asked: now };
	return {
		asked: null,
		lists: [...new Set([...shadow.lists, now.list])].sort(),
		passedOver: [...new Set([...shadow.passedOver, ...now.passedOver])].sort(),
	};
}

const speaksOf = (event: DayEvent, id: string): boolean => {
	if (event.type === 'break.began' || event.type === 'air.read') return true;
	if (event.type === 'part.setAside' || event.type === 'reading.taken')
		return event.faces?.includes(id) === true;
	return 'face' in event && event.face === id;
};

function facesAfter(plan: Plan, shadow: Shadow, event: DayEvent): Shadow['faces'] {
	const concerned = plan.input.faces.filter(({ id }) => speaksOf(event, id));
	if (concerned.length === 0) return shadow.faces;
	const after = (faces: Shadow['faces'], inputs: readonly FaceInput[]) => ({
		...faces,
		...Object.fromEntries(
			inputs.map(input => [input.id, sprayedAfter(input, faces[input.id] as SprayedFace, event)] as const),
		),
	});
	const moved = after(shadow.faces, concerned);
	if (event.type !== 'rework.done') return moved;
	return after(
		moved,
		plan.input.faces.filter(({ id }) => isStranded(plan, moved, id)),
	);
}

/** A sound face out of line, and none of its part that has a fault. */
export function isStranded({ input }: Plan, faces: Shadow['faces'], id: string): boolean {
	const part = input.faces.find(face => face.id === id)?.part;
	const mates = input.faces.filter(face => face.part === part).map(face => faces[face.id]);
	return faces[id]?.sound === true && !mates.some(mate => mate?.aside && !mate.sound);
}

/** The batch that an event is about: the one it names, else the one in hand. */
function batchOf(shadow: Shadow, event: DayEvent): string | null {
	if ('batch' in event && typeof event.batch === 'string') return event.batch;
	const inHand = Object.entries(shadow.batches).find(([, { stage }]) => stage === 'mixing');
	const ofBatch =
		event.type === 'break.began' ||
		event.type === 'override.given' ||
		(event.type === 'reading.taken' && event.feature === 'can');
	return ofBatch ? (inHand?.[0] ?? null) : null;
}

function batchesAfter(plan: Plan, shadow: Shadow, event: DayEvent): Partial<Shadow> {
	if (event.type === 'cup.emptied') {
		const back = shadow.cup.map(letter => [letter, shadow.batches[letter] as MixedBatch] as const);
		const emptied = back.filter(([, batch]) => batch).map(([id, batch]) => [id, mixedAfter(batch, event)]);
		return { cup: [], batches: { ...shadow.batches, ...Object.fromEntries(emptied) } };
	}
	const letter = batchOf(shadow, event);
	if (letter === null) return {};
	const batch =
		event.type === 'batch.started'
			? newBatch(event.material, plan.input.materials[event.material]?.order ?? [])
			: shadow.batches[letter];
	if (!batch) return {};
	const batches = { ...shadow.batches, [letter]: mixedAfter(batch, event) };
	const loads = event.type === 'batch.loaded' && !shadow.cup.includes(letter);
	return loads ? { batches, cup: [...shadow.cup, letter] } : { batches };
}

/** Gone through again after a long absence. */
const listsAfter = ({ lists }: Shadow, event: DayEvent): Partial<Shadow> =>
	event.type === 'break.ended' && event.facts?.long === true
		? { lists: lists.filter(list => list !== 'before-spraying') }
		: {};

/** The bookkeeping after an event that the machine accepted. */
export function shadowAfter(plan: Plan, shadow: Shadow, event: DayEvent): Shadow {
	const asksLate = event.type === 'reading.taken' && event.feature === 'one-go';
	const toldShort = event.type === 'face.ended' && event.extent !== 'all';
	return {
		...shadow,
		...gunAfter(plan, shadow, event),
		...listsAfter(shadow, event),
		...batchesAfter(plan, shadow, event),
		faces: facesAfter(plan, shadow, event),
		late: event.type === 'face.late' || (shadow.late && !asksLate && !toldShort),
	};
}
