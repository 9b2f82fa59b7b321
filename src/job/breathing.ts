import type { Source } from './document.ts';
import type { Gear, Material } from './job.ts';
import type { MaterialEntry } from './sheet.ts';

/**
 * The gear that a material's safety data sheet asks for. Sources: supplied air for isocyanate, NIOSH 96-111 and HSE, motor
 * vehicle repair pages; a filter by what is in the air, 29 CFR 1910.134(d)(3), from memory; chromate at sanding too, 29 CFR
 * 1910.1026, from memory.
 */

/**
 * Only supplied air passes where a material is sprayed: it has isocyanate, or its sheet names no filter mask with a
 * cartridge. A sheet of an older day could name none.
 */
export const wantsSuppliedAir = ({
	isocyanate,
	breathing,
}: Pick<Material, 'isocyanate' | 'breathing'>): boolean =>
	isocyanate || (breathing !== undefined && breathing.spraying?.gear !== 'filter-mask');

/** Gear as it is said; null: the sheet names none. */
export function gearSaid(gear: Gear | null | undefined): string | null {
	if (!gear) return null;
	return gear.gear === 'supplied-air' ? 'supplied air' : `filter mask with ${gear.cartridge}`;
}

const kindsOfWork = ['mixing', 'spraying', 'sanding'] as const;

/** What a sheet names, complaints about a filter mask against isocyanate among the errors. */
export function breathingOf(source: Source, entry: MaterialEntry): Material['breathing'] {
	const { breathing, isocyanate } = entry.values;
	const { mixing = null, spraying = null, sanding = null } = breathing?.values ?? {};
	for (const work of kindsOfWork)
		if (breathing && isocyanate && breathing.values[work]?.gear === 'filter-mask')
			source.fail(
				breathing.place(work),
				`${breathing.name}, ${work}: found a filter mask; with isocyanate only supplied air, for no smell warns of it`,
			);
	return { mixing, spraying, sanding };
}
