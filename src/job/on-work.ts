import {
	type Laid,
	laidOut,
	type Setting,
	type Shape,
	standardLead_mm,
	standardTurn_s,
} from '../film/balance.ts';
import { type Losses, standardLosses } from '../film/losses.ts';
import { ownCooling_K, type Substrate } from '../film/own-cooling.ts';
import { wetFilm } from '../trade/film.ts';
import { type Ratio, solidsOfMix } from '../trade/mix.ts';
import type { CoatKind, Face, Job, Material, Stroke } from './job.ts';

/** A sheet's gun and faces, as the balance of a coat reads them. */

type Gun = Job['gun'];
type Sized = Pick<Face, 'area_m2' | 'size_mm' | 'strip_mm' | 'cornerFirst'>;

/** What is unsure of a flow that nobody measured, as a share of it. This project's own choice. */
export const unmeasuredFlow = 0.1;

/** Parts of a material's mix, with so many of reducer. */
export const partsWith = (
	{ ratio: { by: _, ...parts } }: Pick<Material, 'ratio'>,
	reducer: number,
): Ratio => ({
	...parts,
	reducer,
});

/** Volume solids of a material's mix as sprayed, with so many parts of reducer. */
export const solidsOf = (
	{ solids, ratio, density_kg_per_L }: Pick<Material, 'solids' | 'ratio' | 'density_kg_per_L'>,
	reducer: number,
): number =>
	solidsOfMix(solids, partsWith({ ratio }, reducer), ratio.by === 'weight' ? density_kg_per_L : null);

/**
 * Volume solids of a batch as its levels were read, however it was to be mixed: of its reducer, since a sheet's solids are those of
 * the other cans together.
 * @param amounts mL, or g where it was poured by weight
 * @returns null where it is not known what is in it
 */
export function pouredSolids(
	{ solids, density_kg_per_L }: Pick<Material, 'solids' | 'density_kg_per_L'>,
	{ amounts, by }: { amounts: Partial<Ratio>; by: 'volume' | 'weight' },
): number | null {
	const { base = 0, hardener = 0, reducer = 0 } = amounts;
	if (base <= 0 || hardener <= 0) return null;
	const poured = { ...amounts, base, hardener, reducer };
	return solidsOfMix(solids, poured, by === 'weight' ? density_kg_per_L : null);
}

/** Wet film that a kind of coat is laid at, µm; null: the material has no such coat. */
export function wanted_um(material: Material, kind: CoatKind): number | null {
	const coat = material.coats[kind];
	return coat ? wetFilm({ dry_um: coat.dry_um, solids: solidsOf(material, coat.reducer_parts) }) : null;
}

/** By how much a kind of coat may cool what it is laid on, K; 0: the material has no such coat. Advice, never a verdict. */
export function coolsBy_K(material: Material, kind: CoatKind, substrate: Substrate): number {
	const wet_um = wanted_um(material, kind);
	const solids = solidsOf(material, material.coats[kind]?.reducer_parts ?? 0);
	return wet_um === null ? 0 : ownCooling_K(wet_um, solids, substrate);
}

/** The gun with a fan on the work. A fan no higher than its depth is round, and no fan is deeper than it is high. */
export function settingOf(gun: Gun, fanHeight_mm: number): Setting {
	const [beta1, beta2] = gun.beta;
	const fan = { width_mm: fanHeight_mm, depth_mm: Math.min(gun.fanDepth_mm, fanHeight_mm), beta1, beta2 };
	return {
		fan,
		overlap: gun.overlap,
		transfer: gun.transfer,
		lead_mm: gun.lead_mm ?? standardLead_mm(fan),
		turn_s: gun.turn_s ?? standardTurn_s,
		held: gun.held ?? false,
		first: gun.firstLine ?? null,
	};
}

/** A face along and across its strokes. One of which the area alone is known is taken as a square. */
export function shapeOf({ area_m2, size_mm, strip_mm, cornerFirst = false }: Sized, stroke: Stroke): Shape {
	const common = { area_m2, corner: cornerFirst };
	if (strip_mm) {
		const [width, length] = strip_mm;
		return { ...common, along_mm: length, across_mm: width, pieces: (area_m2 * 1e6) / (width * length) };
	}
	const side = Math.sqrt(area_m2) * 1000;
	const [width, height] = size_mm ?? [side, side];
	const [along, across] = stroke === 'side-to-side' ? [width, height] : [height, width];
	const more = Math.max(1, Math.sqrt((area_m2 * 1e6) / (along * across)));
	return { ...common, along_mm: along * more, across_mm: across * more, pieces: 1 };
}

/** The lines of a coat on a face. */
export const linesOn = (gun: Gun, face: Sized & { fanHeight_mm: number }, stroke: Stroke): Laid =>
	laidOut(shapeOf(face, stroke), settingOf(gun, face.fanHeight_mm));

/** Paint that goes to no face; the standard where a day was begun before sheets said it. */
export const lossesOf = ({ losses = standardLosses }: Gun): Losses => losses;

/** Chance that a batch runs short inside a face, where a sheet does not say. This project's own choice. */
export const standardRisk = 0.02;

/** … by the sheet, or by the first record of a day begun before sheets said it. */
export const riskOf = ({ risk = standardRisk }: Job): number => risk;
