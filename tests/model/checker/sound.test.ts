import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cartDay, type Variation } from './cart-day.ts';
import { checkDayFile, expectSoundDay } from './check.ts';
import { changed, like, seal } from './draft.ts';
import { standing } from './holds.ts';

const variation: fc.Arbitrary<Partial<Variation>> = fc.record(
	{
		pace_s: fc.double({ min: 2, max: 12, noNaN: true }),
		misread: fc.dictionary(
			fc.constantFrom('breathing', 'batch', 'gauge', 'pattern', 'card'),
			fc.integer({ min: 0, max: 3 }),
		),
		cards: fc.boolean(),
		stretch: fc.boolean(),
		late_min: fc.integer({ min: 0, max: 5 }),
		visit_s: fc.integer({ min: 1, max: 600 }),
		killed: fc.boolean(),
		broken: fc.constantFrom('all', 'part', 'none'),
		joined: fc.boolean(),
		surfaceC: fc.integer({ min: 18, max: 22 }),
	},
	{ requiredKeys: [] },
);

test('a sound day passes', () => {
	expect(checkDayFile(seal(cartDay()))).toEqual([]);
});

test('sound days that differ in pace, readings, cards, stretch, visit and kill all pass', () => {
	fc.assert(
		fc.property(variation, vary => {
			expectSoundDay(seal(cartDay(vary)));
		}),
		{ numRuns: 200 },
	);
});

test('an unsound day says so with its line and property', () => {
	const records = changed(cartDay(), like('gun.checked'), { cup: ['C'] });
	expect(() => expectSoundDay(seal(records))).toThrow(/line \d+, property 15: .*cup C/);
});

test('a day cut after any byte of any line passes as far as it goes', () => {
	const bytes = seal(cartDay({ killed: true }));
	const first = bytes.indexOf(10) + 1;
	for (let cut = first; cut < bytes.length; cut += 97) expectSoundDay(bytes.subarray(0, cut));
});

test('a day cut inside a write stands where the write before left it', () => {
	const bytes = seal(cartDay());
	const { line } = lineWith(bytes, '"gun.checked"');
	expect(standing(bytes.subarray(0, line.start))).toBe('check');
	expect(standing(bytes.subarray(0, line.end - 1))).toBe('check');
	expect(standing(bytes.subarray(0, line.end))).toBe('ready');
	expect(standing(bytes)).toBe('closed');
	expect(standing(bytes.subarray(0, 100))).toBe('no day');
});

function lineWith(bytes: Uint8Array, text: string): { line: { start: number; end: number } } {
	const at = Buffer.from(bytes).indexOf(text);
	return { line: { start: bytes.lastIndexOf(10, at) + 1, end: bytes.indexOf(10, at) + 1 } };
}
