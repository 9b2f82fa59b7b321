import { initialTransition } from 'xstate';
import type { DayEvent } from '../../src/day/records.ts';
import { alphabetOf, isTooMany, type Move } from './alphabet.ts';
import { atStake } from './at-stake.ts';
import { groupsOf, keysFor, OffItsChart } from './day-key.ts';
import { ladderAt } from './ladder.ts';
import { type DayMachineState, type Machines, put } from './machines.ts';
import type { Plan } from './plans.ts';
import { type Broken, brokenBy, type Property } from './properties.ts';
import { canReach, type Graph, type Next, walk } from './search.ts';
import { type Shadow, shadowAfter, startOf } from './shadow.ts';
import { refusedWithoutRule } from './wanted.ts';

/** A whole day walked: the machine and the bookkeeping side by side, every property on every edge. */

export type DayPair = { machine: DayMachineState; shadow: Shadow; key?: string };
export type Found = Broken & { way: readonly string[] };
/** How often each property was put to the test. */
export type Judged = Partial<Record<Property, number>>;
export type DayWalk = {
	plan: Plan;
	graph: Graph<Move>;
	found: Found[];
	states: Record<string, number>;
	judged: Judged;
};

/** An edge that a break made, and from here on a bit for each group of like faces of which it lays a coat. */
const byBreak = 1;
const lays = (face: number) => 2 << face;

/** What is done with is forgotten: a discarded batch, whose letter no chart looks at again. */
function tidy({ vary }: Plan, { machine, shadow }: DayPair): DayPair {
	if (vary.has('discarded')) return { machine, shadow };
	const gone = Object.entries(machine.context.batches)
		.filter(([letter, batch]) => batch.matches('discarded') && !machine.context.cup.includes(letter))
		.map(([letter]) => letter)
		.filter(letter => shadow.batches[letter]?.stage === 'discarded' && !shadow.cup.includes(letter));
	if (gone.length === 0) return { machine, shadow };
	const left = <Thing>(batches: Readonly<Record<string, Thing>>) =>
		Object.fromEntries(Object.entries(batches).filter(([letter]) => !gone.includes(letter)));
	return {
		machine: { ...machine, context: { ...machine.context, batches: left(machine.context.batches) } },
		shadow: { ...shadow, batches: left(shadow.batches) },
	};
}

export const told = (event: DayEvent): string => {
	const { type, ...more } = event;
	const words = Object.values(more).filter(value => typeof value === 'string' || typeof value === 'boolean');
	return `${type}${words.length > 0 ? ` (${words.join(', ')})` : ''}`;
};
export const wayOf = (moves: readonly Move[]): string[] => moves.flatMap(move => move.map(told));

/** A judge that goes along with one step at a time. */
function stepper(machines: Machines, plan: Plan, judged: Judged, broken: (one: Broken) => void) {
	const groups = groupsOf(plan);
	const one = ({ machine, shadow }: DayPair, event: DayEvent): DayPair | null => {
		if (event.type === 'override.given' && isTooMany(plan, shadow.faces[event.face ?? ''], event))
			return null;
		const { next, taken } = put(machines.day, machine, event);
		for (const property of atStake(event, String(machine.value)))
			judged[property] = (judged[property] ?? 0) + 1;
		if (taken > 1) broken({ property: 9, says: `${event.type} takes ${taken} transitions` });
		if (next === null) {
			if (refusedWithoutRule({ plan, before: machine, was: shadow, event }))
				broken({ property: 7, says: `${told(event)} refused in ${machine.value}, with no rule against it` });
			if (event.type !== 'break.began' || machine.value === 'closed') return null;
			broken({ property: 5, says: `no hold from ${machine.value}` });
			if (event.kind === 'restart') broken({ property: 8, says: `no restart from ${machine.value}` });
			return null;
		}
		const is = shadowAfter(plan, shadow, event);
		for (const found of brokenBy({ plan, before: machine, was: shadow, event, after: next, is }))
			broken(found);
		return { machine: next, shadow: is };
	};
	return (start: DayPair, move: Move): Next<DayPair> | null => {
		let pair = start;
		let marks = 0;
		for (const event of move) {
			const next = one(pair, event);
			if (next === null) return null;
			pair = next;
			if (event.type === 'break.began') marks |= byBreak;
			if (event.type === 'face.ended' && event.extent === 'all')
				marks |= lays(groups[plan.input.faces.findIndex(({ id }) => id === event.face)] ?? 0);
		}
		return { state: tidy(plan, pair), marks };
	};
}

/**
 * States that nothing leads out of: to the end of the day, and to each coat that is left (7). Where faces are alike,
 * some coat of theirs can be laid as long as one is left; and so, one after the other, all.
 */
