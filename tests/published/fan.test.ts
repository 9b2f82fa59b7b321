import { describe, expect, test } from 'vitest';
import { stripes } from '../../src/cli/work/fan.ts';
import { bestOverlap, variation } from '../../src/trade/fan.ts';
import { betaHalf } from '../../src/trade/quadrature.ts';
import { holds, type Published } from './published.ts';

const uniformity = '"Coating uniformity with a uniform robotic spray gun velocity"';

describe('best overlap', () => {
	holds([
		{
			of: 'parabola across the stroke',
			value: 0.3,
			off: 0.01,
			source: uniformity,
			here: () => bestOverlap(1.5),
		},
		{
			of: 'variance of the parabola there, peak 1',
			value: 0.0025,
			off: 0.0002,
			source: uniformity,
			here: () => {
				const overlap = bestOverlap(1.5);
				const mean = 4 / 3 / (2 * (1 - overlap));
				return (variation(1.5, overlap) * mean) ** 2;
			},
		},
		{
			of: 'ellipse across the stroke',
			value: 0.17,
			off: 0.011,
			source: '"Path generation for planar spray painting"',
			here: () => bestOverlap(1),
		},
	]);
	/** The first harmonic of the stripes vanishes where J of order β1 does at 2π a ÷ spacing. */
	const zeros: [number, number][] = [
		[2, 5.1356],
		[3, 6.3802],
		[4, 7.5883],
		[5, 8.7715],
	];
	holds(
		zeros.map(
			([beta1, zero]): Published => ({
				of: `β1 = ${beta1}, by the first zero ${zero} of J${beta1}`,
				value: 1 - Math.PI / zero,
				off: 0.005,
				source: 'table of Bessel function zeros, Wolfram MathWorld',
				here: () => bestOverlap(beta1),
			}),
		),
	);
});

describe('beta function', () => {
	const source = 'Abramowitz & Stegun ch. 6 (from memory)';
	holds([
		{ of: 'B(½, 1)', value: 2, off: 1e-12, source, here: () => betaHalf(1) },
		{ of: 'B(½, 3/2)', value: Math.PI / 2, off: 1e-12, source, here: () => betaHalf(1.5) },
		{ of: 'B(½, 2)', value: 4 / 3, off: 1e-12, source, here: () => betaHalf(2) },
	]);
});

describe('half overlap, the common advice (NAVAIR 01-1A-509-2 App. A; MIL-HDBK-1110 §9.6.8.1)', () => {
	test('is within 1 % of best for a well-feathered fan', () => {
		expect(variation(3, 0.5) - variation(3, bestOverlap(3))).toBeLessThan(0.01);
		expect(Math.abs(bestOverlap(3) - 0.5)).toBeLessThan(0.01);
	});

	test('is visibly striped for a flat one', () => {
		expect(variation(1, 0.5)).toBeGreaterThan(0.1);
		expect(variation(1.5, 0.5)).toBeGreaterThan(0.1);
	});

	test('the plot shows it: the top row of a feathered fan is level, of a flat one broken into stripes', () => {
		const insideTop = (beta1: number): string[] => {
			const bars = stripes(beta1, 0.5)[1]?.split('|')[1]?.trim() ?? '';
			return [...bars].slice(8, -8);
		};
		expect(new Set(insideTop(1)).has(' ')).toBe(true);
		expect(new Set(insideTop(3)).has(' ')).toBe(false);
		expect(stripes(3, 0.5).join('\n')).toMatchSnapshot();
		expect(stripes(1, 0.5).join('\n')).toMatchSnapshot();
	});
});
