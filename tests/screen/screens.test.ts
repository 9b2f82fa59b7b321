import { describe, expect, test } from 'vitest';
import { columnsOf } from '../../src/screen/inert.ts';
import { noticeTexts } from '../../src/screen/notices.ts';
import { atDesk } from './harness.ts';
import { frameOf, usKeys } from './show.ts';
import { viewOf, views } from './views.ts';

const sizes = [
	{ columns: 80, rows: 24 },
	{ columns: 40, rows: 12 },
	{ columns: 120, rows: 40 },
];

/** One screen as a sheet of text, its edges drawn so that blanks are seen. */
const sheet = (name: string, lines: string[], columns: number) =>
	[`== ${name}`, ...lines.map(line => `|${line.padEnd(columns)}|`), ''].join('\n');

describe.each(sizes)('at $columns by $rows', size => {
	test('every state has the screen that is kept here', async () => {
		const sheets = Object.entries(views).map(([name, view]) =>
			sheet(name, frameOf(view, size), size.columns),
		);
		const file = `fixtures/${size.columns}x${size.rows}.txt`;
		await expect(sheets.join('\n')).toMatchFileSnapshot(file);
	});

	test('a terminal that reads the bytes shows just that', async () => {
		for (const view of Object.values(views)) {
			const desk = atDesk(view, size);
			await desk.shown();
			const shown = desk.screen.lines().map(line => line.trimEnd());
			expect(shown.slice(0, -1)).toEqual(frameOf(view, size).map(line => line.trimEnd()));
			expect(shown.at(-1)).toBe('');
		}
	});
});

test('without block characters the screens are plain characters', async () => {
	const size = { columns: 80, rows: 24 };
	const sheets = Object.entries(views).map(([name, view]) =>
		sheet(name, frameOf(view, size, usKeys, 'ascii'), size.columns),
	);
	const text = sheets.join('\n').replaceAll('°', 'o');
	expect(text).toMatch(/^[ -~\n]*$/);
	await expect(text).toMatchFileSnapshot('fixtures/80x24-ascii.txt');
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

test('no two states look alike, though nothing is coloured', () => {
	for (const size of sizes) {
		const frames = Object.values(views).map(view =>
			frameOf({ ...view, say: '', lines: [], corners: {} }, size).join('\n'),
		);
		expect(new Set(frames).size).toBe(frames.length);
	}
});

test('hold turns the whole screen to reverse video, and nothing else does', async () => {
	for (const [name, view] of Object.entries(views)) {
		const desk = atDesk(view);
		await desk.shown();
		expect([name, desk.screen.reversed()]).toEqual([name, view.ask === 'hold']);
	}
});

test('words in wide characters keep to their places and inside the window', () => {
	const size = { columns: 40, rows: 12 };
	const long = '塗料の色を見る'.repeat(4);
	const corner = (text: string) => ({ code: 'x', text });
	const view = {
		...viewOf('item'),
		say: long,
		corners: { topLeft: corner('はい'), topRight: corner('いいえ'), bottomRight: corner(long) },
	};
	const lines = frameOf(view, size);
	expect(lines[0]).toMatch(/はい.+いいえ/);
	for (const line of lines) expect(columnsOf(line)).toBeLessThanOrEqual(40);
	expect(lines).toHaveLength(11);
});
