import { takes } from '../../day/takes.ts';
import { gunFor, type NamedGun } from '../../job/job.ts';
import { pouredSolids, solidsOf, wanted_um } from '../../job/on-work.ts';
import { type Pace, paceOf, wetFilm } from '../../trade/film.ts';
import { plannedPull_s } from '../../trade/pulls.ts';
import { sagLimit_um } from '../../trade/sag.ts';
import { type Against, againstTarget } from './against.ts';
import type { CoatRow } from './coats.ts';
import { type Day, faceIn, ofType, plannedCoat } from './day.ts';

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

/** Film of one coat, and where it stands to its target. */
export type FilmRow = Bare & Against;

type Bare = {
	face: string;
	coat: number;
	target_dry_um: number;
	target_wet_um: number;
	/** Wet film above which it runs on this face; null: flat work. */
	sag_um: number | null;
	took_s: number;
	should_s: number;
	/** Paint that was to leave the gun for it in this shop, mL, and to land by the sheet. */
	wants_mL: number;
	landed_mL: number | null;
	/** Wet film planned at its thinnest and its thickest place; null: planned under older sums. */
	planned_min_um: number | null;
	planned_peak_um: number | null;
	/** … and over the time that the trigger was pulled; null: no trigger line says it. */
	laid_wet_um: number | null;
	laid_low_wet_um: number | null;
	laid_high_wet_um: number | null;
	laid_dry_um: number | null;
	/** Seconds of trigger against those planned, by more than a quarter: of the time, not of the film. */
	pace: Pace['pace'] | null;
	over_sag: boolean | null;
	/** From its share of a stretch. */
	estimated: boolean;
	measured: { at: string; by: string; dry_um: number | null; wet_um: number | null }[];
};

const planOf = (day: Day, { material, kind }: CoatRow) =>
	day.job.materials[material]?.coats[kind as 'tack' | 'medium' | 'full'];

function measuredOn(day: Day, { face, coat }: CoatRow): FilmRow['measured'] {
	return ofType(day, 'film.read')
		.filter(read => read.face === face && read.coat === coat)
		.map(({ at, by, dry_um, wet_um }) => ({ at, by, dry_um: dry_um ?? null, wet_um: wet_um ?? null }));
}

/** What was laid of a coat, by its pulls, as wide as flow and transfer are unsure; `ofDry`: wet film ÷ dry film. */
function laidOn(
	gun: NamedGun,
	{ pulled_s, planned_s }: { pulled_s: number; planned_s: number },
	{ wet_um, limit_um, ofDry }: Record<'wet_um' | 'limit_um' | 'ofDry', number>,
): Laid {
	const spread = Math.exp(Math.hypot(gun.transfer_tolerance / gun.transfer, gun.flow_tolerance ?? 0));
	const {
		pace,
		wet_um: laid_wet_um,
		runs,
	} = paceOf({ took_s: pulled_s, should_s: planned_s, wet_um, limit_um });
	return {
		laid_wet_um,
		laid_low_wet_um: laid_wet_um / spread,
		laid_high_wet_um: laid_wet_um * spread,
		laid_dry_um: laid_wet_um / ofDry,
		pace,
		over_sag: runs,
	};
}

/** One coat's film; null where nothing was laid of it, or the sheet's figures give none. */
function filmRow(day: Day, row: CoatRow): Bare | null {
	const face = faceIn(day.job, row.face);
	const material = day.job.materials[row.material];
	const plan = planOf(day, row);
	if (!face || !material || !plan || row.passes.every(({ extent }) => extent === 'none')) return null;
	const batch = day.book.batches.get(row.cup[0] ?? '');
	const planned = solidsOf(material, batch?.ratio.reducer ?? plan.reducer_parts);
	const ofDry = wetFilm({ dry_um: 1, solids: (batch && pouredSolids(material, batch)) ?? planned });
	const coat = plannedCoat(day.job, row.face, row.coat);
	const limit_um = sagLimit_um(material.sag_um, coat?.attitude ?? face.attitude);
	const wet_um = coat && wanted_um(material, coat.kind);
	const planned_s = coat ? plannedPull_s(row.should_s, coat, 1) : 0;
	const pulled_s = row.pulled && row.took_s > 0 ? row.took_s : null;
	if (!coat || wet_um === null || wet_um === undefined) return null;
	return {
		face: row.face,
		coat: row.coat,
		target_dry_um: plan.dry_um,
		target_wet_um: wetFilm({ dry_um: plan.dry_um, solids: planned }),
		sag_um: Number.isFinite(limit_um) ? limit_um : null,
		took_s: row.took_s,
		should_s: pulled_s === null ? row.should_s : planned_s,
		wants_mL: takes(day.opened, coat).volume_mL,
		landed_mL: coat.landed_mL ?? null,
		planned_min_um: coat.min_um ?? null,
		planned_peak_um: coat.peak_um ?? null,
		...(pulled_s === null
			? notKnown
			: laidOn(gunFor(day.job, coat), { pulled_s, planned_s }, { wet_um, limit_um, ofDry })),
		estimated: row.estimated,
		measured: measuredOn(day, row),
	};
}

/** Film against target for every coat of which something was laid and the sheet's figures say how much. */
export function filmRows(day: Day, coats: readonly CoatRow[]): FilmRow[] {
	const rows = coats.flatMap(row => {
		try {
			return filmRow(day, row) ?? [];
		} catch (error) {
			if (error instanceof RangeError) return [];
			throw error;
		}
	});
	return againstTarget(day, rows);
}
