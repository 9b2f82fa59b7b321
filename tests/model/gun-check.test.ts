import { expect, test } from 'vitest';
import { checkWalk, sevenItems } from './alone.ts';
import { onlyByReading } from './shadow.ts';

/** The gun check alone, with the seven items that it has at most, under everything that can be keyed. */

const whatCloses = (closed: ReturnType<typeof checkWalk>['closed'], item: string) =>
	closed.filter(one => one.item === item).map(({ by }) => by);

test('a check is its items in their order, one at a time, and passes with the last', () => {
	const { graph, passed, broken } = checkWalk({ items: sevenItems, isocyanate: true, pattern: 'tall' });
	expect(broken).toEqual([]);
	expect(graph.states).toBe(sevenItems.length + 1);
	expect(passed).toBe(1);
	expect(graph.whole).toBe(true);
});

test.each(['tall', 'wide'] as const)(
	'the pattern is closed by the reading %s alone, whoever calls it matched',
	pattern => {
		const { closed } = checkWalk({ items: sevenItems, isocyanate: true, pattern });
		for (const event of whatCloses(closed, 'pattern'))
			expect(event).toMatchObject({ type: 'reading.taken', feature: 'pattern', value: pattern });
		expect(whatCloses(closed, 'pattern').length).toBeGreaterThan(0);
	},
);

test('with isocyanate only supplied air closes the breathing gear; without, a filter mask does too, never none', () => {
	const kinds = (isocyanate: boolean) =>
		new Set(
			whatCloses(checkWalk({ items: sevenItems, isocyanate, pattern: 'tall' }).closed, 'mask').map(event =>
				event.type === 'reading.taken' ? event.value : event.type,
			),
		);
	expect(kinds(true)).toEqual(new Set(['supplied-air']));
	expect(kinds(false)).toEqual(new Set(['supplied-air', 'filter-mask']));
});

test.each(onlyByReading)('%s is closed by a reading and by nothing else', item => {
	const { closed } = checkWalk({ items: [item, 'pattern'], isocyanate: true, pattern: 'tall' });
	const types = new Set(whatCloses(closed, item).map(({ type }) => type));
	expect(types).toEqual(new Set(['reading.taken']));
});

test('any other item is closed by what is keyed for it and matched, by its tick, or by a reason; by nothing of another item', () => {
	const { closed } = checkWalk({ items: sevenItems, isocyanate: true, pattern: 'tall' });
	for (const item of ['extractor', 'gauge', 'horns', 'pattern-height'])
		for (const event of whatCloses(closed, item)) {
			if (event.type === 'reading.taken') expect(event).toMatchObject({ feature: item, matched: true });
			else if (event.type === 'item.answered') expect(event).toMatchObject({ item, passed: true });
			else expect(event).toMatchObject({ type: 'override.given', rule: item });
		}
});

test('a check of nothing never passes', () => {
	expect(checkWalk({ items: [], isocyanate: true, pattern: 'tall' }).graph.transitions).toBe(0);
});
