import { below, quantile } from './normal.ts';

/** What a face's own use strays by from the day's, as a share. This project's own choice. */
const ownSpread = 0.1;

/** The use of a row of faces: what they are to take together, mL, and how unsure that is. */
type Row = { sum_mL: number; shift: number; spread: number };

/**
 * @param uses_mL what each face is to take
 * @param common what is unsure for all faces of a day alike, one deviation of its logarithm
 * @param own a face's own, the same
 */
function rowOf(uses_mL: readonly number[], common: number, own: number): Row {
	const sum_mL = uses_mL.reduce((sum, use) => sum + use, 0);
	const squares = uses_mL.reduce((sum, use) => sum + use ** 2, 0);
	const even = sum_mL === 0 ? 0 : squares / sum_mL ** 2;
	return { sum_mL, shift: 0.5 * own ** 2 * (1 - even), spread: Math.sqrt(common ** 2 + own ** 2 * even) };
}

/**
 * Paint that a row of faces is sprayed from, so that it runs short inside a face no oftener than a risk.
 * @param risk above 0 and below 1
 * @returns mL, fixed losses not counted; exactly the sum where nothing is unsure
 * Source: sum of lognormals by their first two moments (from memory).
 */
export function enoughFor_mL(
	uses_mL: readonly number[],
	{ common, own = ownSpread, risk }: { common: number; own?: number; risk: number },
): number {
	const { sum_mL, shift, spread } = rowOf(uses_mL, common, own);
	return sum_mL * Math.exp(shift + (spread === 0 ? 0 : quantile(1 - risk) * spread));
}

/**
 * Chance that paint runs short inside the last of a row of faces.
 * @param paint_mL loaded since the cup was last read, fixed losses taken off
 * @returns share
 */
export function shortOdds(
	paint_mL: number,
	uses_mL: readonly number[],
	{ common, own = ownSpread }: { common: number; own?: number },
): number {
	if (paint_mL <= 0) return 1;
	const { sum_mL, shift, spread } = rowOf(uses_mL, common, own);
	const room = Math.log(paint_mL / sum_mL) - shift;
	if (spread === 0) return room < 0 ? 1 : 0;
	return below(-room / spread);
}

/** What each figure of a film is unsure by, as shares. */
export type FilmSpread = { transfer: number; flow: number; speed: number; spacing: number; solids: number };

/** Standard deviations of speed and line spacing of a hand. This project's own choices. */
export const handSpread = { speed: 0.1, spacing: 0.05 };

const spreadOf = ({ transfer, flow, speed, spacing }: FilmSpread): number =>
	Math.hypot(transfer, flow, speed, spacing);

/** Chance that the highest film of a face is over what it holds. */
export const sagOdds = (peak_um: number, limit_um: number, spread: FilmSpread): number =>
	below(Math.log(peak_um / limit_um) / spreadOf(spread));

/** Chance that the thinnest dry film of a face is under the least wanted. */
export const thinOdds = (least_dry_um: number, wanted_dry_um: number, spread: FilmSpread): number =>
	below(Math.log(wanted_dry_um / least_dry_um) / Math.hypot(spreadOf(spread), spread.solids));

/** Chance that a start that lies about `mean`, one deviation `spread`, comes after an end. Any one unit. */
export const missedOdds = (mean: number, spread: number, closes: number): number =>
	spread === 0 ? (mean > closes ? 1 : 0) : below((mean - closes) / spread);

/** `1 in 50`: never more digits than odds have. */
export function oddsSaid(share: number): string {
	if (share <= 0.0005) return 'less than 1 in 1000';
	if (share > 0.6) return 'likely';
	const against = 1 / share;
	const digits = against < 10 ? 1 : against < 100 ? 5 : 50;
	return `1 in ${Math.max(2, Math.round(against / digits) * digits)}`;
}
