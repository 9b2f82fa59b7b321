import { fromUnit, inUnit, type Quantity, type UnitSystem } from './quantity.ts';

export type { UnitSystem } from './quantity.ts';

/** A unit to show or to key a kind in: from this size (in the base unit) on, to so many decimals. */
type Shown = { unit: string; from: number; decimals: number };

const one = (unit: string, decimals: number): Shown[] => [{ unit, from: 0, decimals }];
const time: Shown[] = [
	{ unit: 's', from: 0, decimals: 0 },
	{ unit: 'min', from: 120, decimals: 0 },
	{ unit: 'h', from: 7200, decimals: 1 },
	{ unit: 'd', from: 172_800, decimals: 1 },
];

/** By size, smallest first; the first is the one that numbers are keyed in. */
const shown: Record<UnitSystem, Record<Quantity, Shown[]>> = {
	us: {
		volume: [
			{ unit: 'fl oz', from: 0, decimals: 1 },
			{ unit: 'qt', from: 946.352, decimals: 2 },
			{ unit: 'gal', from: 3785.41, decimals: 2 },
		],
		area: one('ft2', 1),
		film: one('mil', 1),
		temperature: one('°F', 0),
		temperatureDifference: one('°F', 1),
		pressure: one('psi', 0),
		length: [
			{ unit: 'in', from: 0, decimals: 1 },
			{ unit: 'ft', from: 3048, decimals: 1 },
		],
		time,
		speed: one('in/s', 0),
		flow: one('fl oz/min', 1),
		share: one('%', 1),
		mass: one('g', 0),
		density: one('lb/gal', 2),
		coverage: one('ft2/gal', 0),
		viscosity: one('mm2/s', 0),
		airVolume: one('ft3', 0),
		vapour: one('ft3/gal', 1),
	},
	metric: {
		volume: [
			{ unit: 'mL', from: 0, decimals: 0 },
			{ unit: 'L', from: 1000, decimals: 2 },
		],
		area: one('m2', 2),
		film: one('um', 0),
		temperature: one('°C', 1),
		temperatureDifference: one('°C', 1),
		pressure: one('kPa', 0),
		length: [
			{ unit: 'mm', from: 0, decimals: 0 },
			{ unit: 'm', from: 3000, decimals: 2 },
		],
		time,
		speed: one('mm/s', 0),
		flow: one('mL/min', 0),
		share: one('%', 1),
		mass: one('g', 0),
		density: one('kg/L', 2),
		coverage: one('m2/L', 1),
		viscosity: one('mm2/s', 0),
		airVolume: one('m3', 0),
		vapour: one('m3/L', 3),
	},
};

/** As it is printed: `m²`, `µm`. */
const printed = (unit: string): string =>
	unit
		.replace('um', 'µm')
		.replace(/m2|ft2/, text => text.replace('2', '²'))
		.replace(/m3|ft3/, text => text.replace('3', '³'));

function pick(value: number, kind: Quantity, units: UnitSystem): Shown {
	const choices = shown[units][kind];
	const fitting = choices.filter(choice => Math.abs(value) >= choice.from).at(-1) ?? choices[0];
	if (!fitting) throw new RangeError(`no unit is known for ${kind}`);
	return fitting;
}

/** Rounded to the unit's decimals, but never to fewer than two figures, and without trailing zeros. */
function digits(value: number, decimals: number): string {
	const size = Math.floor(Math.log10(Math.abs(value) || 1));
	const wanted = value === 0 ? 0 : Math.min(6, Math.max(decimals, 1 - size));
	const rounded = Number(value.toFixed(wanted));
	return String(rounded === 0 ? 0 : rounded).replace('-', '−');
}

/**
 * A quantity as screens and sentences say it.
 * @param value in the kind's base unit (see `parseQuantity`)
 * @returns number and unit, e.g. `16 fl oz`, `473 mL`, `70 °F`, `65%`
 */
export function format(value: number, kind: Quantity, units: UnitSystem): string {
	const choice = pick(value, kind, units);
	const text = digits(inUnit(value, kind, choice.unit), choice.decimals);
	return choice.unit === '%' ? `${text}%` : `${text} ${printed(choice.unit)}`;
}

/**
 * A unit for amounts that are told together: the one that fits the smallest of them.
 * @param values in the kind's base unit
 * @returns its name, as `formatIn` takes it
 */
export const unitFor = (values: readonly number[], kind: Quantity, units: UnitSystem): string =>
	pick(Math.min(...values), kind, units).unit;

/**
 * A quantity in a unit given, to that unit's own decimals or as many as are asked for.
 * @throws RangeError where the kind has no such unit
 */
export function formatIn(value: number, kind: Quantity, unit: string, decimals = 0): string {
	const own = [...shown.us[kind], ...shown.metric[kind]].find(choice => choice.unit === unit)?.decimals ?? 2;
	return `${digits(inUnit(value, kind, unit), Math.max(own, decimals))} ${printed(unit)}`;
}

/**
 * A range as screens say it, both ends in one unit, e.g. `120–150 mL`; one value where both ends read the same.
 * @param low in the kind's base unit
 * @param high in the same
 */
export function formatRange(low: number, high: number, kind: Quantity, units: UnitSystem): string {
	const choice = pick(high, kind, units);
	const text = [low, high].map(value => digits(inUnit(value, kind, choice.unit), choice.decimals));
	const unit = choice.unit === '%' ? '%' : ` ${printed(choice.unit)}`;
	return text[0] === text[1] ? `${text[0]}${unit}` : `${text[0]}–${text[1]}${unit}`;
}

/**
 * The unit a kind is keyed and shown in at an entry, always the same one whatever the size.
 * @returns its printed name, its step, and the name that `inUnit` and `fromUnit` take
 */
export function entryUnit(kind: Quantity, units: UnitSystem): { unit: string; symbol: string; step: number } {
	const choice = pick(0, kind, units);
	return { unit: printed(choice.unit), symbol: choice.unit, step: 10 ** -choice.decimals };
}

/** One step of what is keyed, in the kind's base unit: a mark of a pot, a digit of a scale. */
export function entryStep(kind: Quantity, units: UnitSystem): number {
	const { symbol, step } = entryUnit(kind, units);
	return fromUnit(step, kind, symbol);
}
