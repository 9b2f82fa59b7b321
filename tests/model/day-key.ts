import { initialTransition } from 'xstate';
import type { DayEvent, Facts } from '../../src/day/records.ts';
import {
	airRead,
	isTooMany,
	type Move,
	moved,
	ofBatch,
	ofFace,
	passedOver,
	read,
	standings,
	startOfFace,
} from './alphabet.ts';
import { type Alone, classesOf } from './classes.ts';
import type { BatchState, DayMachineState, FaceState, Machines } from './machines.ts';
import { put } from './machines.ts';
import { type MixedBatch, mixedAfter, newBatch, wrongMixing } from './mixed-batch.ts';
import { allGood, type Plan, windowsMoveFreely } from './plans.ts';
import type { Shadow } from './shadow.ts';
import { type SprayedFace, sprayedAfter, unsprayed, wrongStart } from './sprayed-face.ts';

/**
 * A short key for a day. A face, and a batch, is told by the class of itself and its bookkeeping: what no sequence of
 * events of the plan could ever tell apart is one. A batch's letter is a name and no more, so batches are sorted.
 */

export type FacePair = { face: FaceState; told: SprayedFace };
export type BatchPair = { batch: BatchState; told: MixedBatch };

const texts = new WeakMap<object, string>();
/** The text of a part that is made anew whenever it changes. */
function textOf<Part extends object>(part: Part, write: (part: Part) => unknown): string {
	const known = texts.get(part);
	if (known !== undefined) return known;
	const text = JSON.stringify(write(part));
	texts.set(part, text);
	return text;
}

const faceText = (face: FaceState) =>
	textOf(face, ({ value, context: { rules: _, window, ...context } }) => [value, context, window.context]);
const windowText = ({ context: { window } }: FaceState) => String(window.value);
const batchText = (batch: BatchState) => textOf(batch, ({ value, context }) => [value, context]);
const told = (shadow: object) => textOf(shadow, same => same);

const faceTold = (shadow: SprayedFace) => textOf(shadow, ({ window: _, ...same }) => same);

/** @param free windows move at any time: which one a face is in tells two apart */
export const facePairKey = ({ face, told: shadow }: FacePair, free: boolean) =>
	faceText(face) + faceTold(shadow) + (free ? `${windowText(face)} ${shadow.window}` : '');
export const batchPairKey = ({ batch, told: shadow }: BatchPair) => batchText(batch) + told(shadow);

/** A face reads no other fact. */
const wetOrNot: readonly (Facts | undefined)[] = [allGood, { ...allGood, wet: false }, undefined];

/**
 * Events that reach a face of a plan, one or two at a time.
 * @param free windows move at any time; else each is put right before the start that reads it
 */
export function movesOfFace(plan: Plan, id: string, free: boolean): Move[] {
	const coats = plan.input.faces.find(face => face.id === id)?.coats.length ?? 0;
	const tie = { cup: ['A'] };
	const starts = (['start', 'part'] as const).flatMap(from =>
		Array.from({ length: coats + 2 }, (_, n) => n + 1).flatMap(coat =>
			wetOrNot.map(facts => startOfFace(id, coat, from, facts, tie)),
		),
	);
	const others: DayEvent[] = [
		...ofFace(plan, id),
		airRead,
		read('last-face', 'part', true, { faces: [id], face: id }),
		{ type: 'rework.done', face: 'another', step: 'clean' },
		{ type: 'break.began', kind: 'hold', by: 'painter' },
	];
	return [
		...others.map(event => [event]),
		...(free
			? [...standings.map(to => [moved(id, to)]), ...starts.map(start => [start])]
			: starts.flatMap(start => standings.map(to => [moved(id, to), start]))),
	];
}

/** A face alone, with its bookkeeping; `broken` is told of every start that breaks a rule. */
export function faceAlone(
	machines: Machines,
	plan: Plan,
	id: string,
	free: boolean,
	broken: (pair: FacePair, event: DayEvent, says: string) => void = () => {},
): Alone<FacePair> {
	const input = plan.input.faces.find(face => face.id === id);
	if (!input) throw new Error(`${plan.name} has no face ${id}`);
	const moves = movesOfFace(plan, id, free);
	const after = (pair: FacePair, event: DayEvent): FacePair | null => {
		if (isTooMany(plan, pair.told, event)) return null;
		const { next } = put(machines.face, pair.face, event);
		const isWet = event.facts?.wet === true;
		if (next === null || (event.type === 'face.started' && machines.faceStops(pair.face, isWet).length > 0)) {
			if (event.type === 'face.started' && wrongStart(input, pair.told, event).length === 0)
				broken(pair, event, `7: ${event.type} refused, with no rule against it`);
			return null;
		}
		if (event.type === 'face.started')
			for (const { property, says } of wrongStart(input, pair.told, event))
				broken(pair, event, `${property}: ${says}`);
		return { face: next, told: sprayedAfter(input, pair.told, event) };
	};
	return {
		start: { face: initialTransition(machines.face, input)[0], told: unsprayed(input) },
		events: moves.length,
		keyOf: pair => facePairKey(pair, free),
		next: (start, number) =>
			(moves[number] ?? []).reduce<FacePair | null>((pair, event) => pair && after(pair, event), start),
		seen: ({ face, told: { laid, coat, aside, overrides } }) =>
			JSON.stringify([face.value, face.context.laid, face.context.overrides, laid, coat, aside, overrides]),
	};
}

