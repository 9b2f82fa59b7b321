import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { airStale, airVerdict, dewPoint_C, dewPointFromWetBulb_C, humidityAt } from '../../src/trade/air.ts';

const airs = fc.double({ min: -5, max: 45, noNaN: true });
const humidities = fc.double({ min: 0.05, max: 1, noNaN: true });
const limits = { air_C: [15, 30], humidity_max: 0.8, margin_C: 3 } as const;
const fine = { airC: 21, humidity: 0.5, surfaceC: 20 };

describe('dew point', () => {
	test('is never over the air, and is the air at 100 %', () => {
		fc.assert(
			fc.property(fc.double({ min: 0, max: 45, noNaN: true }), humidities, (air, humidity) => {
				expect(dewPoint_C(air, humidity)).toBeLessThanOrEqual(air + 1e-9);
				expect(dewPoint_C(air, 1)).toBeCloseTo(air, 9);
			}),
		);
	});

	test('rises with the humidity and with the air', () => {
		fc.assert(
			fc.property(airs, humidities, humidities, (air, one, other) => {
				const [dry, damp] = [Math.min(one, other), Math.max(one, other)];
				expect(dewPoint_C(air, dry)).toBeLessThanOrEqual(dewPoint_C(air, damp) + 1e-9);
				expect(dewPoint_C(air, dry)).toBeLessThanOrEqual(dewPoint_C(air + 1, dry));
			}),
		);
	});

	test('goes back to the humidity it came from', () => {
		fc.assert(
			fc.property(airs, humidities, (air, humidity) => {
				expect(humidityAt(air, dewPoint_C(air, humidity))).toBeCloseTo(humidity, 6);
			}),
		);
	});

	test('from a wet bulb as warm as the air is the air', () => {
		expect(dewPointFromWetBulb_C(20, 20)).toBeCloseTo(20, 9);
	});

	test.each([
		[() => dewPoint_C(20, 0), 'humidity must be 1 to 100 %, not 0'],
		[() => dewPoint_C(20, 1.2), 'humidity must be 1 to 100 %, not 120'],
		[() => dewPoint_C(80, 0.5), 'air temperature must be -20 to 60 °C, not 80'],
		[() => dewPointFromWetBulb_C(20, 21), 'wet bulb must be 0 to 20 °C, not 21'],
		[() => dewPointFromWetBulb_C(30, 5), 'wet the wick'],
		[() => dewPointFromWetBulb_C(30, 25, 1013), 'pressure must be 60 to 110 kPa'],
	])('outside its range it is refused: %#', (call, says) => {
		expect(call).toThrow(RangeError);
		expect(call).toThrow(says);
	});
});

describe('go or no-go', () => {
	test('is go with no reason against it', () => {
		expect(airVerdict(fine, limits)).toMatchObject({ spray: true, reasons: [] });
	});

	test('names every reason at once', () => {
		const { spray, reasons } = airVerdict({ airC: 34, humidity: 0.9, surfaceC: 30 }, limits);
		expect(spray).toBe(false);
		expect(reasons).toHaveLength(3);
		expect(reasons.join(' ')).toMatch(
			/below the dew point.*over the material's 30 °C.*over the material's 80%/,
		);
	});

	test('says the reason in the units of the shop', () => {
		expect(airVerdict({ ...fine, airC: 10, humidity: 0.3 }, limits, 'us').reasons).toEqual([
			"air 50 °F is under the material's 59 °F",
		]);
	});

	test.each([
		[{ ...fine, airC: 15, surfaceC: 20 }, true],
		[{ ...fine, airC: 14.9, surfaceC: 20 }, false],
		[{ ...fine, airC: 30, surfaceC: 30 }, true],
		[{ ...fine, airC: 30.1, surfaceC: 30 }, false],
		[{ ...fine, humidity: 0.8, surfaceC: 25 }, true],
		[{ ...fine, humidity: 0.801, surfaceC: 25 }, false],
	])('a limit may be touched and not passed: %j', (reading, spray) => {
		expect(airVerdict(reading, limits).spray).toBe(spray);
	});

	test.each([
		[{ ...fine, surfaceC: 15, humidity: 0.3 }, true],
		[{ ...fine, surfaceC: 14.9, humidity: 0.3 }, false],
		[{ ...fine, surfaceC: 30 }, true],
		[{ ...fine, surfaceC: 30.1 }, false],
	])('the limits of the air hold for the surface where it has none of its own: %j', (reading, spray) => {
		expect(airVerdict(reading, limits).spray).toBe(spray);
	});

	test('the reason says that it is the surface, which way, and by which limit', () => {
		expect(airVerdict({ ...fine, surfaceC: 65 }, limits).reasons).toEqual([
			'surface 65 °C is over the 30 °C allowed',
		]);
		const cold = airVerdict({ airC: 21, humidity: 0.1, surfaceC: 2 }, limits, 'us');
		expect(cold.reasons).toEqual(['surface 36 °F is under the 59 °F allowed']);
	});

	test('limits of its own go before those of the air, wider or narrower', () => {
		const own = { ...limits, surface_C: [18, 40] } as const;
		expect(airVerdict({ ...fine, surfaceC: 38 }, own).spray).toBe(true);
		expect(airVerdict({ ...fine, surfaceC: 17, humidity: 0.3 }, own).reasons).toEqual([
			'surface 17 °C is under the 18 °C allowed',
		]);
	});

	test('a surface exactly at the margin may be sprayed, a tenth under it not', () => {
		const damp = { ...fine, humidity: 0.65 };
		const dew = dewPoint_C(21, 0.65);
		expect(airVerdict({ ...damp, surfaceC: dew + 3 }, limits).spray).toBe(true);
		expect(airVerdict({ ...damp, surfaceC: dew + 2.9 }, limits).spray).toBe(false);
	});
});

test('a reading of the air ages after 4 h, or by a hold longer than 30 min', () => {
	expect(airStale({ age_h: 4, hold_min: 30 })).toBe(false);
	expect(airStale({ age_h: 4.1, hold_min: 0 })).toBe(true);
	expect(airStale({ age_h: 0.6, hold_min: 31 })).toBe(true);
	expect(airStale({ age_h: 2, hold_min: 0 }, { age_h: 1, hold_min: 30 })).toBe(true);
});
