import { expect, test } from 'vitest';
import { initialTransition } from 'xstate';
import type { CheckInput } from '../../machines/gun-check.ts';
import type { DayEvent } from '../../src/day/records.ts';
import { answered, passedOver, read } from './alphabet.ts';
import { asTheyAre, put } from './machines.ts';
import { walk } from './search.ts';
import { onlyByReading } from './shadow.ts';

/** The gun check alone, with the seven items that it has at most, under everything that can be keyed. */

const items = ['mask', 'extractor', 'batch', 'gauge', 'horns', 'pattern-height', 'pattern'];
const features = ['batch', 'gauge', 'horns', 'pattern-height', 'flooded', 'card', 'touch', 'can'] as const;

const keyed: readonly DayEvent[] = [
	...['supplied-air', 'filter-mask', 'none'].flatMap(kind =>
		[true, false].map(matched => read('breathing', kind, matched)),
	),
	...['tall', 'wide', 'round', 'bad'].flatMap(shape =>
		[true, false].map(matched => read('pattern', shape, matched)),
	),
	...features.flatMap(feature => [true, false].map(matched => read(feature, 'level', matched))),
	...[...items, 'card', 'air'].flatMap(item => [answered(item), answered(item, false), passedOver(item)]),
	{ type: 'break.began', kind: 'hold', by: 'painter' },
	{ type: 'gun.set', horns: 'level', pressure_kPa: null, fanHeight_mm: null, fluid: null },
	{ type: 'air.read', airC: 0, humidity: 0, surfaceC: 0, dewPointC: 0, spray: true, reasons: [] },
];

function walked(input: CheckInput, machines = asTheyAre) {
	const closed: { item: string; by: DayEvent }[] = [];
	const start = initialTransition(machines.gunCheck, input)[0];
	let passed = 0;
	const graph = walk({
		start,
		moves: () => keyed,
		step(state, event) {
			const { next, taken } = put(machines.gunCheck, state, event);
			expect(taken).toBeLessThanOrEqual(1);
			if (next === null) return null;
			closed.push({ item: input.items[state.context.at] ?? 'nothing', by: event });
			expect(next.context.at).toBe(state.context.at + 1);
			return { state: next, marks: 0 };
		},
		keyOf: ({ value, context: { at } }) => `${value} ${at}`,
		visit(state) {
			if (state.matches('passed')) passed++;
			expect(state.matches('passed')).toBe(input.items.length > 0 && state.context.at === input.items.length);
			return true;
		},
	});
	return { graph, closed, passed };
}

const whatCloses = (closed: ReturnType<typeof walked>['closed'], item: string) =>
	closed.filter(one => one.item === item).map(({ by }) => by);

test('a check is its items in their order, one at a time, and passes with the last', () => {
	const { graph, passed } = walked({ items, isocyanate: true, pattern: 'tall' });
	expect(graph.states).toBe(items.length + 1);
	expect(passed).toBe(1);
	expect(graph.whole).toBe(true);
});

test.each(['tall', 'wide'] as const)(
	'the pattern is closed by the reading %s alone, whoever calls it matched',
	pattern => {
		const { closed } = walked({ items, isocyanate: true, pattern });
		for (const event of whatCloses(closed, 'pattern'))
			expect(event).toMatchObject({ type: 'reading.taken', feature: 'pattern', value: pattern });
		expect(whatCloses(closed, 'pattern').length).toBeGreaterThan(0);
	},
);

test('with isocyanate only supplied air closes the breathing gear; without, a filter mask does too, never none', () => {
	const kinds = (isocyanate: boolean) =>
		new Set(
			whatCloses(walked({ items, isocyanate, pattern: 'tall' }).closed, 'mask').map(event =>
				event.type === 'reading.taken' ? event.value : event.type,
			),
		);
	expect(kinds(true)).toEqual(new Set(['supplied-air']));
	expect(kinds(false)).toEqual(new Set(['supplied-air', 'filter-mask']));
});

test.each(onlyByReading)('%s is closed by a reading and by nothing else', item => {
	const { closed } = walked({ items: [item, 'pattern'], isocyanate: true, pattern: 'tall' });
	const types = new Set(whatCloses(closed, item).map(({ type }) => type));
	expect(types).toEqual(new Set(['reading.taken']));
});

test('any other item is closed by what is keyed for it and matched, by its tick, or by a reason; by nothing of another item', () => {
	const { closed } = walked({ items, isocyanate: true, pattern: 'tall' });
	for (const item of ['extractor', 'gauge', 'horns', 'pattern-height'])
		for (const event of whatCloses(closed, item)) {
			if (event.type === 'reading.taken') expect(event).toMatchObject({ feature: item, matched: true });
			else if (event.type === 'item.answered') expect(event).toMatchObject({ item, passed: true });
			else expect(event).toMatchObject({ type: 'override.given', rule: item });
		}
});

test('a check of nothing never passes', () => {
	expect(walked({ items: [], isocyanate: true, pattern: 'tall' }).graph.transitions).toBe(0);
});
