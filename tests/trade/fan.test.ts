import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
	acrossFilm,
	alongToAcross,
	bestOverlap,
	type Fan,
	filmProfile,
	strokeFilm_um,
	strokeProfile,
	variation,
} from '../../src/trade/fan.ts';
import { meanWetFilm_um } from '../../src/trade/film.ts';
import { betaHalf, integrate } from '../../src/trade/quadrature.ts';

const fan: Fan = { width_mm: 300, depth_mm: 120, beta1: 2.3, beta2: 4.1 };
const stroke = { flow_mL_per_min: 200, transfer: 0.65, speed_mm_per_s: 450 };
const betas = fc.double({ min: 1, max: 10, noNaN: true });
const fans = fc.record({
	width_mm: fc.double({ min: 60, max: 500, noNaN: true }),
	depth_mm: fc.double({ min: 30, max: 300, noNaN: true }),
	beta1: betas,
	beta2: betas,
});

describe('quadrature and closed form agree within 1e-6', () => {
	test('for the beta function', () => {
		fc.assert(
			fc.property(betas, beta => {
				const sum = integrate(angle => Math.cos(angle) ** (2 * beta - 1), -Math.PI / 2, Math.PI / 2);
				expect(Math.abs(sum - betaHalf(beta))).toBeLessThan(1e-6);
			}),
		);
	});

	test('for a stroke with the fan across, at any distance', () => {
		fc.assert(
			fc.property(fans, fc.double({ min: -1.1, max: 1.1, noNaN: true }), (any, x) => {
				const summed = strokeProfile(any, 0, (x * any.width_mm) / 2);
				const closed = (any.depth_mm / 2) * betaHalf(any.beta2) * acrossFilm(x, any.beta1);
				expect(Math.abs(summed - closed)).toBeLessThan(1e-6 * any.depth_mm);
			}),
		);
	});

	test('for the highest line with the fan along', () => {
		fc.assert(
			fc.property(fans, any => {
				const summed = strokeProfile(any, 90, 0) / strokeProfile(any, 0, 0);
				expect(Math.abs(summed / alongToAcross(any) - 1)).toBeLessThan(1e-6);
			}),
		);
	});

	test('for the variation of a parabola at half overlap, by hand', () => {
		// spacing = half the fan: f = 1 - x² + 1 - (1 - x)² on 0…1, mean 4/3, variance 1/45
		expect(variation(1.5, 0.5)).toBeCloseTo(Math.sqrt(1 / 45) / (4 / 3), 6);
	});
});

test('mass is conserved over the panel at any angle of the fan', () => {
	const angles = fc.double({ min: -180, max: 180, noNaN: true });
	fc.assert(
		fc.property(fans, angles, fc.integer({ min: 1, max: 4 }), (any, angle_deg, strokes) => {
			const step_mm = any.width_mm / 400;
			const panel = { angle_deg, spacing_mm: any.width_mm / 2, strokes, step_mm };
			const laid = filmProfile(any, stroke, panel).reduce((sum, { wet_um }) => sum + wet_um * step_mm, 0);
			const sent = (strokes * 1000 * 200 * 0.65 * 1000) / 60 / 450;
			expect(Math.abs(laid / sent - 1)).toBeLessThan(0.02);
		}),
		{ numRuns: 15 },
	);
});

test('the mean of many strokes is flow × transfer ÷ (speed × spacing)', () => {
	const panel = { angle_deg: 0, spacing_mm: 100, strokes: 9, step_mm: 1 };
	const middle = filmProfile(fan, stroke, panel).filter(({ at_mm }) => at_mm >= 300 && at_mm < 500);
	const mean = middle.reduce((sum, { wet_um }) => sum + wet_um, 0) / middle.length;
	expect(mean).toBeCloseTo(meanWetFilm_um({ ...stroke, spacing_mm: 100 }), 1);
});

test('a fan turned either way lays the same mirrored film', () => {
	expect(strokeFilm_um(fan, stroke, 30, 20)).toBeCloseTo(strokeFilm_um(fan, stroke, -30, -20), 8);
	expect(strokeFilm_um(fan, stroke, 0, 20)).toBeCloseTo(strokeFilm_um(fan, stroke, 180, 20), 8);
});

test('the best overlap grows as the fan is feathered more', () => {
	fc.assert(
		fc.property(betas, betas, (one, other) => {
			const [less, more] = [Math.min(one, other), Math.max(one, other)];
			expect(bestOverlap(less)).toBeLessThanOrEqual(bestOverlap(more) + 1e-3);
		}),
		{ numRuns: 20 },
	);
});

test.each([
	[() => variation(0.5, 0.5), 'beta1 must be 1 to 10, not 0.5'],
	[() => variation(2, 1), 'overlap must be 0 to 0.95, not 1'],
	[() => alongToAcross({ ...fan, width_mm: 0 }), 'fan width must be more than 0 mm'],
	[() => strokeFilm_um(fan, { ...stroke, transfer: 1.2 }, 0, 0), 'transfer efficiency must be 0.05 to 1'],
])('what lies outside the range is refused with the range: %#', (call, says) => {
	expect(call).toThrow(RangeError);
	expect(call).toThrow(says);
});
