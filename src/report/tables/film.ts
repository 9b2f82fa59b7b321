import { swept_m2, sweptFilm_um } from '../../job/swept.ts';
import { type Pace, paceOf, wetFilm } from '../../trade/film.ts';
import { sagLimit_um } from '../../trade/sag.ts';
import type { CoatRow } from './coats.ts';
import { type Day, faceIn, ofType } from './day.ts';

/** What the pulls of a coat come to; nothing without a trigger line: two keys tell how long a face took, not its film. */
type Laid = Pick<
	FilmRow,
	'laid_wet_um' | 'laid_low_wet_um' | 'laid_high_wet_um' | 'laid_dry_um' | 'pace' | 'over_sag'
>;

const notKnown: Laid = {
	laid_wet_um: null,
	laid_low_wet_um: null,
	laid_high_wet_um: null,
	laid_dry_um: null,
	pace: null,
	over_sag: null,
};

export type FilmRow = {
	face: string;
	coat: number;
	target_dry_um: number;
	target_wet_um: number;
	/** Wet film above which it runs on this face; null: flat work. */
	sag_um: number | null;
	took_s: number;
	should_s: number;
	/** What the sheet's flow comes to over the time the sheet gives. */
	expected_wet_um: number;
	/** … and over the time that the trigger was pulled; null: no trigger line says it. */
	laid_wet_um: number | null;
	laid_low_wet_um: number | null;
	laid_high_wet_um: number | null;
	laid_dry_um: number | null;
	pace: Pace['pace'] | null;
	over_sag: boolean | null;
	/** From its share of a stretch. */
	estimated: boolean;
	measured: { at: string; by: string; dry_um: number | null; wet_um: number | null }[];
};

/** Reducer as a share of base and hardener: of the batch sprayed, else of the sheet. */
function thinningOf(day: Day, row: CoatRow): number {
	const material = day.job.materials[row.material];
	const batch = day.book.batches.get(row.cup[0] ?? '');
	const ratio = batch?.ratio ?? {
		base: material?.ratio.base ?? 1,
		hardener: material?.ratio.hardener ?? 0,
		reducer: planOf(day, row)?.reducer_parts ?? material?.reducer_parts ?? 0,
	};
	return ratio.reducer / (ratio.base + ratio.hardener);
}

const planOf = (day: Day, { material, kind }: CoatRow) =>
	day.job.materials[material]?.coats[kind as 'tack' | 'medium' | 'full'];

function measuredOn(day: Day, { face, coat }: CoatRow): FilmRow['measured'] {
	return ofType(day, 'film.read')
		.filter(read => read.face === face && read.coat === coat)
		.map(({ at, by, dry_um, wet_um }) => ({ at, by, dry_um: dry_um ?? null, wet_um: wet_um ?? null }));
}

/** What was laid of a coat over `area_m2`, as wide as the transfer is unsure; `ofDry`: wet film ÷ dry film. */
function laidOn(
	day: Day,
	{ took_s, should_s }: CoatRow,
	{
		area_m2,
		expected_wet_um,
		limit_um,
		ofDry,
	}: Record<'area_m2' | 'expected_wet_um' | 'limit_um' | 'ofDry', number>,
): Laid {
	const { transfer, transfer_tolerance } = day.job.gun;
	const laid = (share: number) =>
		sweptFilm_um(day.job.gun, area_m2, took_s, Math.min(1, Math.max(0.05, share)));
	const { pace, wet_um: laid_wet_um, runs } = paceOf({ took_s, should_s, wet_um: expected_wet_um, limit_um });
	return {
		laid_wet_um,
		laid_low_wet_um: laid(transfer - transfer_tolerance),
		laid_high_wet_um: laid(transfer + transfer_tolerance),
		laid_dry_um: laid_wet_um / ofDry,
		pace,
		over_sag: runs,
	};
}

/** One coat's film; null where nothing was laid of it, or the sheet's figures give none. */
function filmRow(day: Day, row: CoatRow): FilmRow | null {
	const face = faceIn(day.job, row.face);
	const material = day.job.materials[row.material];
	const plan = planOf(day, row);
	if (!face || !material || !plan || row.passes.every(({ extent }) => extent === 'none')) return null;
	const area_m2 = swept_m2(face, row.stroke, day.job.gun.overlap);
	const expected_wet_um = sweptFilm_um(day.job.gun, area_m2, row.should_s, day.job.gun.transfer);
	const limit_um = sagLimit_um(material.sag_um, face.attitude);
	const ofDry = wetFilm({ dry_um: 1, solids: material.solids, thinning: thinningOf(day, row) });
	const isKnown = row.pulled && row.took_s > 0;
	return {
		face: row.face,
		coat: row.coat,
		target_dry_um: plan.dry_um,
		target_wet_um: plan.dry_um * ofDry,
		sag_um: Number.isFinite(limit_um) ? limit_um : null,
		took_s: row.took_s,
		should_s: row.should_s,
		expected_wet_um,
		...(isKnown ? laidOn(day, row, { area_m2, expected_wet_um, limit_um, ofDry }) : notKnown),
		estimated: row.estimated,
		measured: measuredOn(day, row),
	};
}

/** Film against target for every coat of which something was laid and the sheet's figures say how much. */
export function filmRows(day: Day, coats: readonly CoatRow[]): FilmRow[] {
	return coats.flatMap(row => {
		try {
			return filmRow(day, row) ?? [];
		} catch (error) {
			if (error instanceof RangeError) return [];
			throw error;
		}
	});
}
