import { fanFor_mm, gunFor, type Job, type NamedGun, type PlannedCoat, setUpOf } from '../../job/job.ts';
import {
	alongToAcross,
	bestOverlap,
	type Fan,
	filmProfile,
	type Stroke,
	variation,
} from '../../trade/fan.ts';
import { meanWetFilm_um, spacing_mm } from '../../trade/film.ts';

export type Profile = { at_mm: number; wet_um: number }[];

/** The fan of a face's height on the work, with its strokes at the sheet's overlap. */
export type FanRow = {
	/** By its tape, where the job has several. */
	gun?: string;
	fan_height_mm: number;
	fan_depth_mm: number;
	faces: string[];
	overlap: number;
	spacing_mm: number;
	mean_wet_um: number;
	variation: number;
	best_overlap: number;
	variation_at_best: number;
	/** Highest film with the fan along the stroke, in times of that with it across. */
	along_to_across: number;
	peak_across_wet_um: number;
	peak_along_wet_um: number;
};
export type FanDrawn = FanRow & { across: Profile; along: Profile };

const strokes = 5;
const places = 240;

const highest = (profile: Profile): number => Math.max(...profile.map(({ wet_um }) => wet_um));

/** A fan of a gun, the faces that it is laid on, and their coats under it. */
type Under = { gun: NamedGun; height_mm: number; faces: string[]; coats: PlannedCoat[] };

/** The stroke of the coat under a fan that lays most in one pass; null: none says its speed. */
function heaviest({ gun, coats }: Under): Stroke | null {
	const strokes = coats.flatMap(
		({ flow_mL_per_min = gun.flow_mL_per_min, speed_mm_per_s = gun.speed_mm_per_s }) =>
			speed_mm_per_s === undefined ? [] : [{ flow_mL_per_min, speed_mm_per_s, transfer: gun.transfer }],
	);
	const laid = (one: Stroke) => one.flow_mL_per_min / one.speed_mm_per_s;
	return strokes.toSorted((one, other) => laid(other) - laid(one))[0] ?? null;
}

function drawn(under: Under): FanDrawn | null {
	const { gun, height_mm: fan_height_mm, faces } = under;
	const [beta1, beta2] = gun.beta;
	const depth_mm = Math.min(gun.fanDepth_mm, fan_height_mm);
	const fan: Fan = { width_mm: fan_height_mm, depth_mm, beta1, beta2 };
	const stroke = heaviest(under);
	if (!stroke) return null;
	const between = spacing_mm({ fanHeight_mm: fan_height_mm, overlap: gun.overlap });
	const step_mm = ((strokes - 1) * between + Math.max(fan.width_mm, fan.depth_mm)) / places;
	const panel = { spacing_mm: between, strokes, step_mm };
	const across = filmProfile(fan, stroke, { ...panel, angle_deg: 0 });
	const along = filmProfile(fan, stroke, { ...panel, angle_deg: 90 });
	const best_overlap = bestOverlap(beta1);
	return {
		...(gun.called !== undefined && { gun: gun.called }),
		fan_height_mm,
		fan_depth_mm: depth_mm,
		faces,
		overlap: gun.overlap,
		spacing_mm: between,
		mean_wet_um: meanWetFilm_um({ ...stroke, spacing_mm: between }),
		variation: variation(beta1, gun.overlap),
		best_overlap,
		variation_at_best: variation(beta1, best_overlap),
		along_to_across: alongToAcross(fan),
		peak_across_wet_um: highest(across),
		peak_along_wet_um: highest(along),
		across,
		along,
	};
}

/** The fans that a job asks for, one for each gun and height; none where the sheet's figures lie outside the model. */
export function fansOf(job: Job): FanDrawn[] {
	const fans = new Map<string, Under>();
	for (const face of job.faces)
		for (const coat of face.coats) {
			const gun = gunFor(job, coat);
			const height_mm = fanFor_mm(face, coat);
			const key = `${setUpOf(job, coat) ?? ''}\u0000${height_mm}`;
			const under = fans.get(key) ?? { gun, height_mm, faces: [], coats: [] };
			if (!under.faces.includes(face.id)) under.faces.push(face.id);
			under.coats.push(coat);
			fans.set(key, under);
		}
	try {
		return [...fans.values()].flatMap(under => drawn(under) ?? []);
	} catch (error) {
		if (error instanceof RangeError) return [];
		throw error;
	}
}
