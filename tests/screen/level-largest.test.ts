import { expect, test } from 'vitest';
import { arrange } from '../../src/screen/arrange.ts';
import { readingDistance_m } from '../../src/screen/reading-distance.ts';
import { wordOf } from '../../src/screen/word.ts';
import { savedViews } from './saved.ts';
import { usKeys } from './show.ts';

/** Picture of a screen of 24 in, 16 : 9, mm. */
const screen_mm = 299;
const size = { columns: 80, rows: 24 };

const levels = Object.entries(savedViews()).filter(([, view]) =>
	view.do.some(({ code }) => code === 'pour' || code === 'fill-cup'),
);

test.each(levels)('%s: the level stands there with its unit, and can be read from 2 m', (_, view) => {
	const [step] = view.do;
	expect(wordOf(view, '')).toBe(`${step?.to} ${step?.unit}`.toUpperCase());
	for (const style of ['half', 'ascii'] as const) {
		const { wordRows } = arrange(view, size, usKeys, style);
		expect(readingDistance_m(screen_mm, size.rows, wordRows)).toBeGreaterThanOrEqual(2);
	}
});

test('there are such screens: a pour, and a cup that is filled', () => {
	const codes = levels.flatMap(([, view]) => view.do.map(({ code }) => code));
	expect(new Set(codes)).toEqual(new Set(['pour', 'fill-cup']));
});
