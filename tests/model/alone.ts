import type { FaceInput } from '../../machines/face.ts';
import type { MixStep } from '../../src/job/job.ts';
import { type BatchPair, batchAlone, type FacePair, faceAlone } from './day-key.ts';
import { asTheyAre } from './machines.ts';
import { type Plan, twoByTwo } from './plans.ts';
import { walk } from './search.ts';

/** One batch, one face, each walked alone under everything that can be told of it. */

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
			const state = alone.next(pair, number);
			return state && { state, marks: 0 };
		},
		keyOf: alone.keyOf,
		visit(pair, index) {
			states.push(pair);
			if (pair.batch.matches('inCup')) inCup.push(index);
			if (pair.batch.matches('discarded')) done.push(index);
			return true;
		},
	});
	return { graph, broken, inCup, done, states };
}

export function faceWalk(face: FaceInput, passedOver: readonly string[], machines = asTheyAre) {
	const plan: Plan = {
		...twoByTwo,
		input: { ...twoByTwo.input, faces: [face] },
		vary: new Set(['rework', 'touch', 'prep']),
		rules: passedOver,
	};
	const broken: string[] = [];
	const alone = faceAlone(machines, plan, face.id, (_, __, says) => broken.push(says));
	const states: FacePair[] = [];
	const laying: number[] = [];
	const graph = walk({
		start: alone.start,
		moves: () => Array.from({ length: alone.events }, (_, number) => number),
		step(pair, number) {
			const state = alone.next(pair, number);
			return state && { state, marks: 0 };
		},
		keyOf: alone.keyOf,
		visit(pair, index) {
			states.push(pair);
			if (pair.face.context.laid >= face.coats.length) laying.push(index);
			return true;
		},
	});
	return { graph, broken, states, laying };
}
