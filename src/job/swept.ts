import { meanWetFilm_um, spacing_mm } from '../trade/film.ts';
import type { Face, Job } from './job.ts';

/**
 * What the strokes sweep: the face, or more where it is narrower than its strokes; the rest goes past its edge.
 * @returns m², at least the face's own area
 */
export function swept_m2(face: Face, stroke: string, overlap: number): number {
	const between = spacing_mm({ fanHeight_mm: face.fanHeight_mm, overlap });
	const [width, height] = face.size_mm ?? [0, 0];
	const [along, across] = stroke === 'side-to-side' ? [width, height] : [height, width];
	return Math.max(face.area_m2, (Math.ceil(across / between - 0.001) * between * along) / 1e6);
}

/** Mean wet film, µm, of a coat: flow × transfer × time ÷ area swept. */
export function sweptFilm_um(gun: Job['gun'], area_m2: number, time_s: number, transfer: number): number {
	const between = spacing_mm(gun);
	return meanWetFilm_um({
		flow_mL_per_min: gun.flow_mL_per_min,
		transfer,
		speed_mm_per_s: (area_m2 * 1e6) / (time_s * between),
		spacing_mm: between,
	});
}
