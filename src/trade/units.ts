import { convert } from 'convert';

/** The kinds of quantity a job sheet or a command may name. */
export const quantities = [
	'volume',
	'area',
	'film',
	'temperature',
	'temperatureDifference',
	'pressure',
	'length',
	'time',
	'speed',
	'flow',
	'share',
	'mass',
	'density',
	'coverage',
	'viscosity',
	'airVolume',
	'vapour',
] as const;
export type Quantity = (typeof quantities)[number];

/** A unit as it is written, the other spellings it goes by, and base = `per` × value + `zero`. */
export type Unit = { symbol: string; also: string[]; per: number; zero: number };

/** Binary noise of a product of conversions is cut off at 13 digits: a litre is 1000 mL and not a hair more. */
const tidy = (value: number): number => Number(value.toPrecision(13));

const unit = (symbol: string, per: number, also: string[] = [], zero = 0): Unit => ({
	symbol,
	also,
	per: tidy(per),
	zero: tidy(zero),
});

const mL = {
	L: convert(1, 'L').to('mL'),
	flOz: convert(1, 'US fluid ounces').to('mL'),
	pint: convert(1, 'pints').to('mL'),
	quart: convert(1, 'quarts').to('mL'),
	gallon: convert(1, 'gallons').to('mL'),
	impFlOz: convert(1, 'imperial fluid ounces').to('mL'),
	impPint: convert(1, 'imperial pints').to('mL'),
	impQuart: convert(1, 'imperial quarts').to('mL'),
	impGallon: convert(1, 'imperial gallons').to('mL'),
};
const ft2_m2 = convert(1, 'ft2').to('m2');
const ft3_m3 = convert(1, 'ft3').to('m3');
const in_mm = convert(1, 'in').to('mm');
const ft_mm = convert(1, 'ft').to('mm');
const oz_g = convert(1, 'oz').to('g');
const lb_g = convert(1, 'lb').to('g');
const F_K = 5 / 9;

