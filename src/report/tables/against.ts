import { type Day, plannedCoat } from './day.ts';

/** Film against target, its uncertainty counted. */
type Stands = {
	/** null: nothing says it. */
	against_target: 'under' | 'within' | 'over' | null;
	/** What says so. */
	against_by: 'wet reading' | 'dry reading' | 'pulls' | null;
};

/** Dry film of all coats on the face up to this one, which a dry gauge reads: wanted, and by the pulls. */
type Build = {
	build_target_dry_um: number | null;
	build_dry_um: number | null;
	build_low_dry_um: number | null;
	build_high_dry_um: number | null;
};

export type Against = Stands & Build;

/** What is asked of a film before it is set against its target and what lies under it. */
type Bare = {
	face: string;
	coat: number;
	target_wet_um: number;
	laid_wet_um: number | null;
	laid_low_wet_um: number | null;
	laid_high_wet_um: number | null;
	laid_dry_um: number | null;
	measured: readonly { dry_um: number | null; wet_um: number | null }[];
};

/** A reading that departs from its target by no more than this share departs from nothing. This project's own choice. */
const readWithin = 0.25;

const sum = (values: readonly (number | null)[]): number | null =>
	values.reduce<number | null>((all, one) => (all === null || one === null ? null : all + one), 0);

/** Dry film that the sheet wants of a coat, µm; null: it has no such coat. */
function wantedDry_um({ job }: Day, face: string, coat: number): number | null {
	const plan = plannedCoat(job, face, coat);
	return (plan && job.materials[plan.material]?.coats[plan.kind]?.dry_um) ?? null;
}

/**
 * The whole build under a dry gauge on a coat: as the sheet wants it, and as the pulls of every coat come to. Flow and
 * transfer are off for all coats of a gun alike, so their bounds add up. What was sanded off is not known.
 */
function buildOf(day: Day, row: Bare, all: readonly Bare[]): Build {
	const numbers = Array.from({ length: row.coat }, (_, nth) => nth + 1);
	const under = numbers.map(coat => all.find(one => one.face === row.face && one.coat === coat));
	const dry = (of: (one: Bare) => number | null) =>
		sum(
			under.map(one => {
				const wet_um = one ? of(one) : null;
				return one?.laid_dry_um && one.laid_wet_um && wet_um !== null
					? (one.laid_dry_um * wet_um) / one.laid_wet_um
					: null;
			}),
		);
	return {
		build_target_dry_um: sum(numbers.map(coat => wantedDry_um(day, row.face, coat))),
		build_dry_um: dry(one => one.laid_wet_um),
		build_low_dry_um: dry(one => one.laid_low_wet_um),
		build_high_dry_um: dry(one => one.laid_high_wet_um),
	};
}

/** Films are told to the micrometre. */
const least_um = 0.5;

/** Where a film between two bounds lies to its target: it departs only where the target lies outside them. */
export function between(low_um: number, high_um: number, target_um: number): 'under' | 'within' | 'over' {
	if (low_um > target_um + least_um) return 'over';
	return high_um < target_um - least_um ? 'under' : 'within';
}

/** What a film that was read may be off by, µm. */
export const boundsRead = (read_um: number): [low_um: number, high_um: number] => [
	read_um / (1 + readWithin),
	read_um * (1 + readWithin),
];

const asRead = (read_um: number, target_um: number) => between(...boundsRead(read_um), target_um);

/** Film against target: by a gauge where one was read, wet before dry, the last reading first; else by the pulls. */
function standsOf(row: Bare, build: Build): Stands {
	const wet = row.measured.findLast(({ wet_um }) => wet_um !== null)?.wet_um ?? null;
	const dry = row.measured.findLast(({ dry_um }) => dry_um !== null)?.dry_um ?? null;
	if (wet !== null) return { against_target: asRead(wet, row.target_wet_um), against_by: 'wet reading' };
	if (dry !== null && build.build_target_dry_um !== null)
		return { against_target: asRead(dry, build.build_target_dry_um), against_by: 'dry reading' };
	const { laid_low_wet_um: low, laid_high_wet_um: high } = row;
	if (low === null || high === null) return { against_target: null, against_by: null };
	return { against_target: between(low, high, row.target_wet_um), against_by: 'pulls' };
}

/** Films of a day, each against its target and with the build under it. */
export const againstTarget = <Row extends Bare>(day: Day, rows: readonly Row[]): (Row & Against)[] =>
	rows.map(row => {
		const build = buildOf(day, row, rows);
		return { ...row, ...build, ...standsOf(row, build) };
	});
