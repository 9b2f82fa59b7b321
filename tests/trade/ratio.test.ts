import fc from 'fast-check';
import { expect, test } from 'vitest';
import { extras } from '../../src/trade/mix.ts';
import { extrasWritten, readRatio } from '../../src/trade/ratio.ts';

test.each([
	['2:1', { base: 2, hardener: 1, reducer: null }],
	['2:1:1', { base: 2, hardener: 1, reducer: 1 }],
	['2:1:0', { base: 2, hardener: 1, reducer: 0 }],
	['8:2:2:1 accelerator', { base: 8, hardener: 2, reducer: 2, accelerator: 1 }],
	['8:2:1 accelerator', { base: 8, hardener: 2, reducer: null, accelerator: 1 }],
	[
		'4:1:.5:0.1 accelerator:2 flattener',
		{ base: 4, hardener: 1, reducer: 0.5, accelerator: 0.1, flattener: 2 },
	],
	['4:1:2 flattener:1 reducer', { base: 4, hardener: 1, reducer: 1, flattener: 2 }],
])('%s', (text, parts) => {
	expect(readRatio(text)).toEqual(parts);
});

test.each([
	['two to one', 1, 'base:hardener or base:hardener:reducer'],
	['2', 1, 'base:hardener'],
	['2:x:1', 3, 'base:hardener'],
	['8:2:2:1', 7, 'what the part behind the reducer is, as in "1 accelerator" or "1 flattener"'],
	['8:2:2:1 thinner', 7, 'what the part behind the reducer is'],
	['8:2:2:-1 accelerator', 7, 'more than 0 of accelerator'],
	['8:2:2:0 flattener', 7, 'more than 0 of flattener'],
	['8:0:2', 3, 'more than 0 of hardener'],
	['8:2:-2', 5, 'more than 0 of reducer, or 0'],
	['8:2:2:1 flattener:1 flattener', 19, 'each part once: flattener is there twice'],
	['8:2:2:1 reducer', 7, 'each part once: reducer is there twice'],
	['8:2:2:1001 flattener', 7, 'parts up to 1000'],
	['8 base:2 hardener', 1, 'base:hardener'],
])('%s cannot be read: at column %i %s', (text, column, wanted) => {
	expect(readRatio(text)).toEqual({ column, wanted: expect.stringContaining(wanted) });
});

test('what is written of a ratio is read again', () => {
	const part = fc.integer({ min: 1, max: 9999 }).map(tenth => tenth / 10);
	const own = fc.record({ base: part, hardener: part, reducer: part });
	const more = fc.record({ accelerator: part, flattener: part }, { requiredKeys: [] });
	fc.assert(
		fc.property(own, more, ({ base, hardener, reducer }, beside) => {
			const ratio = { base, hardener, reducer, ...beside };
			expect(readRatio(`${base}:${hardener}:${reducer}${extrasWritten(ratio)}`)).toEqual(ratio);
			expect(Object.keys(beside).every(name => extras.some(extra => extra === name))).toBe(true);
		}),
	);
});