/** Every unit of every kind; the first of a kind is its base unit. Factors come from the conversion library. */
export const unitsOf: Record<Quantity, Unit[]> = {
	volume: [
		unit('mL', 1, ['milliliter', 'milliliters', 'millilitre', 'millilitres', 'cc', 'cm3']),
		unit('L', mL.L, ['liter', 'liters', 'litre', 'litres']),
		unit('fl oz', mL.flOz, ['us fl oz', 'floz', 'fluid ounce', 'fluid ounces', 'us fluid ounces']),
		unit('pt', mL.pint, ['us pt', 'pint', 'pints']),
		unit('qt', mL.quart, ['us qt', 'quart', 'quarts']),
		unit('gal', mL.gallon, ['us gal', 'gallon', 'gallons', 'us gallon', 'us gallons']),
		unit('imp fl oz', mL.impFlOz, ['imperial fl oz', 'uk fl oz', 'imp floz', 'imperial fluid ounces']),
		unit('imp pt', mL.impPint, ['imperial pt', 'imperial pint', 'imperial pints', 'uk pt']),
		unit('imp qt', mL.impQuart, ['imperial qt', 'imperial quart', 'imperial quarts', 'uk qt']),
		unit('imp gal', mL.impGallon, ['imperial gal', 'imperial gallon', 'imperial gallons', 'uk gal']),
	],
	area: [
		unit('m2', 1, ['sq m', 'sqm', 'square metre', 'square metres', 'square meter', 'square meters']),
		unit('cm2', 1e-4, ['sq cm', 'sqcm']),
		unit('ft2', ft2_m2, ['sq ft', 'sqft', 'square foot', 'square feet']),
		unit('in2', convert(1, 'in2').to('m2'), ['sq in', 'sqin', 'square inch', 'square inches']),
	],
	film: [
		unit('um', 1, ['micron', 'microns', 'micrometre', 'micrometer']),
		unit('mil', in_mm, ['mils', 'thou']),
		unit('mm', convert(1, 'mm').to('µm')),
	],
	temperature: [
		unit('°C', 1, ['c', 'deg c', 'degc', 'celsius']),
		unit('°F', F_K, ['f', 'deg f', 'degf', 'fahrenheit'], convert(0, 'F').to('C')),
	],
	temperatureDifference: [
		unit('K', 1, ['kelvin']),
		unit('°C', 1, ['c', 'deg c', 'degc', 'celsius']),
		unit('°F', F_K, ['f', 'deg f', 'degf', 'fahrenheit']),
	],
	pressure: [
		unit('kPa', 1),
		unit('Pa', 1e-3),
		unit('hPa', 0.1),
		unit('mbar', 0.1),
		unit('bar', convert(1, 'bar').to('kPa')),
		unit('psi', convert(1, 'psi').to('kPa'), ['lb/in2', 'lbf/in2']),
		unit('inHg', convert(1, 'inHg').to('kPa'), ['in hg']),
	],
	length: [
		unit('mm', 1, ['millimetre', 'millimetres', 'millimeter', 'millimeters']),
		unit('cm', 10, ['centimetre', 'centimeter']),
		unit('m', 1000, ['metre', 'metres', 'meter', 'meters']),
		unit('in', in_mm, ['inch', 'inches', '"', '″']),
		unit('ft', ft_mm, ['foot', 'feet']),
	],
	time: [
		unit('s', 1, ['sec', 'secs', 'second', 'seconds']),
		unit('min', convert(1, 'min').to('s'), ['mins', 'minute', 'minutes']),
		unit('h', convert(1, 'h').to('s'), ['hr', 'hrs', 'hour', 'hours']),
		unit('d', convert(1, 'd').to('s'), ['day', 'days']),
	],
	speed: [
		unit('mm/s', 1),
		unit('cm/s', 10),
		unit('m/s', 1000),
		unit('m/min', 1000 / 60),
		unit('in/s', in_mm),
		unit('ft/s', ft_mm),
		unit('ft/min', ft_mm / 60, ['fpm']),
	],
	flow: [
		unit('mL/min', 1, ['cc/min', 'cm3/min']),
		unit('mL/s', 60),
		unit('L/min', mL.L),
		unit('L/h', mL.L / 60),
		unit('fl oz/min', mL.flOz, ['us fl oz/min', 'floz/min']),
		unit('imp fl oz/min', mL.impFlOz, ['imperial fl oz/min', 'uk fl oz/min']),
		unit('gal/h', mL.gallon / 60, ['gal/hr']),
	],
	share: [unit('', 1), unit('%', 0.01, ['percent', 'per cent', 'pct']), unit('ppm', 1e-6)],
	mass: [
		unit('g', 1, ['gram', 'grams', 'gm']),
		unit('kg', 1000, ['kilogram', 'kilograms', 'kilo', 'kilos']),
		unit('oz', oz_g, ['ounce', 'ounces']),
		unit('lb', lb_g, ['lbs', 'pound', 'pounds']),
	],
	density: [
		unit('kg/L', 1),
		unit('g/mL', 1, ['g/cm3', 'g/cc']),
		unit('kg/m3', 1e-3),
		unit('lb/gal', lb_g / mL.gallon, ['lbs/gal']),
	],
	coverage: [unit('m2/L', 1), unit('ft2/gal', (ft2_m2 / mL.gallon) * 1000, ['sq ft/gal', 'sqft/gal'])],
	viscosity: [unit('mm2/s', 1), unit('cSt', 1, ['centistokes'])],
	airVolume: [unit('m3', 1, ['cubic metres']), unit('ft3', ft3_m3, ['cu ft', 'cubic feet'])],
	vapour: [
		unit('m3/L', 1),
		unit('L/L', 1e-3),
		unit('ft3/gal', (ft3_m3 / mL.gallon) * 1000, ['cu ft/gal']),
		unit('ft3/L', ft3_m3),
	],
};
