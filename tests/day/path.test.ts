import { expect, test } from 'vitest';
import { asHome, back, opens, option, type Prompt, placeOn } from '../../src/day/prompt.ts';

/** A menu is a path of chosen answers. By construction: no source. */

const last: Prompt = { state: 'last', ask: 'choose', say: 'Last.', options: [back('not', 'DO NOT')] };
const inner = asHome({
	state: 'inner',
	ask: 'choose',
	say: 'Inner.',
	options: [opens('on', 'ON', () => last)],
});
const counted = (most: number): Prompt => ({
	state: 'counted',
	ask: 'number',
	say: 'How many?',
	number: {
		of: 'stroke',
		unit: 'stroke',
		min: 0,
		max: 9,
		step: 1,
		reply: value => (value > most ? { notice: () => 'Too many.' } : { next: () => inner }),
	},
});
const first = (most: number): Prompt => ({
	state: 'first',
	ask: 'choose',
	say: 'First.',
	options: [opens('count', 'COUNT', () => counted(most)), option('done', 'DONE')],
});
const path = ['count', 3, 'on'];

test('a path leads from the first question by codes and by numbers, and knows its home', () => {
	const place = placeOn(first(5), path);
	expect(place.prompt.state).toBe('last');
	expect(place.path).toEqual(path);
	expect(place.home).toEqual(['count', 3]);
	expect(place.states).toEqual(['first', 'counted', 'inner', 'last']);
});

test('a path that leads nowhere any more ends at the deepest question that still stands', () => {
	const place = placeOn(first(2), path);
	expect(place.prompt.state).toBe('counted');
	expect(place.path).toEqual(['count']);
	expect(place.home).toEqual([]);
});

test('an answer that makes records leads nowhere, nor does a word where a number is asked', () => {
	expect(placeOn(first(5), ['done', 'on']).prompt.state).toBe('first');
	expect(placeOn(first(5), ['count', '3']).prompt.state).toBe('counted');
});
