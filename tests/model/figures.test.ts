import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { daysOf, ways } from './erring/days.ts';
import { figuresFile, figuresText } from './figures.ts';
import { largeDays } from './proofs.ts';

/** Every number as the same sign. */
const form = (text: string) => text.replace(/\d[\d,.]*\d|\d/g, '#');

test('the kept figures have the form that a whole proof gives them, whatever their numbers', () => {
	const text = figuresText({
		minutes: 0,
		cores: 0,
		walks: largeDays.toReversed().map(({ name }) => ({ name, states: 0, seconds: 0 })),
		mutants: 0,
		erring: { days: 0, tallies: ways.map(way => daysOf(way, 1)) },
	});
	expect(form(readFileSync(figuresFile, 'utf8'))).toBe(form(text));
});
