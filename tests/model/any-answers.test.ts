import { expect, test } from 'vitest';
import { neverAnswered } from './any-answers/by-chance.ts';
import { interviewsOn } from './any-answers/interviews.ts';

/** `SHEETS=100` asks for as many as a share of `npm run prove`. */
const { SHEETS = '60' } = process.env;

test('every sheet that the questions make has nothing wrong with it, and every question was answered in every way', () => {
	const { says, ways, ...sum } = interviewsOn(0, Number(SHEETS));
	expect(says).toEqual([]);
	expect(sum.sheets).toBe(Number(SHEETS));
	expect(neverAnswered(new Set(ways))).toEqual([]);
}, 3_600_000);

test('a way that nobody took is named', () => {
	expect(neverAnswered(new Set(['held: hanging']))).toEqual(
		expect.arrayContaining(['held: on points', 'name: back', 'write: LEAVE', 'films: film']),
	);
	expect(neverAnswered(new Set(['held: hanging']))).not.toContain('held: hanging');
});
