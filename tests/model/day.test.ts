import { expect, test } from 'vitest';
import { initialTransition } from 'xstate';
import type { DayEvent } from '../../src/day/records.ts';
import { alphabetOf, factsAll, type Move, moved, standings, startOfFace } from './alphabet.ts';
import { asTheyAre, put } from './machines.ts';
import { allGood, type Plan, twoBatches, variations } from './plans.ts';
import { overridesOf } from './properties.ts';
import { shadowAfter, startOf } from './shadow.ts';
import { type DayPair, type DayWalk, walkDay } from './walk-day.ts';

/**
 * The whole day, every reachable state under every event, with properties 1–9, 11 and 13–17 on every edge.
 *
 * What is left out here cannot matter. The charts read no clock. Faces, batches and the check are walked alone with
 * all their real values; a day moves them by their own charts and by nothing else, which each edge holds it to. Of
 * the parts of a day, each is varied while the others stand still: no guard of the day reads two of them together
 * but those that the walks of two faces and two batches hold. Larger days are walked by `npm run prove`.
 */

const named = (name: string): Plan => {
	const plan = variations.find(one => one.name === name);
	if (!plan) throw new Error(`no plan ${name}`);
	return plan;
};
const book = named('records that only the book reads');

const complaints = ({ found }: DayWalk) =>
	found.map(({ property, says, way }) => `${property}: ${says} — ${way.join(' › ')}`);

test('two faces, two coats, two batches, whole: no edge breaks a property, and no state is a trap', () => {
	const day = walkDay(twoBatches, { machines: asTheyAre });
	expect(complaints(day)).toEqual([]);
	expect(day.graph.whole).toBe(true);
	expect(Object.keys(day.states).sort()).toEqual(
		['bench', 'check', 'closed', 'hold', 'list', 'mix', 'ready', 'spraying', 'wait'].sort(),
	);
}, 300_000);

test.each(variations.filter(({ name }) => /stretch|earlier days|work on the face|reason|sound/.test(name)))(
	'$name: no edge breaks a property, and no state is a trap: what stands before a face has what puts it right',
	plan => {
		const day = walkDay(plan, { machines: asTheyAre, ladder: true });
		expect(complaints(day)).toEqual([]);
		expect(day.judged[7]).toBeGreaterThan(day.graph.states);
	},
	300_000,
);

test('what a chart does not list it refuses, so that such events need not be put: a day walked with and without them is one', () => {
	const all = walkDay(book, { machines: asTheyAre, unlistedToo: true });
	const listed = walkDay(book, { machines: asTheyAre });
	expect(complaints(all)).toEqual([]);
	expect(all.graph.states).toBe(listed.graph.states);
	expect(all.graph.transitions).toBe(listed.graph.transitions);
	expect(all.graph.refused).toBeGreaterThan(listed.graph.refused);
});

/** Days that were led to some place by moves that serve. */
function ledTo(plan: Plan, wanted: (pair: DayPair) => boolean, most: number): DayPair[] {
	const moves = alphabetOf(plan, () => true);
	const start = { machine: initialTransition(asTheyAre.day, plan.input)[0], shadow: startOf(plan) };
	const seen = new Set<string>();
	const found: DayPair[] = [];
	const queue: DayPair[] = [start];
	const put1 = ({ machine, shadow }: DayPair, event: DayEvent): DayPair | null => {
		const { next } = put(asTheyAre.day, machine, event);
		return next && { machine: next, shadow: shadowAfter(plan, shadow, event) };
	};
	const go = (pair: DayPair, move: Move) =>
		move.reduce<DayPair | null>((at, event) => at && put1(at, event), pair);
	for (let pair = queue.shift(); pair && found.length < most; pair = queue.shift()) {
		const key = JSON.stringify([pair.machine.value, pair.shadow]);
		if (seen.has(key)) continue;
		seen.add(key);
		if (wanted(pair)) found.push(pair);
		for (const move of moves(String(pair.machine.value), pair.shadow)) {
			const next = go(pair, move);
			if (next) queue.push(next);
		}
	}
	return found;
}

test('the facts of a start count each for itself, so that one bad fact at a time tells all: every combination', () => {
	const plan = named('passed over with a reason: air');
	const ready = ledTo(plan, ({ machine }) => machine.value === 'ready', 3);
	expect(ready.length).toBe(3);
	let accepted = 0;
	for (const { machine, shadow } of ready)
		for (const from of ['start', 'part'] as const) {
			const coat = (shadow.faces.lid?.laid ?? 0) + 1;
			const tie = { cup: shadow.cup, overrides: overridesOf(shadow, 'lid') };
			for (const window of standings) {
				const { next } = put(asTheyAre.day, machine, moved('lid', window));
				const may = (facts: (typeof factsAll)[number]) =>
					next !== null && put(asTheyAre.day, next, startOfFace('lid', coat, from, facts, tie)).next !== null;
				for (const facts of factsAll) {
					const { wet } = facts;
					const each = Object.entries(facts).every(([fact, value]) =>
						may({ ...allGood, wet, [fact]: value }),
					);
					expect(may(facts), `${window} ${JSON.stringify(facts)}`).toBe(each);
					if (may(facts)) accepted++;
				}
			}
		}
	expect(accepted).toBeGreaterThan(0);
});

test('records that only the book reads change nothing that the charts know', () => {
	const places = ledTo(book, () => true, 150);
	const types: DayEvent['type'][] = ['day.planned', 'window.set', 'clock.set', 'trigger.on', 'film.read'];
	const events = alphabetOf(book, () => true)('bench', startOf(book)).flatMap(move =>
		move.filter(({ type }) => types.includes(type)),
	);
	expect(new Set(events.map(({ type }) => type)).size).toBe(types.length);
	for (const { machine } of places)
		for (const event of events) {
			const { next } = put(asTheyAre.day, machine, event);
			if (next === null) expect(machine.value).toBe('closed');
			else {
				const changed = Object.entries(next.context).filter(
					([name, value]) => value !== Reflect.get(machine.context, name),
				);
				expect(changed).toEqual([]);
				expect(next.value).toBe(machine.value);
			}
		}
});
