import { nearest } from './nearest.ts';
import { positive } from './range.ts';

/** Viscosity in mm²/s after t seconds = `per_s` × t − `less` − `over` ÷ t, good from `from_s` to `to_s`. */
type Cup = { per_s: number; less: number; over: number; from_s: number; to_s: number };

/** Published as slope × (t − start). */
const line = (per_s: number, start_s: number, from_s: number, to_s: number): Cup => ({
	per_s,
	less: per_s * start_s,
	over: 0,
	from_s,
	to_s,
});
const iso = (per_s: number, over: number): Cup => ({ per_s, less: 0, over, from_s: 30, to_s: 100 });

/** Ford: ASTM D1200. Zahn: ASTM D4212. ISO: ISO 2431 (from memory), DIN: DIN 53211 (second-hand), by the
 * width of the hole in mm. */
const cups = {
	ford1: line(0.49, 35.0, 55, 100),
	ford2: line(1.44, 18.0, 40, 100),
	ford3: line(2.31, 6.58, 20, 100),
	ford4: line(3.85, 4.49, 20, 100),
	ford5: line(12.1, 2.0, 20, 100),
	zahn1: line(1.1, 29, 35, 80),
	zahn2: line(3.5, 14, 20, 80),
	zahn3: line(11.7, 7.5, 20, 80),
	zahn4: line(14.8, 5, 20, 80),
	zahn5: line(23, 0, 20, 80),
	iso3: iso(0.443, 200),
	iso4: iso(1.37, 200),
	iso5: iso(3.28, 220),
	iso6: iso(6.9, 570),
	din4: { per_s: 4.57, less: 0, over: 452, from_s: 25, to_s: 150 },
} satisfies Record<string, Cup>;

export type CupKind = keyof typeof cups;
export const cupKinds = Object.keys(cups) as CupKind[];

/** The temperature that a cup's seconds are given for, °C; 25 for Ford and Zahn, 23 for ISO, 20 for DIN (from memory). */
export const cupStandard_C = (kind: string): number =>
	kind.startsWith('iso') ? 23 : kind.startsWith('din') ? 20 : 25;

/** What a cup takes, mL: Zahn 44 (ASTM D4212), the others 100 (ASTM D1200, ISO 2431); from memory. */
export const cupTakes_mL = (kind: string): number => (kind.startsWith('zahn') ? 44 : 100);

/** To be said beside every conversion from one cup to another. */
export const loose =
	'Cups agree only for liquids that flow like oil; paint thins as it is stirred. A conversion is a start, not a reading.';

/**
 * The cup that a name means: `ford4`, `Ford 4`, `FORD-4`.
 * @throws RangeError for another, with the nearest
 */
