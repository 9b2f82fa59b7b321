import { meanWetFilm_um, spacing_mm, wetFilm } from '../trade/film.ts';
import type { UnitSystem } from '../trade/quantity.ts';
import { format, formatRange } from '../trade/shown.ts';
import { solidsOf } from './coats.ts';
import type { Job, Material } from './job.ts';

const tolerance = 0.35;

/** Wet film that the gun lays in one pass over a face, with the sheet's flow, speed and overlap. */
const layer_um = (gun: Job['gun']): number => meanWetFilm_um({ ...gun, spacing_mm: spacing_mm(gun) });

function filmNotes({ gun, materials, stages }: Job, units: UnitSystem): string[] {
	const laid = layer_um(gun);
	const used = new Set(
		stages.flatMap(stage =>
			stage.kind === 'coats' ? stage.coats.map(kind => `${stage.material} ${kind}`) : [],
		),
	);
	return Object.values(materials).flatMap(material =>
		(['medium', 'full'] as const).flatMap(kind => {
			const coat = material.coats[kind];
			if (!coat || !used.has(`${material.id} ${kind}`)) return [];
			const wanted = wetFilm({ dry_um: coat.dry_um, solids: solidsOf(material, coat.reducer_parts) });
			if (Math.abs(laid / wanted - 1) <= tolerance) return [];
			return [
				`gun: lays ${format(laid, 'film', units)} wet at this flow, speed and overlap; a ${kind} coat of ${material.id} wants ${format(wanted, 'film', units)}`,
			];
		}),
	);
}

function airNotes({ shop }: Job, material: Material, units: UnitSystem): string[] {
	const [low, high] = material.limits.air_C;
	if (shop.air_C >= low && shop.air_C <= high && shop.humidity <= material.limits.humidity_max) return [];
	return [
		`shop: ${format(shop.air_C, 'temperature', units)} at ${format(shop.humidity, 'share', units)} is outside what ${material.id} allows: ${formatRange(low, high, 'temperature', units)}, up to ${format(material.limits.humidity_max, 'share', units)}`,
	];
}

/**
 * What a sheet says that is no mistake and yet worth a second look: a gun set for another film, shop air outside
 * a material's limits, a material that no stage sprays.
 */
export function notesOf(job: Job, units: UnitSystem): string[] {
	const sprayed = new Set(job.stages.flatMap(stage => (stage.kind === 'coats' ? [stage.material] : [])));
	const materials = Object.values(job.materials);
	return [
		...materials.filter(({ id }) => !sprayed.has(id)).map(({ id }) => `material ${id}: no stage sprays it`),
		...materials.filter(({ id }) => sprayed.has(id)).flatMap(material => airNotes(job, material, units)),
		...filmNotes(job, units),
	];
}
