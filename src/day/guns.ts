import { gunFor, type NamedGun, type PlannedCoat, plannedOn, setUpOf } from '../job/job.ts';
import { type Book, gunUnset } from './book.ts';
import { jobOf, type Moment, nextCoat } from './moment.ts';

/** Which of the job's guns a coat is sprayed with, which one was checked, and which one holds the paint. */

/** The gun that a face's next coat is sprayed with, as it is set up for it. */
export const gunNext = (moment: Moment, id: string): NamedGun => gunFor(jobOf(moment), nextCoat(moment, id));

/** The last gun check was of another gun than the face wants, or of another set-up of it. */
export function isOtherGun(moment: Moment, id: string): boolean {
	const { checked } = moment.state.book;
	const job = jobOf(moment);
	const last = checked ? plannedOn(job, checked.face, checked.coat) : undefined;
	return last !== undefined && setUpOf(job, last) !== setUpOf(job, nextCoat(moment, id));
}

/** The paint is in the cup of another gun than the coat wants. */
export const isInOtherGun = (moment: Moment, coat: PlannedCoat): boolean => {
	const { cupGun } = moment.state.book;
	return cupGun !== null && gunFor(jobOf(moment), coat).called !== cupGun;
};

/** How the gun that a face wants was set last; nothing is known of another one than the last checked. */
export const gunSetFor = ({ state, now }: Moment, id: string): Book['gun'] =>
	(gunNext({ state, now }, id).called ?? null) === state.book.gunInHand ? state.book.gun : gunUnset;
