import { paintForFace_mL, spacing_mm, sprayTime_s } from '../trade/film.ts';
import { solidsOfMix } from '../trade/mix.ts';
import { crossed, type FaceDraft, hornsFor } from './faces.ts';
import type { Job, Material, PlannedCoat, Stroke } from './job.ts';
import type { StageRead } from './stages.ts';

type Gun = Job['gun'];
export type CoatFilm = { dry_um: number; reducer_parts: number };
const leastTime_s = 3;

/** Volume solids of a material's mix as sprayed, with so many parts of reducer. */
export const solidsOf = ({ solids, ratio, density_kg_per_L }: Material, reducer: number): number =>
	solidsOfMix(solids, { ...ratio, reducer }, ratio.by === 'weight' ? density_kg_per_L : null);

/** Paint as sprayed that one coat of a face needs, mL. */
export function volumeOf(area_m2: number, coat: CoatFilm, material: Material, transfer: number): number {
	const solids = solidsOf(material, coat.reducer_parts);
	return paintForFace_mL({ area_m2, dry_um: coat.dry_um, solids, transfer });
}

type Sizes = { area_m2: number; size_mm: [number, number] | null; fanHeight_mm: number };

/**
 * Time of one coat on a face with the trigger pulled, s: whole strokes at the gun's speed, one spacing apart, or as long as
 * the paint takes to flow, whichever is longer.
 */
export function pulledFor_s(face: Sizes, stroke: Stroke, volume_mL: number, gun: Gun): number {
	const spacing = spacing_mm({ fanHeight_mm: face.fanHeight_mm, overlap: gun.overlap });
	const [width, height] = face.size_mm ?? [0, 0];
	const [along, across] = stroke === 'side-to-side' ? [width, height] : [height, width];
	const bySize = (Math.ceil(across / spacing - 0.001) * along) / gun.speed_mm_per_s;
	const byArea = sprayTime_s({ ...face, speed_mm_per_s: gun.speed_mm_per_s, spacing_mm: spacing });
	const byFlow = (volume_mL / gun.flow_mL_per_min) * 60;
	return Math.max(bySize, byArea, byFlow);
}

/** Time that a plan gives one coat on a face, s. */
const timeOf = (...coat: Parameters<typeof pulledFor_s>): number =>
	Math.max(leastTime_s, pulledFor_s(...coat));

/** What has gathered on a face since its last coat, while walking through the stages. */
type Since = { prep: PlannedCoat['prep']; wait_h: number; under: Material | null };

export type FacePlan = {
	draft: FaceDraft;
	area_m2: number;
	coats: PlannedCoat[];
	finishing: Pick<Since, 'prep' | 'wait_h'> | null;
};
type Ground = { gun: Gun; materials: ReadonlyMap<string, Material> };

function layStage(
	plan: FacePlan,
	index: number,
	read: StageRead,
	since: Since,
	{ gun, materials }: Ground,
): Since {
	const { stage } = read;
	const { stroke, attitude, tilt, crosswise, fan, size } = plan.draft.entry.values;
	if (stage?.kind !== 'coats' || !stroke || !attitude || tilt === undefined) return since;
	const material = materials.get(stage.material);
	if (!material) return since;
	let { prep, wait_h } = since;
	for (const [at, kind] of stage.coats.entries()) {
		const coat = material.coats[kind];
		if (!coat) continue;
		const turned = crosswise?.some(({ value }) => value === plan.coats.length + 1);
		const its = turned ? crossed(stroke, attitude) : stroke;
		const volume_mL = volumeOf(plan.area_m2, coat, material, gun.transfer);
		const face = { area_m2: plan.area_m2, size_mm: size ?? null, fanHeight_mm: fan ?? gun.fanHeight_mm };
		plan.coats.push({
			stage: index,
			material: stage.material,
			kind,
			stroke: its,
			horns: hornsFor(tilt, its),
			ofStage: [at + 1, stage.coats.length],
			prep,
			wait_h: plan.coats.length === 0 ? 0 : wait_h,
			volume_mL,
			spray_s: timeOf(face, its, volume_mL, gun),
		});
		prep = [];
		wait_h = 0;
	}
	return { prep, wait_h, under: material };
}

/** A wait counts from the step that it stands behind, or from the coat. */
function waited(since: Since, hours: number): Since {
	const last = since.prep.at(-1);
	if (!last) return { ...since, wait_h: since.wait_h + hours };
	const then_h = (last.then_h ?? 0) + hours;
	return { ...since, prep: [...since.prep.slice(0, -1), { ...last, then_h }] };
}

/** Every coat that one face gets, stage by stage, with the work and the waits between. */
export function planFace(draft: FaceDraft, area_m2: number, stages: StageRead[], ground: Ground): FacePlan {
	const plan: FacePlan = { draft, area_m2, coats: [], finishing: null };
	let since: Since = { prep: [], wait_h: 0, under: null };
	for (const [index, read] of stages.entries()) {
		const { stage, leftOut } = read;
		if (!stage || leftOut.has(draft.id)) continue;
		if (stage.kind === 'coats') since = layStage(plan, index, read, since, ground);
		else if (stage.kind === 'wait') since = waited(since, stage.hours);
		else {
			const grit = stage.grit ?? (stage.step === 'sand' ? (since.under?.grit ?? null) : null);
			since = { ...since, prep: [...since.prep, { step: stage.step, grit }] };
		}
	}
	if (since.prep.length > 0) plan.finishing = { prep: since.prep, wait_h: since.wait_h };
	return plan;
}
