/** What a wet film takes its warmth from; heat that a face of it gives for each kelvin, kJ/(m²·K). */
const gives_kJ_per_m2_K = { metal: 3.85, wood: 3.06, plastic: 5.4 } as const;

export type Substrate = keyof typeof gives_kJ_per_m2_K;
export const substrates = Object.keys(gives_kJ_per_m2_K) as Substrate[];

/** Share of the solvent that a fast reducer lets go at once; density kg/m³ and heat of vapour kJ/kg of a usual solvent. */
const solvent = { atOnce: 0.6, density_kg_per_m3: 870, heat_kJ_per_kg: 420 };

/** No film is said to cool its face by more than pure butanone cools itself in air of 20 °C, K: vapour data from memory. */
const most_K = 22.9;

/**
 * By how much a film may cool its face as its solvent leaves: a figure to keep the dew point in mind by, never a verdict.
 * @param wet_um wet film
 * @param solids of the mix as sprayed, by volume
 * @returns K, for a sheet of 1 mm steel, wood, or 3 mm of plastic
 * Source: heat of the solvent that leaves against that of the face; constants from memory.
 */
export function ownCooling_K(wet_um: number, solids: number, substrate: Substrate): number {
	const { atOnce, density_kg_per_m3, heat_kJ_per_kg } = solvent;
	const left_m = atOnce * (wet_um / 1e6) * (1 - solids);
	return Math.min(most_K, (left_m * density_kg_per_m3 * heat_kJ_per_kg) / gives_kJ_per_m2_K[substrate]);
}
