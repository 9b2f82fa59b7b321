import fc from 'fast-check';
import { expect, test } from 'vitest';
import { coatCounted, figure, groupedFaces } from '../../src/words/say.ts';

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

test('faces of parts that are alike but for their number are named together, each of them', () => {
	const ids = [
		'seat 10/top',
		'frame 1/tubes',
		'frame 2/tubes',
		'seat 8/top',
		'seat 9/top',
		'lid/top',
		'seat 1/top',
	];
	expect(groupedFaces(ids)).toBe('seat 1, 8 to 10 top; frame 1, 2 tubes; lid top');
});

test('a coat is counted against the plan, and one beyond it is not', () => {
	expect([coatCounted(2, 3), coatCounted(3, 3), coatCounted(4, 3), coatCounted(1, null)]).toEqual([
		'coat 2 of 3',
		'coat 3 of 3',
		'coat 4',
		'coat 1',
	]);
});
