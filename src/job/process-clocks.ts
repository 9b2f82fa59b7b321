import { warmsItself_K } from '../trade/paint-warmth.ts';
import { lasts_h, type ProcessClock } from '../trade/process-clock.ts';
import type { CoatKind, Material, PlannedCoat } from './job.ts';

/** The clocks of a material's processes, by the points that its sheet lists for them; one time is one point. */

/**
 * The sheet's own factor per 10 °C; undefined: it writes none, and 2 stands in its place, as in days begun before a factor
 * written stood beside the clocks.
 */
export const ownFactor = ({ clocks, factorPer10C }: Pick<Material, 'clocks' | 'factorPer10C'>) =>
	clocks?.factorPer10C ?? (factorPer10C === 2 ? undefined : factorPer10C);

/** The clock of its pot life; undefined: the sheet gives one time. */
export const lifeClock = ({ clocks }: Pick<Material, 'clocks'>): ProcessClock | undefined =>
	clocks?.potLife && { kind: 'end', points: clocks.potLife, factorPer10C: clocks.factorPer10C };

/** The clock of its standing; undefined: the sheet gives one time, or none. */
export const standingClock = ({ clocks }: Pick<Material, 'clocks'>): ProcessClock | undefined =>
	clocks?.standing && { kind: 'beginning', points: clocks.standing, factorPer10C: clocks.factorPer10C };

/**
 * How long a batch stands in steady air.
 * @returns minutes
 * @throws RangeError more than 20 K outside what the sheet gives
 */
export function standsAt_min(material: Material, air_C: number): number {
	const clock = standingClock(material);
	return clock ? lasts_h(clock, air_C) * 60 : material.standing_min;
}

/** The same; Infinity where the sheet cannot say for so cold or warm a place. */
export function standsOrNot_min(material: Material, air_C: number): number {
	try {
		return standsAt_min(material, air_C);
	} catch {
		return Number.POSITIVE_INFINITY;
	}
}

/**
 * How long a coat hardens before it is sanded, on a surface at a steady temperature: no warmth makes it shorter than the
 * sheet's warmest point.
 * @returns hours; null: the sheet gives no time
 * @throws RangeError more than 20 K outside what it gives
 */
export const hardensAt_h = (material: Material, surface_C: number): number | null =>
	driesAt_h(material, material.sandAfter, surface_C);

/** How long a coat takes to be dry to something, by the times of its sheet for that; returns and throws as `hardensAt_h`. */
export const driesAt_h = (
	{ factorPer10C }: Pick<Material, 'factorPer10C'>,
	points: Material['sandAfter'],
	surface_C: number,
): number | null =>
	points.length === 0 ? null : lasts_h({ kind: 'beginning', points, factorPer10C }, surface_C);

/** What a sheet gives one time for is one point: outside it that is kept, or carried to the safe side. */
const oneLife = (material: Material): ProcessClock => ({
	kind: 'end',
	points: [material.potLife],
	factorPer10C: ownFactor(material),
});

export type FlashClocks = { least: ProcessClock; most: ProcessClock | null };

/** The clocks of the wait after a coat of some kind; undefined: the sheet gives one time. */
export function flashClocks({ clocks, coats }: Material, kind: CoatKind): FlashClocks | undefined {
	const points = coats[kind]?.flash ?? clocks?.flash;
	if (!points) return undefined;
	const factorPer10C = clocks?.factorPer10C;
	return {
		least: { kind: 'beginning', points: points.from, factorPer10C },
		most: points.to && { kind: 'end', points: points.to, factorPer10C },
	};
}

/** … by its one time where it gives no points. */
export function flashOf(material: Material, kind: CoatKind): FlashClocks {
	const { min_min, max_min, at_C } = material.flash;
	const factorPer10C = ownFactor(material);
	const at = (minutes: number) => ({ points: [{ at_C, hours: minutes / 60 }], factorPer10C });
	return (
		flashClocks(material, kind) ?? {
			least: { kind: 'beginning', ...at(min_min) },
			most: max_min === null ? null : { kind: 'end', ...at(max_min) },
		}
	);
}

/** A batch whose size is not known yet is taken for a large one. */
const inAir_C = (air_C: number): number => air_C + warmsItself_K(Number.POSITIVE_INFINITY);

/**
 * Pot life in steady air.
 * @returns hours
 * @throws RangeError more than 20 K outside what the sheet gives
 */
export function livesAt_h(material: Material, air_C: number): number {
	const clock = lifeClock(material);
	return clock ? lasts_h(clock, inAir_C(air_C)) : lasts_h(oneLife(material), air_C);
}

/** The same; 0 where the sheet cannot say for so cold or warm a place. */
export function livesOrNot_h(material: Material, air_C: number): number {
	try {
		return livesAt_h(material, air_C);
	} catch {
		return 0;
	}
}

/** Least and most wait after a coat, in hours from its end; `most_h` null: the sheet sets no end. */
export type FlashEdges = { least_h: number; most_h: number | null };

/**
 * They at a steady temperature.
 * @throws RangeError more than 20 K outside what the sheet gives
 */
export function flashAt_h(
	material: Material,
	{ kind }: Pick<PlannedCoat, 'kind'>,
	temp_C: number,
): FlashEdges {
	const { least, most } = flashOf(material, kind);
	return { least_h: lasts_h(least, temp_C), most_h: most && lasts_h(most, temp_C) };
}
