import { meanWetFilm_um, spacing_mm, wetFilm } from '../trade/film.ts';
import type { UnitSystem } from '../trade/quantity.ts';
import { sagLimit_um } from '../trade/sag.ts';
import { format, formatRange } from '../trade/shown.ts';
import { lifeAt_h } from '../trade/time.ts';
import { pulledFor_s, solidsOf } from './coats.ts';
import type { Job, Material } from './job.ts';
import { swept_m2, sweptFilm_um } from './swept.ts';

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

type Laid = { face: string; fanHeight_mm: number; material: Material; wet_um: number; pulled_s: number };

/** The coats that come to more wet film than the face holds, by the flow, the face's own fan and the planned strokes. */
const runningCoats = ({ gun, materials, faces }: Job): Laid[] =>
	faces.flatMap(face =>
		face.coats.flatMap(({ material: id, stroke, volume_mL }) => {
			const material = materials[id];
			if (!material) return [];
			const pulled_s = pulledFor_s(face, stroke, volume_mL, gun);
			const wet_um = sweptFilm_um(gun, swept_m2(face, stroke, gun.overlap), pulled_s, gun.transfer);
			const { id: name, fanHeight_mm } = face;
			const runs = wet_um > sagLimit_um(material.sag_um, face.attitude);
			return runs ? [{ face: name, fanHeight_mm, material, wet_um, pulled_s }] : [];
		}),
	);

/** Once for each fan and material, by the face that gets most. */
function sagNotes(job: Job, units: UnitSystem): string[] {
	const alike = new Map<string, Laid[]>();
	for (const laid of runningCoats(job)) {
		const key = `${laid.fanHeight_mm} ${laid.material.id}`;
		alike.set(key, [...(alike.get(key) ?? []), laid]);
	}
	return [...alike.values()].flatMap(coats => {
		const [worst] = coats.toSorted((one, other) => other.wet_um - one.wet_um);
		if (!worst) return [];
		const more = new Set(coats.map(({ face }) => face)).size - 1;
		const { face, fanHeight_mm, material, wet_um, pulled_s } = worst;
		return [
			`${face}${more > 0 ? ` and ${more} more` : ''}: a fan of ${format(fanHeight_mm, 'length', units)} at this flow and speed lays ${format(wet_um, 'film', units)} wet in ${format(pulled_s, 'time', units)}; ${material.id} sags above ${format(material.sag_um, 'film', units)}`,
		];
	});
}

function airNotes({ shop }: Job, material: Material, units: UnitSystem): string[] {
	const [low, high] = material.limits.air_C;
	if (shop.air_C >= low && shop.air_C <= high && shop.humidity <= material.limits.humidity_max) return [];
	return [
		`shop: ${format(shop.air_C, 'temperature', units)} at ${format(shop.humidity, 'share', units)} is outside what ${material.id} allows: ${formatRange(low, high, 'temperature', units)}, up to ${format(material.limits.humidity_max, 'share', units)}`,
	];
}

/** Paint that lives no longer than it stands, as warm as the shop is. */
function standingNotes({ shop }: Job, material: Material, units: UnitSystem): string[] {
	const { id, standing_min } = material;
	const life_h = lifeAt_h(material, shop.air_C);
	if (standing_min === 0 || life_h * 60 > standing_min) return [];
	const [stands, lives] = [standing_min * 60, life_h * 3600].map(seconds => format(seconds, 'time', units));
	return [
		`shop: at ${format(shop.air_C, 'temperature', units)} ${id} lives ${lives} and stands ${stands}: nothing of it can be sprayed; mix it cooler, or with the hardener that its data sheet gives for the heat`,
	];
}

/** A material that a filter mask may serve for, did its sheet name the cartridge; with isocyanate none does. */
function breathingNotes({ id, isocyanate, breathing }: Material): string[] {
	if (isocyanate || breathing === undefined || breathing.spraying !== null) return [];
	return [
		`${id}: names no breathing gear for spraying, so that only supplied air passes; a filter mask takes a line as in "breathing: { spraying: filter mask with A2-P3 }", with the cartridge that its safety data sheet names`,
	];
}

/** Parts of which two faces lie flat, and no word says whether they are turned over between them. */
function turningNotes({ faces, parts }: Job): string[] {
	const names = parts
		.map(({ name }) => name)
		.filter(name => faces.some(face => face.part === name && face.turned === 'taken'));
	const [first] = names;
	if (first === undefined) return [];
	const its = faces
		.filter(({ part, attitude }) => part === first && attitude === 'flat')
		.map(({ name }) => name);
	const more = names.length > 1 ? ` (and ${names.length - 1} more)` : '';
	return [
		`part ${first}${more}: ${its.join(' and ')} lie flat, so one side gets its coats, is turned over when dry to handle, and the other follows; write "turned over: yes" or "turned over: no" under each of them`,
	];
}

/**
 * What a sheet says that is no mistake and yet worth a second look: a gun set for another film, a face whose fan lays a
 * film that runs, shop air outside a material's limits, no breathing gear named, a part with two sides that lie flat, a material that no stage sprays.
 */
export function notesOf(job: Job, units: UnitSystem): string[] {
	const sprayed = new Set(job.stages.flatMap(stage => (stage.kind === 'coats' ? [stage.material] : [])));
	const materials = Object.values(job.materials);
	return [
		...materials.filter(({ id }) => !sprayed.has(id)).map(({ id }) => `material ${id}: no stage sprays it`),
		...materials.filter(({ id }) => sprayed.has(id)).flatMap(material => airNotes(job, material, units)),
		...materials.filter(({ id }) => sprayed.has(id)).flatMap(material => standingNotes(job, material, units)),
		...materials.filter(({ id }) => sprayed.has(id)).flatMap(breathingNotes),
		...turningNotes(job),
		...filmNotes(job, units),
		...sagNotes(job, units),
	];
}
