import { expect, test } from 'vitest';
import { type Ground, outlook, type Spell } from '../../src/plan/outlook.ts';

const min = 60;
/** Opens, lifts, opens again, then wants scuffing and sanding. */
const spells: Spell[] = [
	{ does: 'wait', from_s: 0, until_s: 20 * min },
	{ does: 'spray', from_s: 20 * min, until_s: 75 * min },
	{ does: 'wait', from_s: 75 * min, until_s: 195 * min },
	{ does: 'spray', from_s: 195 * min, until_s: 480 * min },
	{ does: 'scuff', from_s: 480 * min, until_s: 1440 * min },
	{ does: 'sand', from_s: 1440 * min, until_s: Number.POSITIVE_INFINITY },
];
const bare: Ground = { wait_s: 0, next: null, done: [] };
const at = (minutes: number, ground: Partial<Ground> = {}) =>
	outlook(spells, { least_s: minutes * min, most_s: minutes * min }, { ...bare, ...ground });

test.each([
	[0, {}, { does: 'spray', opens_s: 20 * min, closes_s: 75 * min, follows: 'wait' }],
	[20, {}, { does: 'spray', opens_s: 0, closes_s: 55 * min, follows: 'wait' }],
	[75, {}, { does: 'spray', opens_s: 120 * min, closes_s: 405 * min, follows: 'scuff' }],
	[480, {}, { does: 'scuff', opens_s: 0, closes_s: 960 * min, follows: 'sand' }],
	[480, { done: ['scuff'] }, { does: 'spray', opens_s: 0, closes_s: 960 * min, follows: 'sand' }],
	[200, { done: ['sand'] }, { does: 'spray', opens_s: 0, closes_s: Number.POSITIVE_INFINITY }],
	[1500, {}, { does: 'sand', opens_s: 0, closes_s: Number.POSITIVE_INFINITY }],
	[0, { next: 'sand', wait_s: 600 * min }, { does: 'sand', opens_s: 600 * min }],
	[0, { next: 'scuff' }, { does: 'scuff', opens_s: 20 * min, closes_s: 75 * min, follows: 'wait' }],
	[30, { wait_s: 100 * min }, { does: 'spray', opens_s: 165 * min, closes_s: 450 * min }],
] satisfies [number, Partial<Ground>, object][])(
	'%i min after the coat, with %j',
	(minutes, ground, told) => {
		expect(at(minutes, ground)).toMatchObject(told);
	},
);

test('a window opens by the clock that counts less and closes by the one that counts more', () => {
	expect(outlook(spells, { least_s: 10 * min, most_s: 15 * min }, bare)).toMatchObject({
		opens_s: 10 * min,
		closes_s: 60 * min,
	});
	expect(outlook(spells, { least_s: 30 * min, most_s: 80 * min }, bare)).toMatchObject({
		opens_s: 165 * min,
	});
});

test('where no window opens by waiting there is nothing to tell', () => {
	const wait: Spell[] = [{ does: 'wait', from_s: 0, until_s: Number.POSITIVE_INFINITY }];
	expect(outlook(wait, { least_s: 0, most_s: 0 }, bare)).toBeNull();
	expect(at(10, { wait_s: Number.POSITIVE_INFINITY })).toBeNull();
	expect(outlook(spells.slice(0, 2), { least_s: 0, most_s: 80 * min }, bare)).toBeNull();
});
