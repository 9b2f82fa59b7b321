import { describe, expect, test } from 'vitest';
import {
	grams,
	levels_mL,
	mixAmounts,
	reducerParts,
	reducerShareOfMix,
	solidsOfMix,
} from '../../src/trade/mix.ts';
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

describe('four parts, 8:2:2:1 by volume (arithmetic: thirteen parts of 50 mL)', () => {
	const ratio = { base: 8, hardener: 2, reducer: 2, accelerator: 1 };
	const mix = mixAmounts({ ratio, make_mL: 650 });

	test('650 mL are 400 of base, 100 of hardener, 100 of reducer, 50 of accelerator', () => {
		expect(mix).toEqual({
			base_mL: 400,
			hardener_mL: 100,
			reducer_mL: 100,
			accelerator_mL: 50,
			total_mL: 650,
		});
	});

	test('and ask for levels 400, 500, 600 and 650, or in another order for its own', () => {
		expect(levels_mL(mix).map(({ level }) => level)).toEqual([400, 500, 600, 650]);
		const order = ['base', 'accelerator', 'hardener', 'reducer'] as const;
		expect(levels_mL(mix, order).map(({ level }) => level)).toEqual([400, 450, 550, 650]);
	});

	test('two thirteenths of it are reducer, so that 52 % of solids become 44 %', () => {
		expect(reducerShareOfMix(ratio)).toBeCloseTo(2 / 13, 12);
		expect(solidsOfMix(0.52, ratio)).toBeCloseTo(0.44, 12);
	});

	test('by weight, 1.2, 1.0, 0.8 and 0.8 kg/L: 1300 g come to 1233 mL (800 ÷ 1.2 + 200 + 200 ÷ 0.8 + 100 ÷ 0.8)', () => {
		const density_kg_per_L = { base: 1.2, hardener: 1, reducer: 0.8, accelerator: 0.8 };
		const make_mL = 800 / 1.2 + 200 + 250 + 125;
		const mass = grams(mixAmounts({ ratio, make_mL, by: 'weight', density_kg_per_L }), density_kg_per_L);
		for (const [component, wanted] of Object.entries({
			base: 800,
			hardener: 200,
			reducer: 200,
			accelerator: 100,
		}))
			expect(mass).toHaveProperty(component, expect.closeTo(wanted, 9));
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