/** A batch alone, with its bookkeeping. */
export function batchAlone(
	machines: Machines,
	plan: Plan,
	material: string,
	broken: (pair: BatchPair, event: DayEvent, says: string) => void = () => {},
): Alone<BatchPair> {
	const order = plan.input.materials[material]?.order ?? [];
	const events: DayEvent[] = [
		...ofBatch('A', [], order),
		read('touch', 'tacky', true, { batch: 'A' }),
		passedOver('cup'),
		passedOver('marks'),
		passedOver('hardener'),
		{ type: 'break.began', kind: 'hold', by: 'painter' },
		{ type: 'cup.emptied', volume_mL: 0, why: 'flushed' },
	];
	return {
		start: {
			batch: initialTransition(machines.batch, { material, order })[0],
			told: newBatch(material, order),
		},
		events: events.length,
		keyOf: batchPairKey,
		next(pair, number) {
			const event = events[number] as DayEvent;
			const { next } = put(machines.batch, pair.batch, event);
			if (next === null) return null;
			for (const { property, says } of wrongMixing(pair.told, event))
				broken(pair, event, `${property}: ${says}`);
			return { batch: next, told: mixedAfter(pair.told, event) };
		},
		seen: ({ batch, told: { stage, unknown, adrift, open, inPot, passedOver: told } }) =>
			JSON.stringify([
				[batch.value, batch.context.passedOver, material],
				[stage, unknown, adrift, open, inPot, told],
			]),
	};
}

/** Nothing that a face or batch can come to alone; a day that comes there has not gone by their charts. */
export class OffItsChart extends Error {}

const groups = new WeakMap<object, readonly number[]>();
/** Faces of the same rules are one group: which of them is which, no rule asks. */
export function groupsOf({ input }: Plan): readonly number[] {
	const known = groups.get(input);
	if (known) return known;
	const mates = (part: string) => input.faces.filter(face => face.part === part);
	const rules = input.faces.map(({ coats, before, part }) =>
		JSON.stringify([coats, before, mates(part).length > 1 ? part : null]),
	);
	const found = rules.map(rule => rules.indexOf(rule));
	groups.set(input, found);
	return found;
}

/** Keys for the days of a plan. */
export function keysFor(
	machines: Machines,
	plan: Plan,
): (machine: DayMachineState, shadow: Shadow) => string {
	const free = windowsMoveFreely(plan);
	const faces = plan.input.faces.map(({ id }) => classesOf(faceAlone(machines, plan, id, free)));
	const batches = Object.fromEntries(
		Object.keys(plan.input.materials).map(id => [id, classesOf(batchAlone(machines, plan, id))]),
	);
	/** Parts are made anew only when they change: their class is looked up once. */
	const looked = new WeakMap<object, WeakMap<object, number>>();
	const alike = groupsOf(plan);
	/** Classes of faces, those of a group sorted; the face that is asked about bears a mark. */
	const facesKey = (classes: readonly number[], asked: number): string => {
		const marked = classes.map((one, index) => `${one}${index === asked ? '*' : ''}`);
		return alike
			.flatMap((group, index) =>
				group === index
					? [
							marked
								.filter((_, other) => alike[other] === group)
								.sort()
								.join('~'),
						]
					: [],
			)
			.join();
	};
	const classOf = (
		classes: Map<string, number> | undefined,
		part: object,
		shadow: object,
		key: () => string,
		what: string,
	) => {
		const byShadow = looked.get(part) ?? new WeakMap<object, number>();
		const known = byShadow.get(shadow);
		if (known !== undefined) return known;
		const found = classes?.get(key());
		if (found === undefined)
			throw new OffItsChart(`${what} stands where its own chart does not lead: ${key()}`);
		looked.set(part, byShadow.set(shadow, found));
		return found;
	};
	const short = (part: object | null) => (part === null ? '-' : textOf(part, same => same));
	const list = (names: readonly string[]) => [...new Set(names)].sort().join('+');
	return ({ value, context }, shadow) => {
		const faceClasses = context.faces.map((face, index) => {
			const { id } = face.context.rules;
			const pair = { face, told: shadow.faces[id] as SprayedFace };
			return classOf(faces[index], face, pair.told, () => facePairKey(pair, free), id);
		});
		/** Nothing leads out of the day's end, and no rule asks what it left in pot, cup and gun. */
		if (value === 'closed') return `closed ${facesKey(faceClasses, -1)}`;
		const { asked } = shadow;
		const facesNow = facesKey(
			faceClasses,
			context.faces.findIndex(face => face.context.rules.id === asked?.face),
		);
		const batchClasses = Object.entries(context.batches).map(([letter, batch]) => {
			const { material } = batch.context;
			const pair = { batch, told: shadow.batches[letter] as MixedBatch };
			const inCup = `${context.cup.includes(letter) ? 'c' : ''}${shadow.cup.includes(letter) ? 's' : ''}`;
			const id = classOf(batches[material], batch, pair.told, () => batchPairKey(pair), letter);
			return `${material}${id}${inCup}`;
		});
		const { check, checked, gun, listsDone, list: open, late, passedOver } = context;
		/** What a check was of, once it is over, is read by nothing until the next begins. */
		const machineGun = [
			check && [textOf(check, ({ value: at, context: of }) => [at, of]), short(checked), open].join(),
			textOf(gun, ({ value: at, context: of }) => [at, of]),
			list(listsDone),
			list(passedOver),
			late,
		];
		const shadowGun = [
			short(shadow.known),
			shadow.owed,
			asked && textOf(asked, ({ face, ...more }) => [face !== null, more]),
			shadow.late,
			list(shadow.lists),
			list(shadow.passedOver),
		];
		return `${value} ${facesNow} ${batchClasses.sort().join()} ${machineGun.join()} ${shadowGun.join()}`;
	};
}
