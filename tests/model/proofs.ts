import type { CoatRule, FaceInput } from '../../machines/face.ts';
import type { MixStep } from '../../src/job/job.ts';
import { batchWalk, checkWalk, faceWalk, sevenItems } from './alone.ts';
import type { Machines } from './machines.ts';
import { lid, type Plan, threeCollapsed, threeFaces, twoBatches, twoByTwo, variations } from './plans.ts';
import type { Broken, Property } from './properties.ts';
import { canReach } from './search.ts';
import { stopsWalk } from './stops-alone.ts';
import { type Judged, walkDay } from './walk-day.ts';

/** Everything that is walked, and what each property says. */

export const properties: Readonly<Record<Property, string>> = {
	1: 'after a break or wait, no spraying before a new passed full check',
	2: 'no spraying before a reading that fits the face',
	3: 'no coat but in its recoat window, with the work that it asks for, or under a reason',
	4: 'what is known of the gun ends by every cause',
	5: 'hold is taken in every state but closed',
	6: 'no edge from hold or wait to ready or spraying',
	7: 'no trap: a way on, to every coat left, and to the end of the day',
	8: 'restarted anywhere, the day is in hold or closed',
	9: 'one event, at most one transition',
	11: 'an open item keeps the check open; a reason is its own event, and marks',
	13: 'no spraying from a cup without hardener read, stood, alive',
	14: 'no coat more than planned, none on a part set aside',
	15: 'every face is tied to its check, batches and air reading',
	16: 'every step of the sheet in its place, as often as it stands there, or under a reason',
	17: 'what is done to a part set aside changes nothing on a face of it that has no fault',
};

export const orders: MixStep[][] = [
	['base', 'hardener'],
	['base', 'hardener', 'reducer'],
	['stir', 'base', 'hardener', 'reducer', 'strain', 'cup'],
	['stir', 'base', 'hardener', 'stand', 'reducer', 'strain', 'cup'],
	['stir', 'base', 'hardener', 'reducer', 'stand', 'strain', 'cup'],
	['hardener', 'base', 'stand'],
	['stir', 'base', 'reducer', 'hardener', 'stand', 'cup'],
	['base', 'hardener', 'stir', 'strain'],
	['stir', 'base', 'hardener', 'stir', 'reducer', 'stir', 'stand', 'stir', 'strain', 'cup'],
	['stir', 'base', 'stir', 'hardener', 'stir', 'stand', 'stir', 'reducer', 'stir'],
	['stir', 'base', 'flattener', 'hardener', 'reducer', 'accelerator', 'stir', 'strain'],
];

const coat = lid.coats[0];
if (!coat) throw new Error('a lid is coated');

const alone = (coats: CoatRule[], before?: FaceInput['before']): FaceInput => ({
	id: 'lid',
	part: 'lid',
	coats,
	...(before && { before }),
});

/** Faces, and the rules that are passed over on them; the quickest walk first. */
export const facesAlone: readonly [face: FaceInput, rules: readonly string[]][] = [
	[alone([coat, { ...coat, prep: ['tack', 'sand'] }], { laid: 1, done: [], aside: true }), []],
	[alone([coat, { ...coat, prep: ['tack', 'sand'] }], { laid: 1, done: [], aside: true, beside: false }), []],
	[alone([coat, { ...coat, prep: ['wipe', 'tack'] }]), []],
	[alone([coat, { ...coat, prep: ['wipe'] }], { laid: 1, done: [], aside: true }), ['window']],
	[alone([coat, { ...coat, prep: ['sand', 'tack', 'sand'] }]), []],
	[alone([coat, coat], { laid: 1, done: [{ step: 'sand' }], aside: false }), ['coats']],
	[alone([{ ...coat, prep: ['tack'], cleaned: ['wipe', 'tack'] }]), []],
	[{ ...alone([coat], { laid: 1, done: [], aside: false }), finishing: ['sand', 'tack'] }, ['prep']],
	[alone([coat, { ...coat, prep: ['sand', 'tack'], cleaned: ['wipe', 'tack'] }]), []],
	[
		alone([coat, { ...coat, cleaned: ['tack'] }], {
			laid: 1,
			done: [{ step: 'sand', place: null }],
			aside: false,
		}),
		['prep'],
	],
	[alone([coat, { ...coat, prep: ['sand'] }], { laid: 1, done: [], aside: false, beside: true }), ['prep']],
	[
		alone([
			{ ...coat, prep: ['tack'] },
			{ ...coat, prep: ['scuff', 'tack'], touch: true },
		]),
		['window'],
	],
	[alone([coat, { ...coat, prep: ['sand'] }]), ['prep']],
	[alone([coat, { ...coat, touch: true }]), ['air', 'touch']],
	[alone([{ ...coat, prep: ['tack'] }], { laid: 1, done: [], aside: false }), ['prep', 'coats']],
	[alone([coat, { ...coat, prep: ['scuff'] }]), ['prep']],
];

/** Data sheets that forget a component: no batch of theirs is ever ready. */
export const thinOrders: MixStep[][] = [
	['base', 'stand'],
	['hardener', 'strain'],
];

export type Size = { states: number; transitions: number; refused: number; seconds: number };
export type Verdict = Size & { judged: Judged; found: (Broken & { way: readonly string[] })[] };
export type Proof = {
	name: string;
	how: string;
	/** With `stopAtFirst`, no further than the first thing found. */
	run(machines: Machines, stopAtFirst?: boolean): Verdict;
};

const nothing: Verdict = { states: 0, transitions: 0, refused: 0, seconds: 0, judged: {}, found: [] };

