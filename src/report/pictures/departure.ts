import { format, type UnitSystem } from '../../trade/shown.ts';
import { between, boundsRead } from '../tables/against.ts';
import type { FilmRow } from '../tables/film.ts';

/** What a picture of a film goes by. */
export type Filmed = Pick<
	FilmRow,
	| 'face'
	| 'coat'
	| 'target_wet_um'
	| 'sag_um'
	| 'laid_wet_um'
	| 'laid_low_wet_um'
	| 'laid_high_wet_um'
	| 'measured'
	| 'build_target_dry_um'
>;

/** A film beside its target, µm; the rest are shares of the target, 1 on it. */
export type Departure = {
	row: Filmed;
	target_um: number;
	film_um: number;
	share: number;
	low: number;
	high: number;
	/** The film at which it runs on such a face; null: flat work, or a dry build. */
	limit: number | null;
	/** A gauge read it; else it is worked out from the trigger's pulls. */
	read: boolean;
	/** Which side of the target the whole interval lies on; `runs`: it is over the limit. */
	lies: 'light' | 'on' | 'heavy' | 'runs';
};

const lying = { under: 'light', within: 'on', over: 'heavy' } as const;

/** A film beside its target; `interval`: what was worked out may be off by so much, else it was read. */
function beside(
	row: Filmed,
	target_um: number,
	film_um: number,
	limit_um: number | null,
	interval?: [number, number],
): Departure | null {
	if (target_um <= 0) return null;
	const [low_um, high_um] = interval ?? boundsRead(film_um);
	const share = film_um / target_um;
	const [low, high] = [low_um / target_um, high_um / target_um];
	const limit = limit_um === null ? null : limit_um / target_um;
	const lies = limit !== null && share > limit ? 'runs' : lying[between(low_um, high_um, target_um)];
	return { row, target_um, film_um, share, low, high, limit, read: interval === undefined, lies };
}

/** The film of a coat against its target: as it was read wet, else by its pulls; null: nothing tells of it. */
export function departureOf(row: Filmed): Departure | null {
	const { measured, laid_wet_um, laid_low_wet_um, laid_high_wet_um, target_wet_um, sag_um } = row;
	const wet = measured.findLast(({ wet_um }) => wet_um !== null)?.wet_um ?? null;
	if (wet !== null) return beside(row, target_wet_um, wet, sag_um);
	if (laid_wet_um === null) return null;
	const interval: [number, number] = [laid_low_wet_um ?? laid_wet_um, laid_high_wet_um ?? laid_wet_um];
	return beside(row, target_wet_um, laid_wet_um, sag_um, interval);
}

/**
 * A dry reading against the whole build: the gauge reads every coat down to what is painted.
 * @returns null where none was taken, or the sheet has no film for a coat under it
 */
export function buildOf(row: Filmed): Departure | null {
	const dry = row.measured.findLast(({ dry_um }) => dry_um !== null)?.dry_um ?? null;
	return dry === null || row.build_target_dry_um === null
		? null
		: beside(row, row.build_target_dry_um, dry, null);
}

/** `2.6 mil, 2.5 × target: heavy`; on its target, the film alone. */
export function departureSaid({ film_um, share, lies }: Departure, units: UnitSystem): string {
	const film = format(film_um, 'film', units);
	if (lies === 'on') return film;
	const times = share >= 1.5 ? `${share.toFixed(1)} × target` : `${Math.round(share * 100)}% of target`;
	return `${film}, ${times}${lies === 'runs' ? ', runs' : ''}`;
}
