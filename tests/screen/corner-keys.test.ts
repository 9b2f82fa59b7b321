import { describe, expect, test } from 'vitest';
import { type Corner, corners, type View } from '../../src/day/view.ts';
import { bind } from '../../src/screen/keys/bind.ts';
import { press } from '../../src/screen/keys/key.ts';
import { type Layout, type LearnedKeys, layoutOf } from '../../src/screen/keys/layouts.ts';
import { keyNames } from '../../src/screen/keys/names.ts';
import { nothingPassing, type Size } from '../../src/screen/passing.ts';
import { atDesk } from './harness.ts';
import { frameOf } from './show.ts';
import { viewOf, views } from './views.ts';

const taught: LearnedKeys = {
	topLeft: ['f1'],
	topRight: ['page-up', 'q'],
	bottomLeft: ['ß'],
	bottomRight: ['pad-3', 'enter'],
	hold: ['f12'],
};
const layouts: Record<string, Layout> = {
	us: layoutOf('us', null),
	german: layoutOf('german', null),
	french: layoutOf('french', null),
	taught: layoutOf('learned', taught),
};
const sizes: Size[] = [
	{ columns: 40, rows: 12 },
	{ columns: 80, rows: 24 },
	{ columns: 120, rows: 40 },
	{ columns: 200, rows: 60 },
];

/** Where the keys of a corner are named: in the frame's outermost row, or beside the answer in the rows next to it. */
function nearCorner(frame: string[], corner: Corner): string {
	const rows = corner.startsWith('top') ? frame.slice(0, 3) : frame.slice(-3);
	return rows.join('\n');
}

/** The keys as they stand in a frame: all, close together, or the first alone. */
function isNamed(frame: string[], corner: Corner, names: readonly string[]): boolean {
	const near = nearCorner(frame, corner);
	const ways = [names.join(' '), names.join(''), names[0] ?? ''];
	return ways.some(way => near.includes(` ${way} `) || near.includes(`(${way})`));
}

const answered = (view: View) => corners.filter(corner => view.corners[corner] && view.ask !== 'text');

describe.each(Object.entries(layouts))('with the %s keys', (_, layout) => {
	const keys = keyNames(layout);

	test('every answer has the keys of its corner beside it, at every size', () => {
		const missing: string[] = [];
		for (const size of sizes)
			for (const [name, view] of Object.entries(views)) {
				const frame = frameOf(view, size, { ...nothingPassing, keys });
				for (const corner of answered(view))
					if (!isNamed(frame, corner, keys[corner]))
						missing.push(`${name} ${corner} ${size.columns}x${size.rows}`);
			}
		expect(missing).toEqual([]);
	});

	test('a key that is named does answer its corner', () => {
		for (const corner of corners)
			for (const [index, name] of keys[corner].entries()) {
				const key = layout.blocks[corner][index] ?? '';
				expect([name, bind(press(key), layout, 'nothing')]).toEqual([name, { is: 'corner', corner }]);
			}
	});
});

test('keys are named as they are printed on a keyboard', () => {
	expect(keyNames(layoutOf('learned', taught))).toEqual({
		topLeft: ['F1'],
		topRight: ['PG UP', 'Q'],
		bottomLeft: ['ß'],
		bottomRight: ['PAD 3', 'ENTER'],
		hold: ['space', 'F12'],
	});
});

test('hold is named on every screen of a day, a taught key beside the space bar where there is room', () => {
	for (const size of sizes)
		for (const view of Object.values(views).filter(({ ask }) => ask !== 'closed'))
			expect(frameOf(view, size).slice(-3).join('\n')).toContain(
				view.ask === 'hold' ? 'space: stay held' : 'space: hold',
			);
	const passing = { ...nothingPassing, keys: keyNames(layouts.taught ?? layoutOf('us', null)) };
	expect(frameOf(viewOf('wait'), { columns: 80, rows: 24 }, passing).at(-1)).toContain('space or F12: hold');
});

test('the keys in force stand on the screen of a day, and no key where presses are counted', async () => {
	const german = atDesk(viewOf('pattern'), undefined, { layout: layoutOf('german', null) });
	expect(await german.shown()).toContain(' , . - ');
	const counted = atDesk(viewOf('pattern'), undefined, { oneKey: true });
	const shown = await counted.shown();
	expect(shown).not.toMatch(/ E R | X C V /);
	expect(shown).toContain('press 1 to 4 times, then once more; keep it down: hold');
});
