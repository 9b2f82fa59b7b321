import { within } from './range.ts';
import { format, type UnitSystem } from './shown.ts';

const airs = [-20, 60] as const;
const water = { factor: 17.62, zero_C: 243.12 };
const ice = { factor: 22.46, zero_C: 272.62 };
const atFreezing_hPa = 6.112;

type Magnus = typeof water;
const saturation_hPa = (temp_C: number, { factor, zero_C }: Magnus): number =>
	atFreezing_hPa * Math.exp((factor * temp_C) / (zero_C + temp_C));

/** Below freezing what settles is frost, and it settles sooner than dew would: the warmer point counts. */
function pointOf(vapour_hPa: number): number {
	const ratio = Math.log(vapour_hPa / atFreezing_hPa);
	const { factor, zero_C } = ratio < 0 ? ice : water;
	return (zero_C * ratio) / (factor - ratio);
}

/**
 * Temperature at which moisture settles from the air: dew point, or frost point below 0 °C.
 * @param air_C −20 to 60 °C
 * @param humidity share over water, 0.01 to 1
 * @returns °C; within 0.1 °C of the ASHRAE formulas
 * @throws RangeError outside the ranges
 * Source: Magnus form with the constants of WMO Guide No. 8: 6.112, 17.62, 243.12 (ice 22.46, 272.62, from memory).
 */
export function dewPoint_C(air_C: number, humidity: number): number {
	within('air temperature', air_C, airs, '°C');
	within('humidity', humidity * 100, [1, 100], '%');
	return pointOf(humidity * saturation_hPa(air_C, water));
}

const said = (temp_C: number): string =>
	`${format(temp_C, 'temperature', 'metric')} (${format(temp_C, 'temperature', 'us')})`;

/**
 * The same from a wet and a dry thermometer in moving air.
 * @param dry_C 0 to 60 °C
 * @param wet_C 0 °C to dry
 * @param pressure_kPa 60 to 110
 * @returns °C; half a degree on the wet thermometer moves it by about one
 * @throws RangeError outside the ranges, or where so low a wet reading cannot be
 * Source: ventilated psychrometer, WMO Guide No. 8: 6.53e-4 (1 + 9.44e-4 t) p Δt (from memory).
 */
export function dewPointFromWetBulb_C(dry_C: number, wet_C: number, pressure_kPa = 101.325): number {
	within('air temperature', dry_C, [0, 60], '°C');
	within('wet bulb', wet_C, [0, dry_C], '°C');
	within('pressure', pressure_kPa, [60, 110], 'kPa');
	const lost_hPa = 6.53e-4 * (1 + 9.44e-4 * wet_C) * pressure_kPa * 10 * (dry_C - wet_C);
	const vapour_hPa = saturation_hPa(wet_C, water) - lost_hPa;
	const least_hPa = 0.01 * saturation_hPa(dry_C, water);
	if (vapour_hPa < least_hPa)
		throw new RangeError(
			`a wet bulb of ${said(wet_C)} in air of ${said(dry_C)} means under 1 % humidity: wet the wick and read it again`,
		);
	return pointOf(vapour_hPa);
}

/**
 * Humidity of air whose dew (or frost) point is known.
 * @returns share over water
 */
export const humidityAt = (air_C: number, dewPoint: number): number =>
	saturation_hPa(dewPoint, dewPoint < 0 ? ice : water) /
	saturation_hPa(within('air temperature', air_C, airs, '°C'), water);

export type AirReading = { airC: number; humidity: number; surfaceC: number };
type Range_C = readonly [number, number];
/** `surface_C`: where a data sheet has limits of its own for the surface. */
export type AirLimits = {
	air_C: Range_C;
	surface_C?: Range_C | undefined;
	humidity_max: number;
	margin_C: number;
};
export type AirVerdict = {
	dewPointC: number;
	marginC: number;
	spray: boolean;
	reasons: string[];
	/** A no because it is damp or cold, which tempts to heat. */
	dampOrCold: boolean;
};

/**
 * Said with every no for damp or cold. Sources: no flame or hot surface, 29 CFR 1910.107(c); that burning gives off water and
 * carbon monoxide: common practice, no source.
 */
export const noFlameHeater = 'No flame heater: spark, CO, water.';

/**
 * Limits of the surface, °C: those of the air where the data sheet gives no others.
 * Source: one range for air and surface, MIL-HDBK-1110 §7.4.1.
 */
