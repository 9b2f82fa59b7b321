import { initialTransition } from 'xstate';
import type { FaceInput } from '../../machines/face.ts';
import type { CheckInput } from '../../machines/gun-check.ts';
import type { DayEvent } from '../../src/day/records.ts';
import type { MixStep } from '../../src/job/job.ts';
import { answered, passedOver, read } from './alphabet.ts';
import { most, WithoutEnd } from './classes.ts';
import { type BatchPair, batchAlone, type FacePair, faceAlone } from './day-key.ts';
import { asTheyAre, type Machines, put } from './machines.ts';
import { type Plan, twoByTwo } from './plans.ts';
import type { Broken } from './properties.ts';
import { walk } from './search.ts';
import { closesItem } from './shadow.ts';
import { told } from './walk-day.ts';

/** One check, one batch, one face, each walked alone under everything that can be told of it. */

export function batchWalk(order: readonly MixStep[], machines = asTheyAre) {
	const broken: string[] = [];
	const plan = {
		...twoByTwo,
		input: { ...twoByTwo.input, materials: { mixed: { isocyanate: true, order } } },
	};
	const alone = batchAlone(machines, plan, 'mixed', (_, event, says) =>
		broken.push(`${event.type}: ${says}`),
	);
	const inCup: number[] = [];
	const done: number[] = [];
	const states: BatchPair[] = [];
	const graph = walk({
		start: alone.start,
		moves: () => Array.from({ length: alone.events }, (_, number) => number),
		step(pair, number) {
			const before = broken.length;
			const state = alone.next(pair, number);
			/** What follows on a broken property is not looked at. */
			return state && broken.length === before ? { state, marks: 0 } : null;
		},
		keyOf: alone.keyOf,
		visit(pair, index) {
			if (index > most) throw new WithoutEnd(`more than ${most} states`);
			states.push(pair);
			if (pair.batch.matches('inCup')) inCup.push(index);
			if (pair.batch.matches('discarded')) done.push(index);
			return true;
		},
	});
	return { graph, broken, inCup, done, states };
}

/** What a window asks for comes before the wiping and tacking that are left, and behind all else: nothing is done in vain. */
function inVain(
	{ faceStops }: Machines,
	{ face, told: { coat, aside, sound, window, passedOver, stages, left } }: FacePair,
) {
	const isOpen = coat === 'none' && !aside && !sound;
	const isAsked = window === 'sand' || (window === 'scuff' && !stages.includes('scuff'));
	if (!isOpen || !isAsked || passedOver.includes(window) || stages.includes('sand')) return null;
	const cleans = left.every(({ step }) => step === 'wipe' || step === 'tack');
	const [next] = faceStops(face, false).filter(({ by }) => by !== 'coats');
	if ((next?.by === 'window') === cleans) return null;
	return `16: ${next?.by ?? 'nothing'} is asked ${cleans ? 'before' : 'behind'} what is to come first`;
}

/** The list in its order, the one behind the last coat too; before a coat the dust of what is in no list is wiped off before the list is tacked, and tacked off behind it. */
function outOfOrder(
	{ faceStops }: Machines,
	{ face, told: { coat, aside, sound, laid, left, dust, overrides } }: FacePair,
) {
	const isComing = laid < face.context.rules.coats.length || overrides.includes('coats');
	const [next] = faceStops(face, false).flatMap(stop =>
		stop.by === 'prep' || stop.by === 'tack' ? [stop] : [],
	);
	if (!next || coat !== 'none' || aside || sound) return null;
	const [first] = left;
	const isDusty = isComing && dust.includes('wipe') && (!first || first.step === 'tack');
	const wanted = isDusty ? 'wipe of no list' : first ? `${first.step} ${first.place}` : 'tack of no list';
	const is = next.place === null ? `${next.step} of no list` : `${next.step} ${next.place}`;
	if (is !== wanted) return `16: ${is} is asked where ${wanted} comes next`;
	/** Tacking that nothing but the coat follows is told from all other work. */
	const isLast = !isDusty && left.length < 2 && next.step === 'tack';
	return isLast === (next.by === 'tack') ? null : `16: ${is} is asked as ${next.by}`;
}

