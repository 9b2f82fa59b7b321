import { expect, test } from 'vitest';
import { writtenEdge } from '../../src/screen/edges.ts';

/** Two answers on one edge, in plain letters. */

const answer = (text: string) => ({ text, keys: [], chosen: false });
const [left, right] = [answer('AAAA AAAAA'), answer('BBBBBBB BBBB')];

test('four blank columns lie between two answers, or they go on rows of their own', () => {
	for (let columns = 26; columns < 60; columns++) {
		const edge = { side: 'top' as const, left, right, between: [], columns, style: 'half' as const };
		const { rows } = writtenEdge(edge, false);
		const gaps = rows.map(row => /A( *)B/.exec(row)?.[1]?.length ?? Number.POSITIVE_INFINITY);
		expect(Math.min(...gaps)).toBeGreaterThanOrEqual(4);
		const count = (letter: string) => rows.join('').split(letter).length - 1;
		expect([count('A'), count('B')]).toEqual([9, 11]);
	}
});
