import { expect, test } from 'vitest';
import { corners } from '../../src/day/view.ts';
import { savedViews } from '../screen/saved.ts';
import { frameOf } from '../screen/show.ts';
import { views } from '../screen/views.ts';
import { look } from './eyes.ts';

const words = (text: string) => text.toUpperCase().replaceAll(/\s+/g, ' ').trim();

test.each([
	{ columns: 80, rows: 24 },
	{ columns: 120, rows: 40 },
	{ columns: 40, rows: 12 },
])('every answer of every screen is read back from its characters at $columns by $rows', size => {
	for (const view of [...Object.values(views), ...Object.values(savedViews())]) {
		const seen = look(`${frameOf(view, size).join('\n')}\n`);
		const shown = Object.fromEntries(
			corners.flatMap(corner => {
				const choice = view.corners[corner];
				return choice ? [[corner, words(choice.text)]] : [];
			}),
		);
		const read = Object.entries(seen.corners).map(([corner, text]) => [corner, words(text)]);
		expect(Object.fromEntries(read)).toEqual(shown);
	}
});

test('what is written in the middle is read whole, and the words in block letters with it', () => {
	const pattern = views.pattern;
	if (!pattern) throw new Error('there is no such view');
	const seen = look(`${frameOf(pattern, { columns: 80, rows: 24 }).join('\n')}\n`);
	expect(seen.text).toBe(pattern.say);
	expect(seen.status).toContain('coat 2 of 3');
	expect(seen.outside).toContain('PATTERN');
});
