import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

/** Since when what is on of a coat broken off flashes: a minimum never ends early. By construction: no source. */

/** A face broken off and told of 40 s later; how long before its account it counts as laid, s. */
function countedBefore(broken: string): number {
	const day = rehearsed();
	day.toAsk('spraying');
	day.send(broken, 'wait 40 s');
	day.toAsk('last-face');
	day.pick('part');
	day.until(({ ask }) => ask !== 'number' && ask !== 'last-face');
	const [ended] = day.ofType('face.ended').slice(-1);
	const part = day.state().book.faces.get(ended?.face ?? '')?.part;
	expect(ended?.extent).toBe('part');
	return (Date.parse(ended?.at ?? '') - (part?.since.wall ?? 0)) / 1000;
}

test('stopped by the painter, since the key; by the program, since it was told of: the gun may have gone on till then', () => {
	expect(countedBefore('hold')).toBeGreaterThanOrEqual(40);
	expect(countedBefore('clock -9 min')).toBe(0);
	expect(countedBefore('kill')).toBe(0);
});
