import { expect, test } from 'vitest';
import { cardCount, cardOf, coveredBy, crossReach_mm } from '../../src/trade/pattern-cards.ts';

const cards = Array.from({ length: cardCount }, (_, index) => cardOf(index + 1) ?? expect.fail('a gap'));
const pair = (letters: string) => [...letters].sort().join('');

test('every card has four letters of its own', () => {
	for (const { top, bottom, left, right } of cards) expect(new Set([top, bottom, left, right]).size).toBe(4);
});

test('no pair of letters is on two cards, so that what one card showed says nothing of another', () => {
	const pairs = cards.flatMap(card => Object.values(coveredBy(card)).map(pair));
	expect(new Set(pairs).size).toBe(2 * cardCount);
});

test('neighbours in the pile share no letter', () => {
	const letters = cards.map(card => Object.values(coveredBy(card)).join(''));
	for (const [index, own] of letters.slice(1).entries())
		expect([...own].filter(letter => letters[index]?.includes(letter))).toEqual([]);
});

test('only whole numbers from 1 on have a card', () => {
	expect([0, cardCount + 1, 1.5, Number.NaN].map(cardOf)).toEqual([
		undefined,
		undefined,
		undefined,
		undefined,
	]);
});

test('the cross ends inside a fan of 200 mm, and outside the round pattern or the depth of it', () => {
	expect(crossReach_mm(200)).toBeLessThan(100);
	expect(crossReach_mm(200)).toBeGreaterThan(60);
});
