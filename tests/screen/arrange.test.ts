import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { View } from '../../src/day/view.ts';
import { arrange, tooSmall } from '../../src/screen/arrange.ts';
import { lowFont } from '../../src/screen/glyphs.ts';
import { columnsOf } from '../../src/screen/inert.ts';
import { blockLine } from '../../src/screen/letters.ts';
import { nothingPassing, type Size } from '../../src/screen/passing.ts';
import { readingDistance_m } from '../../src/screen/reading-distance.ts';
import { savedViews } from './saved.ts';
import { frameOf } from './show.ts';
import { viewOf, views } from './views.ts';

const anyView = fc.constantFrom(...Object.values(views), ...Object.values(savedViews()));
const anySize = fc.record({
	columns: fc.integer({ min: 40, max: 200 }),
	rows: fc.integer({ min: 12, max: 60 }),
});
const words = fc.array(fc.string({ unit: 'binary', minLength: 1, maxLength: 14 }), { maxLength: 14 });

test('at any size a frame is lower than the terminal by one row, and no wider', () => {
	fc.assert(
		fc.property(anyView, anySize, words, (view, size, said) => {
			const odd = {
				...view,
				say: said.join(' '),
				lines: [said.join(''), ...view.lines],
				face: said[0] ?? null,
			};
			for (const shown of [view, odd]) {
				const frame = frameOf(shown, size);
				expect(frame.length).toBeLessThanOrEqual(size.rows - 1);
				for (const line of frame) expect(columnsOf(line)).toBeLessThanOrEqual(size.columns);
			}
		}),
		{ numRuns: 40 },
	);
});

test('a name in wide characters moves nothing that stands beside it', () => {
	const size = { columns: 80, rows: 24 };
	const left = (lines: string[]) => {
		const frame = frameOf({ ...viewOf('ready'), lines }, size);
		const row = frame.find(line => line.includes('horns upright')) ?? '';
		return columnsOf(row.slice(0, row.indexOf('horns')));
	};
	expect(left(['門の縁', '門', '蓋'])).toBe(left(['a', 'b', 'c']));
	const rows = frameOf({ ...viewOf('ready'), lines: ['門門門門門', '門門', '門'] }, size);
	expect(Math.max(...rows.map(columnsOf))).toBeLessThanOrEqual(80);
});

test('at any size everything that is asked can be read: every answer, the sentence, the word', () => {
	fc.assert(
		fc.property(anyView, anySize, (view, size) => {
			const of = arrange(view, size, nothingPassing, 'half');
			expect(Object.keys(of.answers).sort()).toEqual(Object.keys(view.corners).sort());
			expect(of.say.join(' ')).toBe(view.say);
			expect(of.word.length).toBeGreaterThan(0);
			const frame = frameOf(view, size);
			const place = of.say.map(line => frame.findIndex(row => row.includes(line)));
			expect(place.every(row => row >= 0)).toBe(true);
		}),
		{ numRuns: 40 },
	);
});

test('no byte of a name can do anything to the terminal', () => {
	const evil = 'door\u001b[2J\u0007\u009b31m\u202e\u200b\n\r\u0000 lid';
	const corners = { topLeft: { code: 'x', text: evil } };
	const view = { ...viewOf('pattern'), say: evil, lines: [evil], face: `${evil}/${evil}`, corners };
	const frame = frameOf(view, { columns: 80, rows: 24 });
	expect(frame.join('')).not.toMatch(/[\p{Cc}\u200b\u202e]/u);
	expect(frame.join('\n')).toContain('door·[2J·');
});

test('a terminal is too small under 40 by 12, and not at it', () => {
	const verdict = (columns: number, rows: number) => tooSmall({ columns, rows } satisfies Size);
	expect([verdict(40, 12), verdict(39, 12), verdict(40, 11)]).toEqual([false, true, true]);
});

test('the picture is drawn only of what was read, or is being set', () => {
	const picture = (view: View) =>
		arrange(view, { columns: 80, rows: 24 }, nothingPassing, 'half').picture.join('\n');
	const { gun, ...unread } = viewOf('ready');
	expect(picture(viewOf('do'))).toContain('horns upright');
	expect(picture(viewOf('do'))).not.toContain('up and down');
	expect(picture({ ...viewOf('pattern'), ...(gun && { gun }) })).toBe('');
	expect(picture(viewOf('ready'))).toContain('up and down');
	expect(picture(unread)).toBe('');
});

test('the critical word of the usual window can be read from two metres', () => {
	// A laptop's picture 190 mm high: the standard setting.
	for (const name of ['hold', 'pattern', 'spraying', 'wait', 'touch']) {
		const of = arrange(viewOf(name), { columns: 80, rows: 24 }, nothingPassing, 'half');
		expect(readingDistance_m(190, 24, of.wordRows)).toBeGreaterThan(2);
	}
});

test('an instruction that has no room for its whole word is drawn by the way to turn', () => {
	const kept = savedViews()['gunCheck.horns.differs (do)'];
	if (!kept) throw new Error('no such screen is kept');
	const step = { code: 'set-horns', to: 'upright' };
	const lines = ['Read LEVEL. Wanted UPRIGHT.', 'Gun held as for wheel-arch cover lip, laid over.'];
	const view = { ...kept, do: [step], lines };
	const small = arrange(view, { columns: 40, rows: 12 }, nothingPassing, 'half');
	expect(small.word).toEqual(blockLine(String(step.to).toUpperCase(), lowFont, 1, 'half')?.rows);
	expect(arrange(view, { columns: 80, rows: 24 }, nothingPassing, 'half').word[0]?.length).toBeGreaterThan(
		50,
	);
});
