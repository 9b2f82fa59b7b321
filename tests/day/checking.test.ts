import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';

const second = (items: readonly string[]) =>
	items.find(item => ['horns', 'pattern-height', 'flooded'].includes(item));

test('which second feature is asked rotates: none comes again before another that was not just instructed', () => {
	for (const seed of [0, 1, 2]) {
		const day = rehearsed({ seed });
		for (let count = 0; count < 9; count++) {
			day.until(({ ask }) => ask === 'go');
			day.send('hold');
			day.pick('back');
		}
		const asked = day
			.ofType('check.began')
			.filter(({ size }) => size === 'full')
			.map(({ items }) => second(items));
		const later = asked.slice(1);
		for (const [index, feature] of later.entries()) expect(feature).not.toBe(later[index + 1]);
		expect(new Set(later).size).toBe(3);
	}
});
