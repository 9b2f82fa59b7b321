import { describe, expect, test } from 'vitest';
import { fitAll, fitBlock, waysOf } from '../../src/screen/fit.ts';
import { lowFont, tallFont } from '../../src/screen/glyphs.ts';
import { columnsOf, cutTo, inert, wrapWords } from '../../src/screen/inert.ts';
import { blockLine } from '../../src/screen/letters.ts';
import { readingDistance_m, rowsForDistance } from '../../src/screen/reading-distance.ts';

describe.each([
	['tall', tallFont],
	['low', lowFont],
])('the %s letters', (_, font) => {
	test('are each a full rectangle, and no two are alike', () => {
		for (const [letter, rows] of font.glyphs) {
			expect([letter, rows.length]).toEqual([letter, font.height]);
			expect([letter, new Set(rows.map(row => row.length)).size]).toEqual([letter, 1]);
			expect(rows.join('')).toMatch(/^[#.]+$/);
		}
		const drawn = [...font.glyphs.values()].map(rows => rows.join('/'));
		expect(new Set(drawn).size).toBe(drawn.length);
	});

	test('cover every letter, digit and mark that a screen word may have', () => {
		for (const letter of "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.:-+/%°?!_'(),& ")
			expect([letter, font.glyphs.has(letter)]).toEqual([letter, true]);
	});
});

test('block letters halve their pixels into characters', () => {
	expect(blockLine('HI', tallFont, 1, 'half')?.rows).toEqual([
		'█   █ ▀█▀',
		'█▄▄▄█  █ ',
		'█   █  █ ',
		'▀   ▀ ▀▀▀',
	]);
	expect(blockLine('I', lowFont, 1, 'ascii')?.rows).toEqual(['###', ' # ', ' # ', ' # ', '###']);
});

test('accents are left off, small letters are capitals, and other scripts are not drawn', () => {
	expect(blockLine('é', lowFont, 1, 'half')).toEqual(blockLine('E', lowFont, 1, 'half'));
	expect(blockLine('門', lowFont, 1, 'half')).toBeNull();
});

test('the largest letters that fit are taken, over two lines if that lets them grow', () => {
	expect(fitBlock([['GO']], 80, 4, 'half')?.pixels).toBe(7);
	expect(fitBlock([['GO']], 80, 7, 'half')?.pixels).toBe(14);
	expect(fitBlock(waysOf('WHICH FACE'), 40, 8, 'half')?.rows).toHaveLength(8);
	expect(fitBlock([['BREATHING']], 20, 8, 'half')).toBeNull();
});

test('answers of one screen have one size', () => {
	const blocks = fitAll([['TALL', 'NOTHING'], ['BAD']], 72, 4, 'half');
	expect(blocks?.size).toBe(3);
	expect(new Set([...(blocks?.values() ?? [])].map(({ pixels }) => pixels))).toEqual(new Set([7]));
});

// NUREG-0700 §1.3.1-4, height = 6.283 × distance × minutes / 21600.
test('reading distance follows the published formula', () => {
	expect(readingDistance_m(240, 24, 1)).toBeCloseTo(0.859, 3);
	expect(readingDistance_m(240, 24, 1, 16)).toBeCloseTo(2.149, 3);
	const rows = rowsForDistance(190, 24, 2.5);
	expect(readingDistance_m(190, 24, rows)).toBeCloseTo(2.5, 9);
});

test('text is measured, cut and broken by columns', () => {
	expect(columnsOf('e\u0301門a')).toBe(4);
	expect(cutTo('counter lid', 8)).toBe('counter…');
	expect(cutTo('門門門', 4)).toBe('門…');
	expect(wrapWords('left door, edges: press start', 12)).toEqual(['left door,', 'edges: press', 'start']);
});

test('what could act on a terminal is turned into dots', () => {
	expect(inert('a\u001b[2Jb\u202ec\ud800')).toBe('a·[2Jb·c·');
	expect(inert('Türblatt, côté “eau”')).toBe('Türblatt, côté “eau”');
});

test('a pair too wide for one line each stands on two lines each, and another pair stays as it is', () => {
	const blocks = fitAll([['SUPPLIED AIR', 'FILTER MASK'], ['DO NOT']], 72, 6, 'half');
	expect(fitAll([['SUPPLIED AIR', 'FILTER MASK']], 72, 3, 'half')).toBeNull();
	const heights = [...(blocks ?? [])].map(([text, { rows }]) => [text, rows.length]);
	expect(heights).toEqual([
		['SUPPLIED AIR', 6],
		['FILTER MASK', 6],
		['DO NOT', 3],
	]);
});
