import { expect, test } from 'vitest';
import { meant } from '../../src/plain/line.ts';
import { pageOf } from '../../src/plain/page.ts';
import { layoutOf } from '../../src/screen/keys/layouts.ts';
import { viewOf } from '../screen/views.ts';

const us = layoutOf('us', null);
const key = (corner: string) => ({ is: 'answer', answer: { key: corner } });

test('a corner is answered with one of its keys, its name, or what it shows', () => {
	const pattern = viewOf('pattern');
	for (const line of ['e', 'R', 'top-left', 'Top Left', '7', 'tall', ' TALL '])
		expect([line, meant(line, pattern, us)]).toEqual([line, key('topLeft')]);
	expect(meant('f5', pattern, layoutOf('learned', { ...us.blocks, topLeft: ['f5'], hold: [] }))).toEqual(
		key('topLeft'),
	);
});

test('Enter alone is hold whatever is asked, as the space bar is', () => {
	for (const name of ['pattern', 'number', 'spraying', 'hold', 'wait'] as const)
		for (const line of ['', ' ', 'hold']) expect(meant(line, viewOf(name), us)).toEqual(key('hold'));
});

test('a number is taken within its limits, with a point or a comma, and its digits are no corners', () => {
	const number = viewOf('number');
	expect(meant('21,5', number, us)).toEqual({ is: 'answer', answer: { number: 21.5 } });
	expect(meant('7', number, us)).toEqual({ is: 'answer', answer: { number: 7 } });
	for (const line of ['900', '-900', '1e1', '0x10', '7 mL', 'Infinity'])
		expect([line, meant(line, number, us).is]).toEqual([line, 'refused']);
});

test('where words are asked every line is words, except the names of the corners and hold', () => {
	const text = { ...viewOf('hold'), ask: 'text' as const };
	expect(meant(' e again wait ', text, us)).toEqual({
		is: 'answer',
		answer: { text: 'e again wait' },
	});
	expect(meant('top-left', text, us)).toEqual(key('topLeft'));
});

test('only a rehearsal has a clock that can be moved', () => {
	const wait = viewOf('wait');
	expect(meant('wait 25 min', { ...wait, rehearsal: true }, us)).toEqual({ is: 'forward', by_ms: 1_500_000 });
	expect(meant('wait 25 min', { ...wait, rehearsal: false }, us).is).toBe('refused');
	expect(meant('wait a while', { ...wait, rehearsal: true }, us).is).toBe('refused');
});

test('a page says the question first, then what helps, then each answer with its key and corner', () => {
	const pattern = viewOf('pattern');
	const page = pageOf(pattern, us);
	expect(page[0]).toBe(pattern.say);
	expect(page.at(-1)).toBe(`, (bottom right): ${pattern.corners.bottomRight?.text}`);
	expect(page).toContain(`e (top left): ${pattern.corners.topLeft?.text}`);
	expect(pageOf(viewOf('number'), us).join('\n')).toMatch(/Type a number in .*, -?\d+ to \d+\./);
});
