import { describe, expect, test } from 'vitest';
import type { View } from '../../src/day/view.ts';
import { noticeTexts } from '../../src/screen/notices.ts';
import type { Passing, Size } from '../../src/screen/passing.ts';
import { atDesk } from './harness.ts';
import { savedViews } from './saved.ts';
import { frameOf, usKeys } from './show.ts';
import { viewOf, views } from './views.ts';

/** What the screen alone adds to a view. */
const passings: Record<string, [View, Partial<Passing>]> = {
	'a rehearsal': [viewOf('rehearsal-list'), {}],
	'a wait that ends': [viewOf('wait-end'), {}],
	'a key that did not count': [viewOf('pattern'), { notice: noticeTexts['two-blocks'] }],
	'a number half typed': [viewOf('number'), { typed: '21.5' }],
	'a reason half typed': [viewOf('text'), { typed: 'the extra fan runs, and the shop door stands open' }],
	'one key: a corner chosen': [
		viewOf('pattern'),
		{ counted: true, chosen: 'topRight', notice: 'once more to answer' },
	],
};
const kept: [string, View, Passing][] = [
	...Object.entries(savedViews()).map(([kind, view]): [string, View, Passing] => [kind, view, usKeys]),
	...Object.entries(passings).map(([name, [view, passing]]): [string, View, Passing] => [
		name,
		view,
		{ ...usKeys, ...passing },
	]),
];

/** One of each arrangement: kept of the sizes and letters in which little else can go wrong. */
const dozen = [
	'air.airC (number)',
	'closed (closed)',
	'gunCheck.card (card)',
	'gunCheck.horns.differs (do)',
	'gunCheck.pattern (pattern)',
	'hold (hold): held',
	'list.before-spraying (item)',
	'pick.day (choose)',
	'ready (go)',
	'spraying (spraying)',
	'wait (wait)',
	'a reason half typed',
];
const keptFew = kept.filter(([name]) => dozen.includes(name));

const sizes = [
	{ columns: 80, rows: 24 },
	{ columns: 40, rows: 12 },
	{ columns: 120, rows: 40 },
];
const isLarge = ({ columns }: Size) => columns > 80;

/** One screen as a sheet of text, its left edge drawn so that blanks are seen. */
const sheet = (name: string, lines: string[]) =>
	[`== ${name}`, ...lines.map(line => `|${line.trimEnd()}`), ''].join('\n');

describe.each(sizes)('at $columns by $rows', size => {
	test('the screens are those that are kept here', async () => {
		const sheets = (isLarge(size) ? keptFew : kept).map(([name, view, passing]) =>
			sheet(name, frameOf(view, size, passing)),
		);
		await expect(sheets.join('\n')).toMatchFileSnapshot(`fixtures/${size.columns}x${size.rows}.txt`);
	});

	test('no two kinds look alike, though nothing is coloured', () => {
		const frames = kept.map(([, view, passing]) => frameOf(view, size, passing).join('\n'));
		expect(new Set(frames).size).toBe(frames.length);
	});
});

test('a terminal that reads the bytes shows just that, a hold in reverse video and nothing else', async () => {
	for (const [index, [name, view]] of Object.entries(savedViews()).entries()) {
		const size = sizes[index % sizes.length] ?? { columns: 80, rows: 24 };
		const desk = atDesk(view, size);
		await desk.shown();
		const shown = desk.screen.lines().map(line => line.trimEnd());
		expect([name, ...shown.slice(0, -1)]).toEqual([name, ...frameOf(view, size).map(line => line.trimEnd())]);
		expect(shown.at(-1)).toBe('');
		expect([name, desk.screen.reversed()]).toEqual([name, view.ask === 'hold']);
	}
});

test('without block characters the screens are plain characters', async () => {
	const size = { columns: 80, rows: 24 };
	const inAscii = (of: typeof kept) =>
		of
			.map(([name, view, passing]) => sheet(name, frameOf(view, size, passing, 'ascii')))
			.join('\n')
			.replaceAll(/[°µ]/g, 'o');
	expect(inAscii(kept)).toMatch(/^[ -~\n]*$/);
	expect(keptFew.length).toBe(dozen.length);
	await expect(inAscii(keptFew)).toMatchFileSnapshot('fixtures/80x24-ascii.txt');
});

test('a rehearsal is marked on every screen, at every size, whatever else is said', () => {
	for (const size of sizes)
		for (const view of Object.values(views)) {
			const passing = { ...usKeys, notice: noticeTexts['two-blocks'] };
			const shown = (rehearsal: boolean) => frameOf({ ...view, rehearsal }, size, passing).join('\n');
			expect(shown(true)).toContain('REHEARSAL');
			expect(shown(true)).toContain(noticeTexts['two-blocks']);
			expect(shown(false)).not.toContain('REHEARSAL');
			expect(frameOf({ ...view, rehearsal: true }, size).join('\n')).toContain('REHEARSAL');
		}
});

test('what is asked shows in the word alone, though nothing is coloured', () => {
	for (const size of sizes) {
		const frames = Object.values(views).map(view =>
			frameOf({ ...view, say: '', lines: [], corners: {} }, size).join('\n'),
		);
		expect(new Set(frames).size).toBe(frames.length);
	}
});
