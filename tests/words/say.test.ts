import fc from 'fast-check';
import { expect, test } from 'vitest';
import { figure } from '../../src/words/say.ts';

test('a number is said as it is read off a scale', () => {
	expect(figure(17.763265306122452)).toBe('17.8');
	expect([0, 21, 0.0625, -2.3456, 99.96, 100.4, 1234.5].map(figure)).toEqual(
		['0', '21', '0.0625', '-2.35', '100', '100', '1235'].map(String),
	);
});

test('what is said is never off by more than half a hundredth of it', () => {
	const numbers = fc.double({ min: -1e6, max: 1e6, noNaN: true }).filter(value => Math.abs(value) > 1e-6);
	fc.assert(
		fc.property(numbers, value => {
			expect(Math.abs(Number(figure(value)) - value)).toBeLessThanOrEqual(Math.abs(value) * 0.005 + 1e-12);
		}),
	);
});
