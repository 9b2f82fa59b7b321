import { betweenBands } from '../job/reducer-bands.ts';
import { type AirVerdict, airVerdict, dewPoint_C, surfaceLimits_C } from '../trade/air.ts';
import { type Moment, materialOf, settingsOf, unitsOf } from './moment.ts';
import type { EventOf } from './records.ts';

type Air = Pick<EventOf<'air.read'>, 'airC' | 'humidity' | 'surfaceC'>;
/** A verdict on the air, less what is not worked out where a reading lies outside every range. */
export type JudgedAir = Omit<AirVerdict, 'marginC'>;

const narrowest = (ranges: readonly [number, number][]): [number, number] => [
	Math.max(...ranges.map(([low]) => low)),
	Math.min(...ranges.map(([, high]) => high)),
];

/** Margin over the dew point that some materials want, the widest of them, K. */
export const judgedMargin_C = (moment: Moment, ids: readonly string[]): number =>
	Math.max(settingsOf(moment).margin_C, ...ids.map(id => materialOf(moment, id).limits.margin_C));

/** Limits of some materials, the narrowest of each. */
function limitsOf(moment: Moment, ids: readonly string[]) {
	const materials = ids.map(id => materialOf(moment, id).limits);
	return {
		air_C: narrowest(materials.map(({ air_C }) => air_C)),
		surface_C: narrowest(materials.map(surfaceLimits_C)),
		humidity_max: Math.min(...materials.map(({ humidity_max }) => humidity_max)),
		margin_C: judgedMargin_C(moment, ids),
	};
}

/** Air as it was read, against the limits of what is sprayed in it. */
export function judgedAir(moment: Moment, air: Air, materials: readonly string[]): JudgedAir {
	try {
		const units = unitsOf(moment);
		const verdict = airVerdict(air, limitsOf(moment, materials), units);
		const unreduced = materials.flatMap(
			id => betweenBands(materialOf(moment, id), air.surfaceC, units) ?? [],
		);
		if (unreduced.length === 0) return verdict;
		return { ...verdict, spray: false, reasons: [...verdict.reasons, ...unreduced] };
	} catch (error) {
		if (!(error instanceof RangeError)) throw error;
		const dewPointC = dewPoint_C(air.airC, Math.max(0.01, air.humidity));
		return { dewPointC, spray: false, reasons: [error.message], dampOrCold: true };
	}
}
