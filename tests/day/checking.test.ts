import { expect, test } from 'vitest';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

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

test('no question about the gun holds a word that answers it', () => {
	const days = [0, 1, 2].map(seed => rehearsed({ seed }));
	const words = {
		horns: /level|upright|between/i,
		flooded: /even|ends|middle/i,
		pattern: /tall|wide|round/i,
	};
	const seen = new Set<string>();
	for (const day of days) {
		for (let count = 0; count < 9; count++) {
			day.until(({ ask, say, lines, do: instructions, open, gun }) => {
				const answer = words[ask as keyof typeof words];
				if (answer) {
					seen.add(ask);
					expect(JSON.stringify({ say, lines, instructions, open, gun })).not.toMatch(answer);
				}
				return ask === 'go';
			});
			day.send('hold');
			day.pick('back');
		}
	}
	expect([...seen].sort()).toEqual(Object.keys(words).sort());
});

test('supplied air alone is asked for of a material with isocyanate, and of no other', () => {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the job has no topcoat');
	const told = (isocyanate: boolean) => {
		const day = rehearsed({ job: { ...job, materials: { topcoat: { ...topcoat, isocyanate } } } });
		day.toState('list.before-spraying.mask');
		day.pick('none');
		return day.line().lines[0];
	};
	expect(told(true)).toBe('Supplied air only for this material.');
	expect(told(false)).toBe('Breathing gear is wanted: supplied air or a filter mask.');
});
