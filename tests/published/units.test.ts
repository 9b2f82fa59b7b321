import { unit } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { fromUnit, inUnit, type Quantity } from '../../src/trade/quantity.ts';
import { quantities, unitsOf } from '../../src/trade/units.ts';
import { holds, type Published } from './published.ts';

const litres = (symbol: string) => (): number => fromUnit(1, 'volume', symbol) / 1000;

describe('published conversions', () => {
	const table = 'table of capacity conversion factors, imperial and US liquid';
	const rows: [string, number, number, string][] = [
		['imp fl oz', 0.0284131, 5e-8, table],
		['imp pt', 0.568261, 5e-7, table],
		['imp qt', 1.13652, 5e-6, table],
		['imp gal', 4.54609, 1e-12, 'Weights and Measures Act 1985'],
		['fl oz', 0.0295735, 5e-8, table],
		['pt', 0.473176, 6e-7, table],
		['qt', 0.946353, 5e-7, table],
		['gal', 3.785411784, 1e-11, table],
	];
	holds(
		rows.map(([symbol, value, off, source]): Published => {
			return { of: `1 ${symbol}, L`, value, off, source, here: litres(symbol) };
		}),
	);
	holds([
		{
			of: '1 inHg, kPa',
			value: 3.386389,
			off: 1e-9,
			source: 'NIST Special Publication 811, conversion factors',
			here: () => fromUnit(1, 'pressure', 'inHg'),
		},
		{
			of: '1 gal, in³',
			value: 231,
			off: 1e-9,
			source: 'NIST Handbook 44 App. C',
			here: () => fromUnit(1, 'volume', 'gal') / 2.54 ** 3,
		},
		{
			of: '1 psi, kPa',
			value: 6.894757,
			off: 1e-6,
			source: 'NIST Special Publication 811 (from memory)',
			here: () => fromUnit(1, 'pressure', 'psi'),
		},
		{
			of: '100 ft/min over the face of a booth (29 CFR 1910.107(b)(5)(i)), m/s',
			value: 0.508,
			off: 1e-9,
			source: 'NIST Handbook 44 App. C, 0.3048 m to the foot (from memory)',
			here: () => fromUnit(100, 'speed', 'ft/min') / 1000,
		},
	]);
});

/** Names by which the other library knows our units; the rest it does not have. */
const theirs: Partial<Record<Quantity, Record<string, string>>> = {
	volume: { mL: 'ml', L: 'L', 'fl oz': 'floz', pt: 'pint', qt: 'quart', gal: 'gallon' },
	area: { m2: 'm^2', cm2: 'cm^2', ft2: 'ft^2', in2: 'in^2' },
	film: { um: 'um', mil: 'mil', mm: 'mm' },
	temperature: { '°C': 'degC', '°F': 'degF' },
	pressure: { kPa: 'kPa', Pa: 'Pa', hPa: 'hPa', mbar: 'mbar', bar: 'bar', psi: 'psi' },
	length: { mm: 'mm', cm: 'cm', m: 'm', in: 'in', ft: 'ft' },
	time: { s: 's', min: 'minute', h: 'hour', d: 'day' },
	speed: {
		'mm/s': 'mm/s',
		'cm/s': 'cm/s',
		'm/s': 'm/s',
		'm/min': 'm/minute',
		'in/s': 'in/s',
		'ft/s': 'ft/s',
		'ft/min': 'ft/minute',
	},
	flow: {
		'mL/min': 'ml/minute',
		'mL/s': 'ml/s',
		'L/min': 'L/minute',
		'L/h': 'L/hour',
		'fl oz/min': 'floz/minute',
		'gal/h': 'gallon/hour',
	},
	mass: { g: 'g', kg: 'kg', oz: 'oz', lb: 'lb' },
	density: { 'kg/L': 'kg/L', 'g/mL': 'g/ml', 'kg/m3': 'kg/m^3', 'lb/gal': 'lb/gallon' },
	coverage: { 'm2/L': 'm^2/L', 'ft2/gal': 'ft^2/gallon' },
	airVolume: { m3: 'm^3', ft3: 'ft^3' },
	vapour: { 'm3/L': 'm^3/L', 'ft3/gal': 'ft^3/gallon', 'ft3/L': 'ft^3/L' },
};

test('every unit that mathjs has too is worth the same there', () => {
	let compared = 0;
	for (const kind of quantities) {
		const names = theirs[kind] ?? {};
		const base = names[unitsOf[kind][0]?.symbol ?? ''];
		for (const [symbol, name] of Object.entries(names)) {
			if (base === undefined) throw new Error(`${kind} has no base unit in common`);
			const there = unit(12.5, name).toNumber(base);
			const here = fromUnit(12.5, kind, symbol);
			expect(Math.abs(here / there - 1), `${kind} ${symbol}`).toBeLessThan(2e-6);
			expect(inUnit(there, kind, symbol), `${kind} ${symbol}`).toBeCloseTo(12.5, 4);
			compared++;
		}
	}
	expect(compared).toBeGreaterThan(40);
});
