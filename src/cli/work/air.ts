import {
	dewPoint_C,
	dewPointFromWetBulb_C,
	humidityAt,
	noFlameHeater,
	pointName,
	verdictAt,
} from '../../trade/air.ts';
import { within } from '../../trade/range.ts';
import { format, formatRange } from '../../trade/shown.ts';
import { sentence } from '../../words/say.ts';
import { type Given, type Worked, workPart } from './part.ts';

const standardMargin_K = 3;
/** Blush is likely above this: FAA-H-8083-31 ch. 8. */
const blushHumidity = 0.8;

function dewPoint(given: Given, airC: number): { dewPointC: number; humidity: number } {
	if (given.has('humidity') && given.has('wet-bulb'))
		throw new RangeError('--humidity and --wet-bulb both say how damp the air is: leave one out');
	if (given.has('wet-bulb')) {
		const pressure = given.quantityOr('pressure', 'pressure', 101.325);
		const wetC = given.quantity('wet-bulb', 'temperature');
		if (wetC < 0 || wetC > airC)
			throw new RangeError(
				`--wet-bulb "${given.text('wet-bulb')}": allowed: ${formatRange(0, airC, 'temperature', given.units)}`,
			);
		const dewPointC = dewPointFromWetBulb_C(airC, wetC, pressure);
		return { dewPointC, humidity: Math.min(1, humidityAt(airC, dewPointC)) };
	}
	const humidity = given.quantity('humidity', 'share');
	return { dewPointC: dewPoint_C(airC, humidity), humidity };
}

function work(given: Given): Worked {
	const airC = given.quantity('air', 'temperature');
	const surfaceC = given.quantity('surface', 'temperature');
	const margin_C = within(
		'--margin',
		given.quantityOr('margin', 'temperatureDifference', standardMargin_K),
		[0, 30],
		'K',
	);
	const { dewPointC, humidity } = dewPoint(given, airC);
	const anyAir = { air_C: [-20, 60], humidity_max: 1, margin_C } as const;
	const verdict = verdictAt(dewPointC, { airC, humidity, surfaceC }, anyAir, given.units);
	const blush = humidity > blushHumidity ? ['Over 80% humidity blush is likely: see the data sheet.'] : [];
	const heater = verdict.dampOrCold ? [noFlameHeater] : [];
	const dew = format(dewPointC, 'temperature', given.units);
	const margin = format(verdict.marginC, 'temperatureDifference', given.units);
	const wanted = format(margin_C, 'temperatureDifference', given.units);
	const lines = verdict.spray
		? [
				sentence(
					`${pointName(dewPointC)} ${dew}: the surface is ${margin} over it, ${wanted} are wanted. The margin is kept.`,
				),
			]
		: [`Do not spray: ${verdict.reasons.join('; ')}.`];
	return {
		keys: {
			dew_point_C: dewPointC,
			...(dewPointC < 0 && { frost_point_C: dewPointC }),
			margin_C: verdict.marginC,
			spray: verdict.spray,
			reasons: verdict.reasons,
			humidity,
			...(heater.length > 0 && { cautions: heater }),
		},
		lines: [...lines, ...heater, ...blush],
		...(!verdict.spray && { status: 1 as const }),
	};
}

export const air = workPart({
	name: 'air',
	summary:
		'dew point, and whether the surface is far enough over it, neither too hot nor too cold (no: exit status 1)',
	usage: [
		'work air --air TEMP --humidity SHARE --surface TEMP [--margin DIFFERENCE]',
		'work air --air TEMP --wet-bulb TEMP [--pressure PRESSURE] --surface TEMP',
	],
	options: {
		air: { type: 'string', value: 'TEMP', says: 'air near the work' },
		humidity: { type: 'string', value: 'SHARE', says: 'relative humidity' },
		'wet-bulb': { type: 'string', value: 'TEMP', says: 'or: wet thermometer in moving air' },
		pressure: { type: 'string', value: 'PRESSURE', says: 'with --wet-bulb; 101.325 kPa if left out' },
		surface: { type: 'string', value: 'TEMP', says: 'surface to be sprayed' },
		margin: { type: 'string', value: 'DIFFERENCE', says: 'wanted over the dew point; 3 °C if left out' },
	},
	examples: [
		'work air --air "16 °C" --humidity 71% --surface "13 °C"',
		'work air --air "21 °C" --wet-bulb "17 °C" --surface "19 °C" --margin "5 °F"',
	],
	work,
});
