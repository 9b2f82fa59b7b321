import psychrolib from 'psychrolib';
import { describe, expect, test } from 'vitest';
import { airVerdict, dewPoint_C, dewPointFromWetBulb_C, verdictAt } from '../../src/trade/air.ts';
import { C, F, holds, type Published } from './published.ts';

const note = 'coating inspection training note';
const sheet = 'coating information sheet 1650, June 2013, dew point table';
const anyAir = { air_C: [-20, 60], humidity_max: 1 } as const;

describe('dew point', () => {
	const table: [number, number, number][] = [
		[20, 50, 9.3],
		[20, 60, 12.0],
		[25, 50, 13.8],
		[25, 60, 16.7],
		[30, 50, 18.4],
		[30, 55, 20.0],
		[30, 60, 21.4],
		[10, 70, 4.7],
		[10, 90, 8.4],
		[15, 80, 11.5],
	];
	holds(
		table.map(
			([air, humidity, value]): Published => ({
				of: `${air} °C and ${humidity} %, °C`,
				value,
				off: 0.15,
				source: sheet,
				here: () => dewPoint_C(air, humidity / 100),
			}),
		),
	);
	const ward: [number, number, number][] = [
		[61, 6, 50],
		[62, 6, 52],
		[47, 3, 41],
	];
	holds(
		ward.map(
			([dry, depression, value]): Published => ({
				of: `${dry} °F with the wet bulb ${depression} °F lower, °F`,
				value,
				off: 1,
				source: 'Ward, Practical Exercises in Elementary Meteorology, Table I',
				here: () => F(dewPointFromWetBulb_C(C(dry), C(dry - depression))),
			}),
		),
	);
	holds([
		{ of: '16 °C and 71 %, °C', value: 11, off: 0.5, source: note, here: () => dewPoint_C(16, 0.71) },
		{
			of: 'dry 21, wet 17 °C, °C',
			value: 15,
			off: 0.5,
			source: note,
			here: () => dewPointFromWetBulb_C(21, 17),
		},
		{
			of: '13 °C surface over it, K',
			value: 2,
			off: 0.5,
			source: note,
			here: () => 13 - dewPoint_C(16, 0.71),
		},
		{
			of: '19 °C surface over it, K',
			value: 4,
			off: 0.5,
			source: note,
			here: () => 19 - dewPointFromWetBulb_C(21, 17),
		},
	]);

	test('agrees within 0.02 °C with the constants of Alduchov & Eskridge 1996 from 5 to 35 °C', () => {
		for (let air = 5; air <= 35; air++)
			for (let humidity = 0.75; humidity <= 1; humidity += 0.05) {
				const ratio = Math.log(humidity) + (17.625 * air) / (243.04 + air);
				const theirs = (243.04 * ratio) / (17.625 - ratio);
				if (theirs > 0) expect(Math.abs(dewPoint_C(air, humidity) - theirs)).toBeLessThan(0.02);
			}
	});

	test('agrees within 0.1 °C with psychrolib from 5 to 40 °C and 10 to 100 %', () => {
		psychrolib.SetUnitSystem(psychrolib.SI);
		let worst = 0;
		for (let air = 5; air <= 40; air += 0.5)
			for (let humidity = 10; humidity <= 100; humidity += 2) {
				const theirs = psychrolib.GetTDewPointFromRelHum(air, humidity / 100);
				worst = Math.max(worst, Math.abs(dewPoint_C(air, humidity / 100) - theirs));
			}
		expect(worst).toBeLessThan(0.1);
	});

	test('from a wet bulb agrees with psychrolib within 0.3 °C where dew settles, high or low', () => {
		psychrolib.SetUnitSystem(psychrolib.SI);
		for (const pressure_kPa of [101.325, 85])
			for (let air = 10; air <= 35; air += 2.5)
				for (let humidity = 0.4; humidity <= 1; humidity += 0.1) {
					const wet = psychrolib.GetTWetBulbFromRelHum(air, humidity, pressure_kPa * 1000);
					const theirs = psychrolib.GetTDewPointFromTWetBulb(air, wet, pressure_kPa * 1000);
					if (wet < 1 || theirs < 1) continue;
					expect(Math.abs(dewPointFromWetBulb_C(air, wet, pressure_kPa) - theirs)).toBeLessThan(0.3);
				}
	});
});

describe('go or no-go', () => {
	const reading = { airC: 16, humidity: 0.71, surfaceC: 13 };

	test(`16 °C, 71 %, surface 13 °C: do not paint (${note})`, () => {
		expect(airVerdict(reading, { ...anyAir, margin_C: 3 }).spray).toBe(false);
	});

	test(`dry 21, wet 17 °C, surface 19 °C: may paint (${note})`, () => {
		const second = { airC: 21, humidity: 0.67, surfaceC: 19 };
		expect(verdictAt(dewPointFromWetBulb_C(21, 17), second, { ...anyAir, margin_C: 3 }).spray).toBe(true);
	});

	test('3 °C and 5 °F are not the same margin: between them only the second is kept', () => {
		// 5 °F: MIL-HDBK-1110 §9.6.6 and Iowa DOT IM 378. 3 °C: ISO 8502-4 (from memory).
		const surfaceC = dewPoint_C(16, 0.71) + 2.9;
		expect(airVerdict({ ...reading, surfaceC }, { ...anyAir, margin_C: 3 }).spray).toBe(false);
		expect(airVerdict({ ...reading, surfaceC }, { ...anyAir, margin_C: (5 * 5) / 9 }).spray).toBe(true);
	});

	test('81 % humidity and 96 °F are outside what FAA-H-8083-31 ch. 8 gives, 79 % and 94 °F are not', () => {
		const limits = { air_C: [C(60), C(95)], humidity_max: 0.8, margin_C: 3 } as const;
		expect(airVerdict({ airC: C(96), humidity: 0.81, surfaceC: C(95) }, limits).reasons).toHaveLength(2);
		expect(airVerdict({ airC: C(94), humidity: 0.79, surfaceC: C(95) }, limits).reasons).toHaveLength(0);
	});

	test.each([
		[44, 44, 2],
		[46, 44, 1],
		[46, 46, 0],
		[89, 89, 0],
		[89, 91, 1],
	])(
		'air %i °F, surface %i °F: %i reasons, by the one range that MIL-HDBK-1110 §7.4.1 gives for both',
		(air, surface, reasons) => {
			const limits = { air_C: [C(45), C(90)], humidity_max: 1, margin_C: 3 } as const;
			const reading = { airC: C(air), humidity: 0.4, surfaceC: C(surface) };
			expect(airVerdict(reading, limits).reasons).toHaveLength(reasons);
		},
	);
});

test('the °F chart that circulates among painters reads over 2 °F low at 100 °F and 40 %, the unsafe way', () => {
	// From memory: 69 °F there, for air of 100 °F at 40 %.
	const chart = 69;
	expect(F(dewPoint_C(C(100), 0.4)) - chart).toBeGreaterThan(2);
});
