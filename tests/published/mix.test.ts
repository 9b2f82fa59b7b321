import { describe, expect, test } from 'vitest';
import { levels_mL, mixAmounts, reducerParts, reducerShareOfMix } from '../../src/trade/mix.ts';
import { dilution_m3, exposure_m3 } from '../../src/trade/ventilation.ts';
import { holds } from './published.ts';

const flOz_mL = 29.5735295625;
const ft3_m3 = 0.028316846592;
const gallon_L = 3.785411784;

describe('polyurethane for spraying, 2:1:1 (common practice, no source)', () => {
	const mix = mixAmounts({ ratio: { base: 2, hardener: 1, reducer: 1 }, make_mL: 16 * flOz_mL });

	test('16 fl oz are 8 of base, 4 of hardener, 4 of reducer', () => {
		const { base_mL, hardener_mL, reducer_mL } = mix;
		expect([base_mL, hardener_mL, reducer_mL].map(mL => mL / flOz_mL)).toEqual([8, 4, 4]);
	});

	test('and ask for levels 8, 12 and 16', () => {
		expect(levels_mL(mix).map(({ level }) => level / flOz_mL)).toEqual([8, 12, 16]);
	});
});

describe('epoxy primer 1:1 reduced 15 % (common practice, no source)', () => {
	const ratio = { base: 1, hardener: 1, reducer: reducerParts(0.15, { base: 1, hardener: 1 }) };

	test('a litre is 435 of base, 435 of hardener, 130 of reducer', () => {
		const { base_mL, hardener_mL, reducer_mL } = mixAmounts({ ratio, make_mL: 1000 });
		expect([base_mL, hardener_mL, reducer_mL].map(Math.round)).toEqual([435, 435, 130]);
	});

	test('13 % of the whole is reducer', () => {
		expect(reducerShareOfMix(ratio)).toBeCloseTo(0.1304, 4);
	});
});

describe('dilution of solvent vapour', () => {
	const toluene = { vapour_m3_per_L: (30.4 * ft3_m3) / gallon_L, lel: 0.014, solvent_L: gallon_L };
	holds([
		{
			of: 'a gallon of toluene, 30.4 ft³/gal, LEL 1.4 %, ft³',
			value: 8564,
			off: 1,
			source: '29 CFR 1910.94(c)(6)(ii) (from memory)',
			here: () => dilution_m3(toluene) / ft3_m3,
		},
	]);

	// 403 ft³ a pint-molecule × specific gravity ÷ (molecular weight × limit): a university's form of general dilution.
	const perPint_ft3 = (403 * 0.866) / 92.13;
	holds([
		{
			of: 'a pint of toluene kept at 100 ppm, ft³',
			value: perPint_ft3 / 100e-6,
			off: 150,
			source: 'University of Toledo, ventilation formulae, ch. 10: (403 × 10⁶ × SG × ER) ÷ (MW × C)',
			here: () => exposure_m3({ ...toluene, solvent_L: gallon_L / 8, limit: 100e-6, mixing: 1 }) / ft3_m3,
		},
	]);

	test('health wants far more air than fire, and more where the room mixes badly', () => {
		const health = { ...toluene, limit: 100e-6, mixing: 1 };
		expect(exposure_m3(health) / dilution_m3(toluene)).toBeGreaterThan(30);
		expect(exposure_m3({ ...health, mixing: 5 })).toBeCloseTo(5 * exposure_m3(health), 6);
		expect(() => exposure_m3({ ...health, limit: 0.5 })).toThrow(/exposure limit must be 1 to 10000 ppm/);
		expect(() => exposure_m3({ ...health, mixing: 0.5 })).toThrow(/mixing must be 1 to 10 times/);
	});

	test('grows with the solvent, and shrinks as the limit is higher', () => {
		expect(dilution_m3({ ...toluene, solvent_L: 2 * gallon_L })).toBeCloseTo(2 * dilution_m3(toluene), 9);
		expect(dilution_m3({ ...toluene, lel: 0.012 })).toBeGreaterThan(dilution_m3(toluene));
	});

	test.each([
		[{ ...toluene, lel: 1 }, 'lower explosive limit must be 0.1 to 50 %, not 100'],
		[{ ...toluene, vapour_m3_per_L: 30.4 }, 'vapour must be 0.05 to 1 m³/L, not 30.4'],
		[{ ...toluene, solvent_L: 0 }, 'solvent must be more than 0 L'],
	])('outside its range it is refused: %#', (given, says) => {
		expect(() => dilution_m3(given)).toThrow(says);
	});
});
