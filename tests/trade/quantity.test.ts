import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromUnit, inUnit, parseQuantity, type Quantity } from '../../src/trade/quantity.ts';
import { entryUnit, format, formatRange } from '../../src/trade/shown.ts';
import { quantities, unitsOf } from '../../src/trade/units.ts';

const value = (text: string, kind: Quantity): number => {
	const parsed = parseQuantity(text, kind);
	if (!parsed.ok) throw new Error(parsed.message);
	return parsed.value;
};
const refusal = (text: string, kind: Quantity) => {
	const parsed = parseQuantity(text, kind);
	if (parsed.ok) throw new Error(`${text} was read as ${parsed.value}`);
	return parsed;
};

describe('a quantity is read with its unit', () => {
	test.each<[string, Quantity, number]>([
		['16 fl oz', 'volume', 473.176473],
		['16 fl. oz.', 'volume', 473.176473],
		['16 imp fl oz', 'volume', 454.609],
		['1 gal', 'volume', 3785.411784],
		['1 qt', 'volume', 946.352946],
		['1 L', 'volume', 1000],
		['1.5 litres', 'volume', 1500],
		['250mL', 'volume', 250],
		['2 m²', 'area', 2],
		['2 m2', 'area', 2],
		['144 in2', 'area', 0.09290304],
		['1 ft²', 'area', 0.09290304],
		['50 µm', 'film', 50],
		['50 μm', 'film', 50],
		['50 um', 'film', 50],
		['1.5 mil', 'film', 38.1],
		['70 °F', 'temperature', 21.1111111111111],
		['70 F', 'temperature', 21.1111111111111],
		['-40 °F', 'temperature', -40],
		['16 ℃', 'temperature', 16],
		['5 °F', 'temperatureDifference', 2.77777777777778],
		['3 °C', 'temperatureDifference', 3],
		['29 psi', 'pressure', 199.947953],
		['2 bar', 'pressure', 200],
		['6 in', 'length', 152.4],
		['6"', 'length', 152.4],
		['2 h', 'time', 7200],
		['45 min', 'time', 2700],
		['1 ft/s', 'speed', 304.8],
		['0.5 m/s', 'speed', 500],
		['10 fl oz/min', 'flow', 295.7352956],
		['200 mL / min', 'flow', 200],
		['42%', 'share', 0.42],
		['42 %', 'share', 0.42],
		['0.42', 'share', 0.42],
		['1.2 kg', 'mass', 1200],
		['1.3 g/mL', 'density', 1.3],
		['30.4 ft3/gal', 'vapour', 0.22740779],
	])('%s is read as %s', (text, kind, wanted) => {
		expect(value(text, kind)).toBeCloseTo(wanted, 6);
	});

	test('a litre is 1000 mL and not a hair more', () => {
		expect(value('1 L', 'volume')).toBe(1000);
		expect(value('42%', 'share')).toBe(0.42);
	});
});

describe('what cannot be read is refused with the column and the nearest unit', () => {
	test.each<[string, Quantity, number, string]>([
		['16 fl ozz', 'volume', 4, '"fl oz"'],
		['16 galons', 'volume', 4, '"gal"'],
		['1.5 mill', 'film', 5, '"mil"'],
		['70 °G', 'temperature', 4, '"°C"'],
		['3 psy', 'pressure', 3, '"psi"'],
		['16 psi', 'volume', 4, 'a pressure'],
		['  fl oz', 'volume', 3, 'begins with a number'],
		['16', 'volume', 3, 'a unit is missing'],
		['42', 'share', 3, '42%'],
		['70 °', 'temperature', 4, 'unknown unit "°"'],
		['1', 'share', 2, '42%'],
		['1,5 mil', 'film', 2, 'point'],
		['-3 mL', 'volume', 1, 'negative'],
		['', 'time', 1, 'a time begins with a number'],
	])('%s as %s: column %i', (text, kind, column, says) => {
		const refused = refusal(text, kind);
		expect(refused.column).toBe(column);
		expect(refused.message).toContain(says);
		expect(refused.message).not.toContain('\n');
	});
});

test('every unit goes there and back', () => {
	const units = quantities.flatMap(kind =>
		unitsOf[kind].filter(unit => unit.symbol !== '').map(unit => ({ kind, symbol: unit.symbol })),
	);
	fc.assert(
		fc.property(
			fc.constantFrom(...units),
			fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
			(unit, number) => {
				const back = inUnit(fromUnit(number, unit.kind, unit.symbol), unit.kind, unit.symbol);
				expect(Math.abs(back - number)).toBeLessThanOrEqual(1e-9 * Math.max(1, number));
			},
		),
	);
});

test('no spelling stands for two units of one kind', () => {
	for (const kind of quantities) {
		const all = unitsOf[kind].flatMap(unit => [unit.symbol, ...unit.also]).map(text => text.toLowerCase());
		expect(new Set(all).size, kind).toBe(all.length);
	}
});

describe('a quantity is said in the units of the shop', () => {
	test.each<[number, Quantity, string, string]>([
		[473.176, 'volume', '16 fl oz', '473 mL'],
		[1500, 'volume', '1.59 qt', '1.5 L'],
		[38.1, 'film', '1.5 mil', '38 µm'],
		[21.1, 'temperature', '70 °F', '21.1 °C'],
		[-5, 'temperature', '23 °F', '−5 °C'],
		[200, 'pressure', '29 psi', '200 kPa'],
		[2, 'area', '21.5 ft²', '2 m²'],
		[0.65, 'share', '65%', '65%'],
		[2700, 'time', '45 min', '45 min'],
		[0, 'volume', '0 fl oz', '0 mL'],
	])('%f %s', (number, kind, us, metric) => {
		expect(format(number, kind, 'us')).toBe(us);
		expect(format(number, kind, 'metric')).toBe(metric);
	});

	test('a range has one unit, and is one value where both ends read the same', () => {
		expect(formatRange(120, 150, 'volume', 'metric')).toBe('120–150 mL');
		expect(formatRange(120.1, 120.3, 'volume', 'metric')).toBe('120 mL');
	});

	test('an entry has one unit whatever the size', () => {
		expect(entryUnit('volume', 'us')).toEqual({ unit: 'fl oz', symbol: 'fl oz', step: 0.1 });
		expect(entryUnit('film', 'metric').unit).toBe('µm');
	});
});