export function cupNamed(name: string): CupKind {
	const plain = name.toLowerCase().replaceAll(/[\s_#-]|mm|cup|no\.?/g, '');
	const found = cupKinds.find(kind => kind === plain);
	if (found) return found;
	throw new RangeError(
		`unknown cup "${name}": the nearest is "${nearest(plain, cupKinds)}" (ford1–5, zahn1–5, iso3–6, din4)`,
	);
}

/** The thinnest that a cup is published for, mm²/s. */
function thinnest(kind: CupKind): number {
	const { per_s, less, over, from_s } = cups[kind];
	return per_s * from_s - less - over / from_s;
}

/** What to do with paint too thin for a cup: the next finer of its make, else the nearest finer of another. */
function insteadOf(kind: CupKind): string {
	const isOfMake = (other: CupKind) => other.slice(0, -1) === kind.slice(0, -1);
	const finer = cupKinds
		.filter(other => thinnest(other) < 0.9 * thinnest(kind))
		.sort((a, b) => Number(isOfMake(b)) - Number(isOfMake(a)) || thinnest(b) - thinnest(a));
	return finer[0] ? `use a finer cup, ${finer[0]}` : 'no cup known here is finer: time it again';
}

export type Viscosity = {
	viscosity_mm2_per_s: number;
	/** Within the seconds that the cup's formula is published for. */
	in_range: boolean;
	range_s: readonly [number, number];
};

/**
 * Kinematic viscosity from the seconds a cup takes to run out.
 * @param seconds above 0, at the cup's standard temperature (25 °C for Ford and Zahn, 23 °C for ISO, 20 °C for DIN)
 * @returns mm²/s; outside its range the figure is a hint and `in_range` is false
 * @throws RangeError where the cup runs out faster than its formula can say
 */
export function cupViscosity(kind: CupKind, seconds: number): Viscosity {
	const { per_s, less, over, from_s, to_s } = cups[kind];
	const viscosity = per_s * positive('seconds', seconds, 's') - less - over / seconds;
	if (!(viscosity > 0))
		throw new RangeError(
			`${kind} says nothing of ${seconds} s, and is good from ${from_s} to ${to_s} s: ${insteadOf(kind)}`,
		);
	return {
		viscosity_mm2_per_s: viscosity,
		in_range: seconds >= from_s && seconds <= to_s,
		range_s: [from_s, to_s],
	};
}

/**
 * Seconds that a cup would take at a viscosity: the inverse of `cupViscosity`.
 * @param viscosity mm²/s, above 0
 * @returns s; loose, see `loose`
 */
export function cupSeconds(kind: CupKind, viscosity: number): number {
	const { per_s, less, over } = cups[kind];
	const sum = positive('viscosity', viscosity, 'mm²/s') + less;
	return (sum + Math.sqrt(sum ** 2 + 4 * per_s * over)) / (2 * per_s);
}

/** Seconds read against seconds wanted. */
export type CupReading = { fits: boolean; found: 'thin' | 'right' | 'thick' };

/**
 * @param wanted_s least and most that the data sheet asks for, in the same cup
 * @param seconds read
 */
export function cupReading([least, most]: readonly [number, number], seconds: number): CupReading {
	const found = seconds < least ? 'thin' : seconds > most ? 'thick' : 'right';
	return { fits: found === 'right', found };
}

/** Paint so near to the temperature that its seconds are given for is timed as if it had it, K. This project's own choice. */
const near_K = 3;

/** What is wrong with paint in its flow cup: its temperature, or what it runs; null: nothing. */
export type PaintOff = 'limits' | 'temperature' | 'thin' | 'thick' | null;

/**
 * Paint as it was timed: its own limits first, then the temperature that the seconds are given for, then they themselves.
 * @param wanted seconds that the data sheet asks for, and the °C it gives them for, where it does
 * @param limits_C of the paint
 */
export function paintOff(
	{ seconds: wanted_s, at_C }: { seconds: readonly [number, number]; at_C?: number | undefined },
	[low_C, high_C]: readonly [number, number],
	{ seconds, tempC }: { seconds: number; tempC: number },
): PaintOff {
	const hair_K = 1e-6;
	if (tempC < low_C - hair_K || tempC > high_C + hair_K) return 'limits';
	if (at_C !== undefined && Math.abs(tempC - at_C) > near_K + hair_K) return 'temperature';
	const { found } = cupReading(wanted_s, seconds);
	return found === 'right' ? null : found;
}

/**
 * What is odd about a sheet's flow cup: a kind that is not known here, or seconds that its formula is not published for.
 * @returns null where nothing is
 */
export function cupOddity({
	kind,
	seconds,
}: {
	kind: string;
	seconds: readonly [number, number];
}): string | null {
	let known: CupKind;
	try {
		known = cupNamed(kind);
	} catch (error) {
		if (error instanceof RangeError) return error.message;
		throw error;
	}
	const { from_s, to_s } = cups[known];
	if (seconds[0] >= from_s && seconds[1] <= to_s) return null;
	return `${known} is good from ${from_s} to ${to_s} s, not for ${seconds[0]} to ${seconds[1]} s`;
}
