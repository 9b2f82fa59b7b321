import { nearest } from './nearest.ts';
import { type Quantity, quantities, type Unit, unitsOf } from './units.ts';

export type { Quantity } from './units.ts';

export type Parsed = { ok: true; value: number } | { ok: false; column: number; message: string };
export type UnitSystem = 'us' | 'metric';

/** What a kind is called in a sentence, and how one is written. */
const named: Record<Quantity, { a: string; like: string }> = {
	volume: { a: 'a volume', like: '16 fl oz' },
	area: { a: 'an area', like: '2 m2' },
	film: { a: 'a film', like: '1.5 mil' },
	temperature: { a: 'a temperature', like: '70 °F' },
	temperatureDifference: { a: 'a difference of temperature', like: '3 °C' },
	pressure: { a: 'a pressure', like: '29 psi' },
	length: { a: 'a length', like: '10 in' },
	time: { a: 'a time', like: '45 min' },
	speed: { a: 'a speed', like: '1.5 ft/s' },
	flow: { a: 'a flow', like: '200 mL/min' },
	share: { a: 'a share', like: '42%' },
	mass: { a: 'a mass', like: '250 g' },
	density: { a: 'a density', like: '1.3 kg/L' },
	coverage: { a: 'a coverage', like: '10 m2/L' },
	viscosity: { a: 'a viscosity', like: '60 mm2/s' },
	airVolume: { a: 'a volume of air', like: '100 m3' },
	vapour: { a: 'a volume of vapour', like: '30.4 ft3/gal' },
};

const mayBeNegative: ReadonlySet<Quantity> = new Set(['temperature', 'temperatureDifference']);

/** One spelling for `µm`, `μm`, `um`; for `m²`, `m2`, `m^2`; for `fl. oz` and `fl oz`; for `° F` and `f`. */
function plain(text: string): string {
	return text
		.normalize('NFKC')
		.toLowerCase()
		.replaceAll('μ', 'u')
		.replaceAll(/[°.^·]/g, '')
		.replaceAll(/\s+per\s+|\s*\/\s*/g, '/')
		.replaceAll(/\s+/g, ' ')
		.trim();
}

const spellings = (unit: Unit): string[] => [unit.symbol, ...unit.also];

function findUnit(kind: Quantity, written: string): Unit | undefined {
	const word = plain(written);
	return word === ''
		? undefined
		: unitsOf[kind].find(unit => spellings(unit).some(spelling => plain(spelling) === word));
}

function nearestUnit(kind: Quantity, written: string): string {
	const known = unitsOf[kind].filter(unit => unit.symbol !== '');
	const word = nearest(plain(written), known.flatMap(spellings).map(plain));
	return known.find(unit => spellings(unit).some(spelling => plain(spelling) === word))?.symbol ?? '';
}

/** A whole spelling beats letters: `gram` where a volume is wanted is a mass, not a misspelt unit. */
function wrongUnit(kind: Quantity, written: string): string {
	const { a, like } = named[kind];
	const other = quantities.find(name => name !== kind && findUnit(name, written));
	if (other)
		return `"${written}" measures ${named[other].a}, but ${a} is wanted: nearest unit "${nearestUnit(kind, written)}", as in "${like}"`;
	return `unknown unit "${written}" for ${a}: nearest unit "${nearestUnit(kind, written)}", as in "${like}"`;
}

/** `3/4`, `1 1/2`, or a number with its decimals; a measure in inches is read off a rule that has no decimals. */
const aNumber = /^[+\-−]?(?:(?:(\d+)\s+)?(\d+)\/(\d+)|(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)/i;

/** The number at the beginning of a text, and how much of it is read. */
function numberAt(text: string): { number: number; written: string } | undefined {
	const match = aNumber.exec(text);
	if (!match) return undefined;
	const [written, whole = '0', over, under] = match;
	if (over === undefined) return { number: Number(written.replace('−', '-')), written };
	const part = Number(whole) + Number(over) / Number(under);
	return { number: /^[-−]/.test(written) ? -part : part, written };
}

/**
 * The unit that a quantity is written in, by the name that `inUnit` takes.
 * @throws RangeError where it is none of its kind
 */
export const unitWritten = (text: string, kind: Quantity): string =>
	unitNamed(kind, text.trim().replace(aNumber, '').trim()).symbol;

/**
 * Reads a number with its unit.
 * @param text e.g. `16 fl oz` (US), `1.5 mil`, `70 F`, `42%`; decimals with a point; US units unless `imp`
 * @param kind what it must measure
 * @returns the value in the kind's base unit (mL, m², µm, °C, K, kPa, mm, s, mm/s, mL/min, fraction, g, kg/L, m²/L, mm²/s, m³, m³/L), or the
 * column, counted from 1, at which it stops making sense with one line that says why and names the nearest unit
 */
export function parseQuantity(text: string, kind: Quantity): Parsed {
	const { a, like } = named[kind];
	const fail = (index: number, message: string): Parsed => ({ ok: false, column: index + 1, message });
	const start = text.length - text.trimStart().length;
	const found = numberAt(text.slice(start));
	if (!found) return fail(start, `${a} begins with a number, as in "${like}"`);
	const { number, written: digits } = found;
	const end = start + digits.length;
	if (!Number.isFinite(number))
		return fail(
			start,
			digits.includes('/') ? `"${digits}" is no number` : `"${digits}" is too large a number for ${a}`,
		);
	if (number < 0 && !mayBeNegative.has(kind)) return fail(start, `${a} cannot be negative`);
	const rest = text.slice(end);
	if (/^,\d/.test(rest)) return fail(end, `write decimals with a point, as in "${like}"`);
	const at = end + rest.length - rest.trimStart().length;
	const written = rest.trim();
	if (written === '') {
		if (kind === 'share' && number < 1) return { ok: true, value: number };
		return fail(end, `a unit is missing: write ${a} as in "${like}"`);
	}
	const unit = findUnit(kind, written);
	if (!unit) return fail(at, wrongUnit(kind, written));
	return { ok: true, value: toBase(number, unit) };
}

const toBase = (value: number, unit: Unit): number => Number((value * unit.per + unit.zero).toPrecision(15));

function unitNamed(kind: Quantity, symbol: string): Unit {
	const unit = findUnit(kind, symbol);
	if (!unit) throw new RangeError(wrongUnit(kind, symbol));
	return unit;
}

/**
 * A value of base unit in another unit of its kind.
 * @throws RangeError where the kind has no such unit
 */
export function inUnit(value: number, kind: Quantity, symbol: string): number {
	const unit = unitNamed(kind, symbol);
	return Number(((value - unit.zero) / unit.per).toPrecision(13));
}

/**
 * A value of any unit in the base unit of its kind.
 * @throws RangeError where the kind has no such unit
 */
export const fromUnit = (value: number, kind: Quantity, symbol: string): number =>
	toBase(value, unitNamed(kind, symbol));