/** One walk after the other; the first thing found may be enough. */
function all<Input>(
	inputs: readonly Input[],
	stopAtFirst: boolean,
	run: (input: Input, sum: Verdict) => Verdict,
): Verdict {
	let sum = nothing;
	for (const input of inputs) {
		if (stopAtFirst && sum.found.length > 0) break;
		sum = run(input, sum);
	}
	return sum;
}

/** @param judges the properties that each event put to a chart alone is a case of */
const add = (sum: Verdict, graph: Size, found: Broken[], judges: readonly Property[] = []): Verdict => ({
	states: sum.states + graph.states,
	transitions: sum.transitions + graph.transitions,
	refused: sum.refused + graph.refused,
	seconds: sum.seconds + graph.seconds,
	judged: {
		...sum.judged,
		...Object.fromEntries(
			judges.map(one => [one, (sum.judged[one] ?? 0) + graph.transitions + graph.refused]),
		),
	},
	found: [...sum.found, ...found.map(one => ({ ...one, way: [] }))],
});

const checkProof: Proof = {
	name: 'gun check',
	how: 'alone, seven items, all that can be keyed',
	run: machines =>
		([true, false] as const)
			.flatMap(isocyanate => (['tall', 'wide'] as const).map(pattern => ({ isocyanate, pattern })))
			.reduce((sum, input) => {
				const { graph, broken } = checkWalk({ ...input, items: sevenItems }, machines);
				return add(sum, graph, broken.slice(0, 3), [9, 11]);
			}, nothing),
};

const batchProof: Proof = {
	name: 'batch',
	how: `alone, ${orders.length} orders of mixing, all that can be told of it`,
	run: (machines, stopAtFirst = false) =>
		all([...orders, ...thinOrders], stopAtFirst, (order, sum) => {
			const { graph, broken, inCup, states } = batchWalk(order, machines);
			const toCup = canReach(graph, inCup);
			const stuck = states.some(
				({ told: { unknown, stage } }, index) => !unknown && stage !== 'discarded' && toCup[index] === 0,
			);
			const unread = states.some(
				({ batch, told: { unknown } }) => unknown && !batch.matches('doomed') && !batch.matches('discarded'),
			);
			const found: Broken[] = [...new Set(broken)].slice(0, 3).map(says => ({ property: 13, says }));
			if (stuck && !thinOrders.includes(order))
				found.push({ property: 7, says: 'a batch that is known in all its parts never comes to the cup' });
			if (unread) found.push({ property: 13, says: 'a batch of unknown contents goes on' });
			return add(sum, graph, found, [13]);
		}),
};

type Alone = (typeof facesAlone)[number];
function addFace([face, rules]: Alone, machines: Machines, stopAtFirst: boolean, sum = nothing): Verdict {
	const { graph, broken, states, laying } = faceWalk(face, rules, machines, stopAtFirst);
	const found = [...new Set(broken)].slice(0, 3).map(
		(says): Broken => ({
			property: Number.parseInt(says, 10) as Property,
			says,
		}),
	);
	if (!graph.whole) return add(sum, graph, found, [3, 14, 16]);
	const finishes = canReach(graph, laying);
	if (states.some((_, at) => finishes[at] === 0))
		found.push({ property: 7, says: 'a coat that is left is never laid' });
	const miscounts = states.some(
		({ face: { context, value }, told }) =>
			context.laid !== told.laid ||
			(value === 'aside') !== (told.aside && !told.sound) ||
			(value === 'beside') !== told.sound ||
			(value === 'spraying') !== (told.coat === 'under way') ||
			(value === 'broken') !== (told.coat === 'broken off'),
	);
	if (miscounts) found.push({ property: 14, says: 'the chart counts otherwise than the records tell' });
	return add(sum, graph, found, [3, 14, 16]);
}

const faceProof: Proof = {
	name: 'face',
	how: `alone, ${facesAlone.length} plans of coats, all that can be told of it`,
	run: (machines, stopAtFirst = false) =>
		all(facesAlone, stopAtFirst, (alone, sum) => addFace(alone, machines, stopAtFirst, sum)),
};
/** Each of its plans by itself, as a mutant is put through them. */
const eachFace = facesAlone.map(
	(alone): Proof => ({
		...faceProof,
		run: (machines, stopAtFirst = false) => addFace(alone, machines, stopAtFirst),
	}),
);

const stopsProof: Proof = {
	name: 'stops',
	how: 'of each state of a face alone, whatever day, cup and gun are',
	run(machines) {
		const { states, asked, broken } = stopsWalk(machines);
		return add(nothing, { states, transitions: asked, refused: 0, seconds: 0 }, broken.slice(0, 3), [7]);
	},
};

/** @param ladder asks in every state, too, what stands before each face and what puts it right */
const dayProof = (plan: Plan, ladder: boolean): Proof => ({
	name: plan.name,
	how: plan.vary.has('collapsed') ? 'whole day, check and mixing collapsed' : 'whole day',
	run(machines, stopAtFirst = false) {
		const { graph, found, judged } = walkDay(plan, { machines, stopAtFirst, ladder });
		return { ...add(nothing, graph, []), judged, found };
	},
});

export const aloneProofs = [checkProof, batchProof, faceProof, stopsProof];
/** What walks a file's own chart. */
export const ownProofs: Readonly<Record<string, readonly Proof[]>> = {
	'gun-check.ts': [checkProof],
	'batch.ts': [batchProof],
	'face.ts': eachFace,
	'window.ts': eachFace,
	'stops.ts': [stopsProof],
};
export const smallDays: readonly Proof[] = [...variations, twoByTwo].map(plan => dayProof(plan, true));
export const largeDays: readonly Proof[] = [threeCollapsed, twoBatches, threeFaces].map(plan =>
	dayProof(plan, false),
);