/** @param stopAtFirst no further than the first thing that is broken */
export function faceWalk(
	face: FaceInput,
	rules: readonly string[],
	machines = asTheyAre,
	stopAtFirst = false,
) {
	const plan: Plan = {
		...twoByTwo,
		input: { ...twoByTwo.input, faces: [face] },
		vary: new Set(['rework', 'touch', 'prep']),
		rules,
	};
	const broken: string[] = [];
	const alone = faceAlone(machines, plan, face.id, true, (_, __, says) => broken.push(says));
	const states: FacePair[] = [];
	const laying: number[] = [];
	const graph = walk({
		start: alone.start,
		moves: () => Array.from({ length: alone.events }, (_, number) => number),
		step(pair, number) {
			const before = broken.length;
			const state = alone.next(pair, number);
			/** What follows on a broken property is not looked at. */
			return state && broken.length === before ? { state, marks: 0 } : null;
		},
		keyOf: alone.keyOf,
		visit(pair, index) {
			if (index > most) throw new WithoutEnd(`more than ${most} states`);
			states.push(pair);
			for (const says of [inVain(machines, pair), outOfOrder(machines, pair)]) if (says) broken.push(says);
			if (pair.face.context.laid >= face.coats.length) laying.push(index);
			return !stopAtFirst || broken.length === 0;
		},
	});
	return { graph, broken, states, laying };
}

export const sevenItems = ['mask', 'extractor', 'batch', 'gauge', 'horns', 'pattern-height', 'pattern'];
const features = ['batch', 'gauge', 'horns', 'pattern-height', 'flooded', 'card', 'touch', 'can'] as const;

const keyed: readonly DayEvent[] = [
	...['supplied-air', 'filter-mask', 'none'].flatMap(kind =>
		[true, false].map(matched => read('breathing', kind, matched)),
	),
	...['tall', 'wide', 'round', 'bad'].flatMap(shape =>
		[true, false].map(matched => read('pattern', shape, matched)),
	),
	...features.flatMap(feature => [true, false].map(matched => read(feature, 'level', matched))),
	...[...sevenItems, 'card', 'air'].flatMap(item => [
		answered(item),
		answered(item, false),
		passedOver(item),
	]),
	{ type: 'break.began', kind: 'hold', by: 'painter' },
	{ type: 'gun.set', horns: 'level', pressure_kPa: null, fanHeight_mm: null, fluid: null },
	{ type: 'air.read', airC: 0, humidity: 0, surfaceC: 0, dewPointC: 0, spray: true, reasons: [] },
];

export function checkWalk(input: CheckInput, machines = asTheyAre) {
	const closed: { item: string; by: DayEvent }[] = [];
	const start = initialTransition(machines.gunCheck, input)[0];
	const broken: Broken[] = [];
	let passed = 0;
	const graph = walk({
		start,
		moves: () => keyed,
		step(state, event) {
			const { next, taken } = put(machines.gunCheck, state, event);
			const item = input.items[state.context.at];
			const may = closesItem(item, event, { ...input, pattern: input.pattern ?? undefined });
			if (taken > 1) broken.push({ property: 9, says: `${event.type} takes ${taken} transitions` });
			if (may !== (next !== null))
				broken.push({
					property: 11,
					says: `${told(event)} ${may ? 'leaves' : 'closes'} ${item ?? 'nothing'}`,
				});
			if (next === null) return null;
			closed.push({ item: item ?? 'nothing', by: event });
			if (next.context.at !== state.context.at + 1)
				broken.push({
					property: 11,
					says: `${told(event)} goes from item ${state.context.at} to ${next.context.at}`,
				});
			return { state: next, marks: 0 };
		},
		keyOf: ({ value, context: { at } }) => `${value} ${at}`,
		visit(state) {
			if (state.matches('passed')) passed++;
			const isDone = input.items.length > 0 && state.context.at === input.items.length;
			if (state.matches('passed') !== isDone)
				broken.push({ property: 11, says: `${state.value} with ${state.context.at} items closed` });
			return state.context.at <= input.items.length;
		},
	});
	return { graph, closed, passed, broken };
}
