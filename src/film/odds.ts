import { below, quantile } from './normal.ts';

/** What a face's own use strays by from the day's, as a share. This project's own choice. */
const ownSpread = 0.1;

/** What a row of faces takes together, mL, and the squares of what each takes: so uneven are they. */
export type Uses = { sum_mL: number; squares_mL2: number };

export const noUse: Uses = { sum_mL: 0, squares_mL2: 0 };

/** A row with one face more. */
export const withUse = ({ sum_mL, squares_mL2 }: Uses, use_mL: number): Uses => ({
	sum_mL: sum_mL + use_mL,
	squares_mL2: squares_mL2 + use_mL ** 2,
});

/** How unsure a use is: for all faces of a day alike and for each by itself, as deviations of its logarithm; and how sure it must be. */
export type Unsure = { common: number; own: number; z: number };

/**
 * @param common what is unsure for all faces of a day alike, as `unsureOf` and `shownUse` give it
 * @param risk that paint runs short inside a face, above 0 and below 1
 */
export const unsureAt = (common: number, risk: number, own = ownSpread): Unsure => ({
	common,
	own,
	z: quantile(1 - risk),
});

function spreadOfUse({ sum_mL, squares_mL2 }: Uses, { common, own }: Pick<Unsure, 'common' | 'own'>) {
	const even = sum_mL === 0 ? 0 : squares_mL2 / sum_mL ** 2;
	return { shift: 0.5 * own ** 2 * (1 - even), spread: Math.sqrt(common ** 2 + own ** 2 * even) };
}

/**
 * Paint that a row of faces is sprayed from, so that it runs short inside a face no oftener than its risk.
 * @returns mL, fixed losses not counted; exactly the sum where nothing is unsure
 * Source: sum of lognormals by their first two moments (from memory).
 */
export function enoughFor_mL(uses: Uses, unsure: Unsure): number {
	const { shift, spread } = spreadOfUse(uses, unsure);
	return uses.sum_mL * Math.exp(shift + unsure.z * spread);
}

/**
 * Chance that paint runs short inside the last of a row of faces.
 * @param paint_mL loaded since the cup was last read, fixed losses taken off
 * @returns share
 */
export function shortOdds(paint_mL: number, uses: Uses, unsure: Pick<Unsure, 'common' | 'own'>): number {
	if (paint_mL <= 0) return 1;
	const { shift, spread } = spreadOfUse(uses, unsure);
	const room = Math.log(paint_mL / uses.sum_mL) - shift;
	if (spread === 0) return room < 0 ? 1 : 0;
	return below(-room / spread);
}

/** What each figure of a film is unsure by, as shares. */
export type FilmSpread = { transfer: number; flow: number; speed: number; spacing: number };

/** Standard deviations of speed and line spacing of a hand. This project's own choices. */
export const handSpread = { speed: 0.1, spacing: 0.05 };

const spreadOf = ({ transfer, flow, speed, spacing }: FilmSpread): number =>
	Math.hypot(transfer, flow, speed, spacing);

/** Chance that the highest film of a face is over what it holds. */
export const sagOdds = (peak_um: number, limit_um: number, spread: FilmSpread): number =>
	below(Math.log(peak_um / limit_um) / spreadOf(spread));

/**
 * Chance that something begins after a time, both s from one moment.
 * @param mean_s when it begins on an even day
 * @param spread_s one deviation of that
 */
export function lateOdds(mean_s: number, close_s: number, spread_s: number): number {
	if (spread_s === 0) return mean_s > close_s ? 1 : 0;
	return below((mean_s - close_s) / spread_s);
}

/** `1 in 50`: never more digits than odds have. */
export function oddsSaid(share: number): string {
	if (share <= 0.0005) return 'less than 1 in 1000';
	if (share > 0.6) return 'likely';
	const against = 1 / share;
	const digits = against < 10 ? 1 : against < 100 ? 5 : 50;
	return `1 in ${Math.max(2, Math.round(against / digits) * digits)}`;
}
