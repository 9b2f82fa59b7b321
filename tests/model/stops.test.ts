import { expect, test } from 'vitest';
import { stopsWalk } from './stops-alone.ts';

test('of every state of a face, whatever day, cup and gun are: what stands before its coat is said, and in its order', () => {
	const { states, asked, broken } = stopsWalk();
	expect(broken).toEqual([]);
	expect(states).toBeGreaterThan(50);
	expect(asked).toBeGreaterThan(10_000);
}, 300_000);
