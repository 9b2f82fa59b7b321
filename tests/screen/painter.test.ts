import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Painted, paint } from '../../src/screen/painter.ts';
import { readBack } from './harness.ts';
import { frameOf } from './show.ts';
import { views } from './views.ts';

const size = { columns: 80, rows: 24 };
const painted = (lines: string[], reverse = false): Painted => ({ ...size, lines, reverse });

async function screenAfter(...frames: Painted[]): Promise<string[]> {
	const screen = readBack(size.columns, size.rows);
	let before: Painted | null = null;
	for (const frame of frames) {
		await screen.write(paint(before, frame));
		before = frame;
	}
	return screen.lines().map(line => line.trimEnd());
}

const line = fc.oneof(
	fc.string({ unit: fc.constantFrom(...'ab ▀█·'), maxLength: 80 }),
	fc.string({ unit: fc.constantFrom('a', '門', 'é', ' ', '▄'), maxLength: 40 }),
);
const frame = fc
	.tuple(fc.array(line, { maxLength: 23 }), fc.boolean())
	.map(([lines, reverse]) => painted(lines, reverse));

test('painting one frame over another shows what painting it afresh shows', async () => {
	await fc.assert(
		fc.asyncProperty(fc.array(frame, { minLength: 2, maxLength: 5 }), async frames => {
			const last = frames.at(-1);
			if (!last) throw new Error('a frame is needed');
			expect(await screenAfter(...frames)).toEqual(await screenAfter(last));
		}),
		{ numRuns: 80 },
	);
});

test('every screen may follow every other', async () => {
	const frames = Object.values(views).map(view => painted(frameOf(view, size), view.ask === 'hold'));
	for (const before of frames)
		for (const after of frames)
			expect(await screenAfter(before, after)).toEqual([
				...after.lines.map(text => text.trimEnd()),
				...Array.from({ length: size.rows - after.lines.length }, () => ''),
			]);
});

test('nothing new is nothing written', () => {
	expect(paint(painted(['a']), painted(['a']))).toBe('');
});

test('a second of a countdown costs far less than its frame', () => {
	const wait = views['wait-end'];
	if (!wait) throw new Error('no such view');
	const [timer] = wait.timers;
	if (!timer) throw new Error('no timer');
	const at = (left_s: number) => painted(frameOf({ ...wait, timers: [{ ...timer, left_s }] }, size));
	const seconds = Array.from({ length: 61 }, (_, gone) => at(75 - gone));
	const whole = Buffer.byteLength(paint(null, at(75)));
	const bytes = seconds
		.slice(1)
		.map((after, index) => Buffer.byteLength(paint(seconds[index] ?? null, after)));
	const perSecond = bytes.reduce((sum, one) => sum + one, 0) / bytes.length;
	expect(perSecond).toBeLessThan(whole / 3);
	expect(perSecond).toBeLessThan(2000);
});

test('a terminal is never told to clear what has scrolled off, nor to colour anything', () => {
	const bytes = Object.values(views)
		.map(view => paint(null, painted(frameOf(view, size), view.ask === 'hold')))
		.join('');
	expect(bytes).not.toContain('\u001b[3J');
	const sequences = bytes.split('\u001b[').slice(1);
	const styles = sequences.flatMap(text => /^([0-9;]*)m/.exec(text)?.[1] ?? []);
	expect(new Set(styles)).toEqual(new Set(['0', '7']));
});
