import { expect, test } from 'vitest';
import { daysOf, perThousand, ways, wrongOf } from './erring/days.ts';
import { secondHitCounts } from './erring/double-hit.ts';
import { assumedRates, drawsOf, type Rates } from './erring/draws.ts';
import { proveErring } from './erring/prove.ts';

const never = Object.fromEntries(Object.keys(assumedRates).map(slip => [slip, 0])) as Rates;
const only = (rates: Partial<Rates>): Rates => ({ ...never, ...rates });

test('over 60 days of an erring painter no face is sprayed unchecked, and the guard lets fewer wrong passes through', () => {
	const proof = proveErring(60);
	expect(proof.says.slice(0, -7)).toEqual([]);
	expect(proof.verdict).toBe('holds');
	const [noList, yesNo, patterns, cards, shown] = proof.tallies.map(perThousand);
	expect(patterns).toBeLessThan(Number(yesNo));
	expect(yesNo).toBeLessThan(Number(noList));
	/** Cards and patterns lie closer together than 60 days can tell. */
	expect(cards).toBeLessThan(Number(yesNo));
	expect(shown).toBeGreaterThanOrEqual(Number(cards));
});

test.each(ways)('a painter who never errs makes no wrong pass: %s', way => {
	const tally = daysOf(way, 2, never);
	expect(wrongOf(tally)).toBe(0);
	expect(tally.passes).toBe(12);
	expect(tally.stops).toBe(0);
});

test('a cap left turned is caught by whoever looks, and by nobody where there is no list', () => {
	const rates = only({ leavesTurned: 0.5 });
	expect(daysOf('no list', 20, rates).wrong.fan).toBeGreaterThan(10);
	expect(daysOf('yes/no list', 20, rates).wrong.fan).toBe(0);
	expect(daysOf('patterns', 20, rates).wrong.fan).toBe(0);
});

test('who keys what must be right passes a pattern and a shown reading, and guesses at a card', () => {
	const rates = only({ leavesTurned: 0.3, suggests: 1 });
	const [patterns, cards, shown] = (['patterns', 'cards', 'shown'] as const).map(way =>
		daysOf(way, 20, rates),
	);
	expect(patterns?.wrong.fan).toBe(shown?.wrong.fan);
	expect(patterns?.wrong.fan).toBeGreaterThan(2 * Number(cards?.wrong.fan));
});

test('a cap turned while the painter is away after the check is caught by no way at all', () => {
	const rates = only({ walks: 1, someoneTurns: 0.5 });
	for (const way of ways) expect(daysOf(way, 5, rates).wrong['turned since']).toBeGreaterThan(0);
});

test('hardener left out and the wrong can are seen by whoever looks', () => {
	const rates = only({ forgets: 0.5, wrongCan: 0.3, wrongPot: 0.3 });
	expect(daysOf('no list', 20, rates).wrong.hardener).toBeGreaterThan(10);
	for (const way of ['patterns', 'cards'] as const) {
		const { wrong } = daysOf(way, 20, rates);
		expect([wrong.hardener, wrong.batch]).toEqual([0, 0]);
	}
});

test('the same occasion draws the same number, whatever was drawn before it', () => {
	const [one, other] = [drawsOf(5), drawsOf(5)];
	one.draw('walks', 'x');
	expect(one.draw('habit', 'pattern', 'lid/top', 2)).toBe(other.draw('habit', 'pattern', 'lid/top', 2));
	const many = Array.from({ length: 4000 }, (_, seed) =>
		drawsOf(seed).draw('habit', 'pattern', 'lid/top', 1),
	);
	expect(many.reduce((sum, one) => sum + one, 0) / many.length).toBeCloseTo(0.5, 1);
});

test('of two hits in one corner the key guard drops the second while the new question is young', () => {
	expect([80, 300, 555].map(secondHitCounts)).toEqual([false, false, false]);
	expect(secondHitCounts(700)).toBe(true);
});
