import { noUse, type Uses, withUse } from '../film/odds.ts';
import { type PlannedCoat, withGunOf } from '../job/job.ts';
import { riskOf } from '../job/on-work.ts';
import { firstBursts_mL, inGunFor_mL, unsureFor } from '../plan/batches.ts';
import type { Book } from './book.ts';

/**
 * Paint in the gun from which some faces are sprayed at the sheet's risk, or another, mL.
 * @param uses what was sprayed since it was seen how much it is
 */
export function fullFor_mL(
	{ opened }: Pick<Book, 'opened'>,
	{ material, stage }: PlannedCoat,
	wants_mL: readonly number[],
	uses: Uses = noUse,
	risk = riskOf(opened.sheet),
): number {
	const sheet = withGunOf(opened.sheet, stage);
	const unsure = unsureFor({ ...sheet, risk }, material, opened.rates ?? {});
	return inGunFor_mL(sheet, wants_mL.reduce(withUse, uses), unsure);
}

/**
 * Paint in the cup, by its count, from which some faces may be sprayed: it runs short inside one no oftener than the
 * sheet's risk; nobody mixes for the bursts of one more check. A full cup, less these, is as much as there can be.
 * @param coat of the first of them
 * @param wants_mL what each of them takes, in their order
 */
export function cupLevel_mL(book: Book, coat: PlannedCoat, wants_mL: readonly number[]): number {
	const { cup_mL, levelSince, opened } = book;
	const sheet = withGunOf(opened.sheet, coat.stage);
	const inGun_mL = fullFor_mL(book, coat, wants_mL, levelSince.uses);
	const checks_mL = firstBursts_mL(sheet, coat);
	const short_mL = inGun_mL - (levelSince.loaded_mL - levelSince.bursts_mL) - checks_mL;
	const most_mL = Math.max(0, sheet.gun.cup_mL - checks_mL);
	return Math.min(most_mL, cup_mL + short_mL);
}