export const surfaceLimits_C = ({
	air_C,
	surface_C,
}: Pick<AirLimits, 'air_C' | 'surface_C'>): [number, number] => [...(surface_C ?? air_C)];

/** Limits of the paint as it is sprayed, °C: those of the air where the data sheet gives no others. */
export const paintLimits_C = ({
	air_C,
	paint_C,
}: Pick<AirLimits, 'air_C'> & { paint_C?: [number, number] | undefined }): [number, number] => [
	...(paint_C ?? air_C),
];

/** What the point is called at which moisture settles: below freezing it settles as frost. */
export const pointName = (dewPointC: number): 'frost point' | 'dew point' =>
	dewPointC < 0 ? 'frost point' : 'dew point';

/** Readings keyed in °F come back a hair off. */
const hair = 1e-6;

/**
 * Whether the air lets a material be sprayed, with every reason against it.
 * @param reading air, humidity and surface as read near the work
 * @param limits of the material, and the margin that the surface must keep over the dew point
 * @param units in which reasons are said
 * @returns dew point and margin (°C, K), go or no-go, reasons
 * @throws RangeError outside the ranges of `dewPoint_C`
 * Source: margin 5 °F and rising, MIL-HDBK-1110 §9.6.6; 3 °C, ISO 8502-4 (from memory).
 */
export function airVerdict(reading: AirReading, limits: AirLimits, units: UnitSystem = 'metric'): AirVerdict {
	within('surface temperature', reading.surfaceC, [-20, 80], '°C');
	return verdictAt(dewPoint_C(reading.airC, reading.humidity), reading, limits, units);
}

/** The same where the dew point was found by another way, e.g. `dewPointFromWetBulb_C`. */
export function verdictAt(
	dewPointC: number,
	{ airC, humidity, surfaceC }: AirReading,
	limits: AirLimits,
	units: UnitSystem = 'metric',
): AirVerdict {
	const { humidity_max, margin_C } = limits;
	const [coolest, warmest] = limits.air_C;
	const [coldest, hottest] = surfaceLimits_C(limits);
	const marginC = surfaceC - dewPointC;
	const temp = (value: number) => format(value, 'temperature', units);
	const kelvin = (value: number) => format(value, 'temperatureDifference', units);
	const sideOf = (K: number) =>
		Math.abs(K) < 0.05 ? 'at' : K < 0 ? `${kelvin(-K)} below` : `only ${kelvin(K)} over`;
	const against: readonly [holds: boolean, toHeat: boolean, says: string][] = [
		[
			marginC < margin_C - hair,
			true,
			`surface ${temp(surfaceC)} is ${sideOf(marginC)} the ${pointName(dewPointC)} ${temp(dewPointC)}: ${kelvin(margin_C)} are wanted`,
		],
		[airC < coolest - hair, true, `air ${temp(airC)} is under the material's ${temp(coolest)}`],
		[airC > warmest + hair, false, `air ${temp(airC)} is over the material's ${temp(warmest)}`],
		[surfaceC < coldest - hair, true, `surface ${temp(surfaceC)} is under the ${temp(coldest)} allowed`],
		[surfaceC > hottest + hair, false, `surface ${temp(surfaceC)} is over the ${temp(hottest)} allowed`],
		[
			humidity > humidity_max + hair,
			true,
			`humidity ${format(humidity, 'share', units)} is over the material's ${format(humidity_max, 'share', units)}`,
		],
	];
	const held = against.filter(([holds]) => holds);
	return {
		dewPointC,
		marginC,
		spray: held.length === 0,
		reasons: held.map(([, , says]) => says),
		dampOrCold: held.some(([, toHeat]) => toHeat),
	};
}

/**
 * Whether a reading of the air must be taken again: by its age, or after a long hold.
 * @param ages hours since the reading, minutes of the longest hold since
 * @param limits hours and minutes allowed; readings near the work about every 4 h, MIL-HDBK-1110 §9.6.6
 */
export const airStale = (
	ages: { age_h: number; hold_min: number },
	limits: { age_h: number; hold_min: number } = { age_h: 4, hold_min: 30 },
): boolean => ages.age_h > limits.age_h || ages.hold_min > limits.hold_min;

/** A reading of the air that another follows within this time was taken back by it, s. This project's own choice. */
export const takenBack_s = 600;
