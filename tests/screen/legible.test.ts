import { expect, test } from 'vitest';
import { arrange } from '../../src/screen/arrange.ts';
import { readFrom_m, readFromWords } from '../../src/screen/legible.ts';
import { openPicker } from '../../src/screen/picker.ts';
import { readingDistance_m } from '../../src/screen/reading-distance.ts';
import { atDesk } from './harness.ts';
import { savedViews } from './saved.ts';
import { usKeys } from './show.ts';
import { viewOf } from './views.ts';

const screen_mm = 190;
const sizes = [
	[40, 12],
	[60, 16],
	[80, 24],
	[100, 30],
	[120, 40],
	[160, 45],
	[200, 60],
].map(([columns = 0, rows = 0]) => ({ columns, rows }));

test.each(['half', 'ascii'] as const)(
	'no word of a day is drawn smaller than is said, in %s letters',
	style => {
		for (const size of sizes) {
			const said = readFrom_m(size, style, screen_mm);
			const shorter = Object.entries(savedViews())
				.filter(([, { ask }]) => ask !== 'text')
				.map(([kind, view]) => {
					const { wordRows } = arrange(view, size, usKeys, style);
					return [kind, readingDistance_m(screen_mm, size.rows, wordRows)] as const;
				})
				.filter(([, read_m]) => read_m < said);
			expect([size.columns, ...shorter]).toEqual([size.columns]);
			expect(said).toBeGreaterThan(0.5);
		}
	},
);

// NUREG-0700 §1.3.1-4: height = 6.283 × distance × minutes / 21600, here with 40 minutes of arc.
test('the smallest word of the usual window is five pixels high: 2.5 rows of 24 on 190 mm, so 1.7 m', () => {
	const height_mm = (2.5 / 24) * 190;
	expect(Math.floor(((height_mm * 21600) / (6.283 * 40) / 1000) * 10) / 10).toBe(1.7);
	expect(readFrom_m({ columns: 80, rows: 24 }, 'half', 190)).toBe(1.7);
	expect(readFrom_m({ columns: 80, rows: 24 }, 'half', 380)).toBe(3.4);
});

test('what is read from nearer than the shop wants is said beside it', () => {
	expect(readFromWords(1.7, 2.5)).toBe('Words read from 1.7 m, not 2.5 m');
	expect(readFromWords(3, 2.5)).toBe('Words read from 3.0 m');
});

test('the picker says it before a day; a window that is changed says it for a while, and none while spraying', async () => {
	const now = () => '2027-03-02T08:00:00.000Z';
	const picker = openPicker(
		[{ path: 'a.yaml', name: 'a', openDay: null }],
		[],
		now,
		() => 'Words read from 2.0 m.',
	);
	expect(picker.session.view().lines[0]).toBe('Words read from 2.0 m.');

	const read = ({ columns }: { columns: number }) => `Words read from ${columns / 40} m`;
	const desk = atDesk(viewOf('pattern'), { columns: 80, rows: 24 }, { read });
	desk.resize(120, 40);
	expect(await desk.shown()).toContain('Words read from 3 m');
	desk.clock.pass(5000);
	expect(await desk.shown()).not.toContain('Words read');
	desk.fake.change(viewOf('spraying'));
	desk.resize(80, 24);
	expect(await desk.shown()).not.toContain('Words read');
	desk.resize(30, 10);
	expect(await desk.shown()).toContain('Make this window larger');
});
