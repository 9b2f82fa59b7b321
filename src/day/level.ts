import { withUse } from '../film/odds.ts';
import type { PlannedCoat } from '../job/job.ts';
import { firstBursts_mL, inGunFor_mL, unsureFor } from '../plan/batches.ts';
import type { Book } from './book.ts';

/**
 * Paint in the cup, by its count, from which some faces may be sprayed: it runs short inside one no oftener than the
 * sheet's risk; nobody mixes for the bursts of one more check. A full cup, less these, is as much as there can be.
 * @param coat of the first of them
 * @param wants_mL what each of them takes, in their order
 */
export function cupLevel_mL(book: Book, coat: PlannedCoat, wants_mL: readonly number[]): number {
	const { cup_mL, cupSince, opened } = book;
	const unsure = unsureFor(opened.sheet, coat.material, opened.rates ?? {});
	const inGun_mL = inGunFor_mL(opened.sheet, wants_mL.reduce(withUse, cupSince.uses), unsure);
	const checks_mL = firstBursts_mL(opened.sheet, coat);
	const short_mL = inGun_mL - (cupSince.loaded_mL - cupSince.bursts_mL) - checks_mL;
	const most_mL = Math.max(0, opened.sheet.gun.cup_mL - checks_mL);
	return Math.min(most_mL, cup_mL + short_mL);
}
