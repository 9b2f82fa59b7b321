import { describe, expect, test } from 'vitest';
import { cupKinds, cupNamed, cupReading, cupSeconds, cupViscosity } from '../../src/trade/cup.ts';
import { holds, type Published } from './published.ts';

const at = (kind: string, seconds: number): number =>
	cupViscosity(cupNamed(kind), seconds).viscosity_mm2_per_s;

describe('standard oils', () => {
	const oils: [string, number, number][] = [
		['ford4', 36, 120],
		['ford4', 64, 230],
		['zahn2', 33, 66],
		['zahn2', 48, 120],
	];
	holds(
		oils.map(
			([cup, seconds, value]): Published => ({
				of: `${seconds} s in ${cup}, mm²/s`,
				value,
				off: value * 0.03,
				source: 'calibration tables of cups, within the 3 % they allow',
				here: () => at(cup, seconds),
			}),
		),
	);
});

describe('formulas at the ends of their range', () => {
	const d1200 = 'ASTM D1200, formula';
	const d4212 = 'ASTM D4212, formula';
	const iso = 'ISO 2431, range of the cup (from memory)';
	const ends: [string, number, number, number, string][] = [
		['ford1', 55, 9.8, 0.05, d1200],
		['ford2', 40, 31.7, 0.05, d1200],
		['ford3', 20, 31, 0.05, d1200],
		['ford4', 100, 367.7, 0.05, d1200],
		['ford5', 20, 217.8, 0.05, d1200],
		['zahn1', 80, 56.1, 0.05, d4212],
		['zahn3', 20, 146.3, 0.1, d4212],
		['zahn4', 20, 222, 0.05, d4212],
		['zahn5', 80, 1840, 0.05, d4212],
		['iso3', 30, 7, 0.5, iso],
		['iso3', 100, 42, 0.5, iso],
		['iso4', 30, 34, 0.5, iso],
		['iso4', 100, 135, 0.5, iso],
		['iso5', 30, 91, 0.5, iso],
		['iso5', 100, 326, 0.5, iso],
		['iso6', 30, 188, 0.5, iso],
		['iso6', 100, 684, 0.5, iso],
	];
	holds(
		ends.map(
			([cup, seconds, value, off, source]): Published => ({
				of: `${seconds} s in ${cup}, mm²/s`,
				value,
				off,
				source,
				here: () => at(cup, seconds),
			}),
		),
	);
});

describe('a cup', () => {
	test('goes from seconds to viscosity and back, all over its range', () => {
		for (const kind of cupKinds) {
			const [from, to] = cupViscosity(kind, 60).range_s;
			for (let seconds = from; seconds <= to; seconds += 2.5)
				expect(cupSeconds(kind, at(kind, seconds))).toBeCloseTo(seconds, 6);
		}
	});

	test('says where its range ends', () => {
		expect(cupViscosity('ford4', 19.9).in_range).toBe(false);
		expect(cupViscosity('ford4', 20).in_range).toBe(true);
		expect(cupViscosity('zahn2', 80.1).in_range).toBe(false);
		expect(() => cupViscosity('zahn2', 14)).toThrow(
			'zahn2 says nothing of 14 s, and is good from 20 to 80 s: use a finer cup, zahn1',
		);
	});

	test('names a finer one where it runs out too fast and there is one, and asks for none where there is none', () => {
		expect(() => cupViscosity('ford2', 10)).toThrow(/use a finer cup, ford1$/);
		expect(() => cupViscosity('ford1', 20)).toThrow(/use a finer cup, iso3$/);
		expect(() => cupViscosity('zahn1', 20)).toThrow(/no cup known here is finer: time it again$/);
		expect(() => cupViscosity('iso4', 5)).toThrow(
			/^iso4 says nothing of 5 s, and is good from 30 to 100 s: /,
		);
	});

	test('is known by the ways it is written', () => {
		expect(['Ford 4', 'FORD-4', 'ford cup no. 4', 'Ford #4'].map(cupNamed)).toEqual(Array(4).fill('ford4'));
		expect(cupNamed('ISO 4 mm')).toBe('iso4');
		expect(() => cupNamed('fort4')).toThrow('the nearest is "ford4"');
	});

	test('read too short is thin, too long is thick', () => {
		expect(cupReading([18, 22], 17)).toEqual({ fits: false, found: 'thin' });
		expect(cupReading([18, 22], 22)).toEqual({ fits: true, found: 'right' });
		expect(cupReading([18, 22], 23)).toEqual({ fits: false, found: 'thick' });
	});
});
