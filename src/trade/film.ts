import { positive, type Span, within } from './range.ts';

type Solids = {
	/** Volume solids of the paint before thinning, share above 0 and up to 1. */
	solids: number;
	/** Thinner ÷ paint by volume, 0 to 2. */
	thinning?: number;
};

const solidsAsLaid = ({ solids, thinning = 0 }: Solids): number =>
	within('volume solids', solids, [0.01, 1]) / (1 + within('thinner ÷ paint', thinning, [0, 2]));

/**
 * Dry film left by a wet film: wet × solids ÷ (1 + thinner ÷ paint).
 * @param film wet film in µm, above 0
 * @returns µm, as exact as the solids given; a porous or rough ground takes up more
 * @throws RangeError outside the ranges of `Solids`
 * Source: conservation of volume; shared by every coating data sheet.
 */
export const dryFilm = ({ wet_um, ...solids }: { wet_um: number } & Solids): number =>
	positive('wet film', wet_um, 'µm') * solidsAsLaid(solids);

/**
 * Wet film that dries to a wanted dry film: the inverse of `dryFilm`.
 * @param film dry film in µm, above 0
 * @returns µm
 * @throws RangeError outside the ranges of `Solids`
 */
export const wetFilm = ({ dry_um, ...solids }: { dry_um: number } & Solids): number =>
	positive('dry film', dry_um, 'µm') / solidsAsLaid(solids);

/**
 * Area that a litre of unthinned paint covers at a dry film: 1000 × solids ÷ µm, less what misses the work.
 * @param film dry film in µm; `transfer` the share that lands, 1 for the figure without loss
 * @returns m²/L
 * @throws RangeError outside the ranges
 * Source: 1 L = 1000 µm·m²; as 1604 ft²·mil/gal from 231 in³ to the gallon.
 */
export function coverage(film: { dry_um: number; solids: number; transfer?: number }): number {
	const landed = within('transfer efficiency', film.transfer ?? 1, [0.05, 1]);
	return (1000 * solidsAsLaid(film) * landed) / positive('dry film', film.dry_um, 'µm');
}

export type FacePaint = {
	area_m2: number;
	dry_um: number;
	/** Volume solids of base and hardener together, before reducing. */
	solids: number;
	/** Share of the whole mix that is reducer, 0 to 0.67. */
	reducerShareOfMix?: number;
	/** Share of the paint sprayed that lands on the face, 0.05 to 1. */
	transfer: number;
};

/**
 * Paint as sprayed (reduced, with loss) that a large flat face needs for one coat, what passes its edges not counted: area × dry film ÷ (solids of the mix × transfer).
 * @returns mL; no better than the transfer efficiency, so see `paintForFaceSpan_mL`
 * @throws RangeError outside the ranges of `FacePaint`
 * Source: conservation of volume; 1 m² × 1 µm = 1 mL.
 */
export function paintForFace_mL(face: FacePaint): number {
	const reduced = 1 - within('reducer share of the mix', face.reducerShareOfMix ?? 0, [0, 0.67]);
	const solids = within('volume solids', face.solids, [0.01, 1]) * reduced;
	const landed = within('transfer efficiency', face.transfer, [0.05, 1]);
	return (positive('area', face.area_m2, 'm²') * positive('dry film', face.dry_um, 'µm')) / (solids * landed);
}

/** A share and what it may be off by, held inside what a share can be. */
const ends = (share: number, tolerance: number): Span => ({
	low: Math.max(0.05, share - within('tolerance', tolerance, [0, 0.5])),
	high: Math.min(1, share + tolerance),
});

/**
 * The same with what is not known exactly: solids ± and transfer ± as shares.
 * @returns mL, least and most
 * @throws RangeError as `paintForFace_mL`; a tolerance beyond 0.5
 */
export function paintForFaceSpan_mL(
	face: FacePaint & { solids_tolerance: number; transfer_tolerance: number },
): Span {
	const solids = ends(face.solids, face.solids_tolerance);
	const transfer = ends(face.transfer, face.transfer_tolerance);
	return {
		low: paintForFace_mL({ ...face, solids: solids.high, transfer: transfer.high }),
		high: paintForFace_mL({ ...face, solids: solids.low, transfer: transfer.low }),
	};
}

/**
 * Distance from stroke to stroke.
 * @param fan full height of the fan in mm; overlap as a share, 0 to 0.95
 * @returns mm
 */
export const spacing_mm = ({ fanHeight_mm, overlap }: { fanHeight_mm: number; overlap: number }): number =>
	positive('fan height', fanHeight_mm, 'mm') * (1 - within('overlap', overlap, [0, 0.95]));

/**
 * Mean wet film of one layer: flow × transfer ÷ (speed × spacing).
 * @returns µm; stripes lie above and below it by the variation of the fan
 * @throws RangeError outside the ranges
 * Source: conservation of volume.
 */
export function meanWetFilm_um(gun: {
	flow_mL_per_min: number;
	transfer: number;
	speed_mm_per_s: number;
	spacing_mm: number;
}): number {
	const landed = within('transfer efficiency', gun.transfer, [0.05, 1]);
	const landed_mm3_per_s = (positive('flow', gun.flow_mL_per_min, 'mL/min') * 1000 * landed) / 60;
	const swept = positive('speed', gun.speed_mm_per_s, 'mm/s') * positive('spacing', gun.spacing_mm, 'mm');
	return (landed_mm3_per_s / swept) * 1000;
}

export type Pace = { pace: 'fast' | 'right' | 'slow'; wet_um: number; runs: boolean };

/**
 * Whether a face was sprayed too fast or too slow: the film grows as the time it took.
 * @param face seconds taken and wanted; mean wet film at the wanted time; film above which it runs
 * @param tolerance share by which the time may differ, 0 to 0.5
 * @returns pace, the wet film it comes to, and whether that is over the limit
 */
export function paceOf(
	face: { took_s: number; should_s: number; wet_um: number; limit_um: number },
	tolerance = 0.25,
): Pace {
	const ratio = positive('time taken', face.took_s, 's') / positive('time wanted', face.should_s, 's');
	const allowed = within('tolerance', tolerance, [0, 0.5]);
	const wet_um = face.wet_um * ratio;
	const pace = ratio > 1 + allowed ? 'slow' : ratio < 1 - allowed ? 'fast' : 'right';
	return { pace, wet_um, runs: wet_um > face.limit_um };
}