function traps(plan: Plan, graph: Graph<Move>, closed: number[], wants: number[]): Found[] {
	const found: Found[] = [];
	const says = (index: number, text: string) => {
		found.push({ property: 7, says: text, way: wayOf(graph.wayTo(index)) });
	};
	const closes = canReach(graph, closed);
	const stuck = closes.indexOf(0);
	if (stuck >= 0) says(stuck, 'no way to close the day');
	const groups = groupsOf(plan);
	plan.input.faces.forEach(({ id }, face) => {
		if (groups[face] !== face) return;
		const starts: number[] = [];
		for (let edge = 0; edge < graph.from.length; edge++)
			if (((graph.marks[edge] ?? 0) & lays(face)) > 0) starts.push(graph.from[edge] ?? 0);
		const reached = canReach(graph, starts);
		const stands = wants.findIndex((faces, index) => (faces & lays(face)) > 0 && reached[index] === 0);
		if (stands >= 0) says(stands, `no way to the next coat of ${id}`);
	});
	return found;
}

/** Faces that want a coat: planned, or one more where a reason is offered for it, and not aside unless its own line is walked too. */
function wantsOf(plan: Plan, { shadow, machine }: DayPair): number {
	const { input, vary, rules } = plan;
	const groups = groupsOf(plan);
	if (machine.value === 'closed') return 0;
	const { letters } = plan;
	/** Every letter of a plan that keeps them is used up: there is no paint for another coat. */
	const isGone = (letter: string) =>
		shadow.batches[letter]?.stage === 'discarded' || shadow.batches[letter]?.unknown === true;
	if (vary.has('discarded') && letters.every(isGone)) return 0;
	return input.faces.reduce((sum, { id, coats }, index) => {
		const face = shadow.faces[id];
		const planned = coats.length + (rules.includes('coats') ? 1 : 0);
		const left = face !== undefined && face.laid < planned && (!face.aside || vary.has('rework'));
		return left ? sum | lays(groups[index] ?? index) : sum;
	}, 0);
}

/** Whether a chart lists a type of event in a state, or for all of them; any other is refused before a guard is asked. */
export function listedIn({ day }: Machines): (value: string, type: DayEvent['type']) => boolean {
	const everywhere = new Set(day.root.transitions.keys());
	const here = Object.fromEntries(
		Object.entries(day.root.states).map(([value, node]) => [value, new Set([...node.transitions.keys()])]),
	);
	return (value, type) => everywhere.has(type) || here[value]?.has(type) === true;
}

export type Options = {
	machines: Machines;
	stopAtFirst?: boolean;
	/** Ask in every state what stands before each face, and what puts it right. */
	ladder?: boolean;
	/** Put every type of event in every state, listed there or not. */
	unlistedToo?: boolean;
};

/** Every day that a plan can come to, with what was found wrong (the first of each property, or the very first). */
export function walkDay(
	plan: Plan,
	{ machines, stopAtFirst = false, ladder = false, unlistedToo = false }: Options,
): DayWalk {
	const found: Found[] = [];
	const states: Record<string, number> = {};
	const closed: number[] = [];
	const wants: number[] = [];
	let fresh: Broken[] = [];
	const keyOf = keysFor(machines, plan);
	const moves = alphabetOf(plan, unlistedToo ? () => true : listedIn(machines));
	const judged: Judged = {};
	let unmended: { index: number; says: string } | null = null;
	const step = stepper(machines, plan, judged, one => fresh.push(one));
	const heard = new Set<string>();
	const ways: { index: number; move: Move; broken: Broken[] }[] = [];
	const graph = walk<DayPair, Move>({
		start: { machine: initialTransition(machines.day, plan.input)[0], shadow: startOf(plan) },
		moves: ({ machine, shadow }) => moves(String(machine.value), shadow),
		step(pair, move) {
			try {
				const next = step(pair, move);
				if (next) next.state.key = keyOf(next.state.machine, next.state.shadow);
				/** What follows on a broken property is not looked at. */
				return fresh.length > 0 ? null : next;
			} catch (error) {
				if (!(error instanceof OffItsChart)) throw error;
				fresh.push({ property: 14, says: error.message });
				return null;
			}
		},
		keyOf: ({ machine, shadow, key }) => key ?? keyOf(machine, shadow),
		visit(pair, index) {
			const { value } = pair.machine;
			states[String(value)] = (states[String(value)] ?? 0) + 1;
			if (value === 'closed') closed.push(index);
			wants.push(wantsOf(plan, pair));
			if (ladder && !unmended) {
				const { asked, says } = ladderAt(machines, plan, pair.machine);
				judged[7] = (judged[7] ?? 0) + asked;
				if (says[0]) unmended = { index, says: says[0] };
			}
			return !(unmended && stopAtFirst);
		},
		observe(_, move, __, index) {
			if (fresh.length === 0) return true;
			if (fresh.some(one => !heard.has(one.says))) ways.push({ index, move, broken: fresh });
			for (const { says } of fresh) heard.add(says);
			fresh = [];
			return !stopAtFirst && ways.length < 40;
		},
	});
	for (const { index, move, broken } of ways)
		for (const one of broken) {
			if (found.some(({ property, says }) => property === one.property && says === one.says)) continue;
			found.push({ ...one, way: wayOf([...graph.wayTo(index), move]) });
		}
	if (unmended) {
		const { index, says } = unmended as { index: number; says: string };
		found.push({ property: 7, says, way: wayOf(graph.wayTo(index)) });
	}
	if (graph.whole) found.push(...traps(plan, graph, closed, wants));
	return { plan, graph, found, states, judged };
}
