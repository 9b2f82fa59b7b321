import { format, type UnitSystem } from '../../trade/shown.ts';
import type { FilmRow } from '../tables/film.ts';

/** A film beside its target: shares of the target, 1 on it. */
export type Departure = {
	row: FilmRow;
	wet_um: number;
	share: number;
	low: number;
	high: number;
	/** The film at which it runs on such a face; null: flat work. */
	limit: number | null;
	/** A gauge read it; else it is worked out from the trigger's pulls. */
	read: boolean;
	/** Which side of the target the whole interval lies on; `runs`: it is over the limit. */
	lies: 'light' | 'on' | 'heavy' | 'runs';
};

/** A film read once may be off by this share, where its gauge says nothing. This project's own choice. */
const readWithin = 0.1;

const mean = (values: readonly number[]): number =>
	values.reduce((sum, value) => sum + value, 0) / values.length;

/** The film of a coat against its target: as it was read wet, else by its pulls; null: nothing tells of it. */
export function departureOf(row: FilmRow): Departure | null {
	const { measured, laid_wet_um, laid_low_wet_um, laid_high_wet_um, target_wet_um, sag_um } = row;
	const wet = measured.flatMap(({ wet_um }) => wet_um ?? []);
	const read = wet.length > 0;
	const wet_um = read ? mean(wet) : laid_wet_um;
	if (wet_um === null || target_wet_um <= 0) return null;
	const [low_um, high_um] = read
		? [Math.min(...wet) * (1 - readWithin), Math.max(...wet) * (1 + readWithin)]
		: [laid_low_wet_um ?? wet_um, laid_high_wet_um ?? wet_um];
	const share = wet_um / target_wet_um;
	const [low, high] = [low_um / target_wet_um, high_um / target_wet_um];
	const limit = sag_um === null ? null : sag_um / target_wet_um;
	const lies = limit !== null && share > limit ? 'runs' : low > 1 ? 'heavy' : high < 1 ? 'light' : 'on';
	return { row, wet_um, share, low, high, limit, read, lies };
}

/** `2.6 mil, 2.5 × target: heavy`; on its target, the film alone. */
export function departureSaid({ wet_um, share, lies }: Departure, units: UnitSystem): string {
	const film = format(wet_um, 'film', units);
	if (lies === 'on') return film;
	const times = share >= 1.5 ? `${share.toFixed(1)} × target` : `${Math.round(share * 100)}% of target`;
	return `${film}, ${times}${lies === 'runs' ? ', runs' : ''}`;
}
