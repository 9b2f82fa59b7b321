import { beginList } from '../begin-list.ts';
import { contextOf, type Moment } from '../moment.ts';
import type { DayEvent } from '../records.ts';

/** The list of the clean-up, from wherever it is begun. */

export const endOfDay = 'end of the day';

export const cleanUpList = (moment: Moment) => beginList(moment, 'clean-up');

/** Clean-up empties the gun first: what is left in the cup is waste. */
export const cleanUp = (moment: Moment): DayEvent[] =>
	contextOf(moment).cup.length > 0
		? [{ type: 'cup.emptied', volume_mL: moment.state.book.cup_mL, why: endOfDay }, cleanUpList(moment)]
		: [cleanUpList(moment)];
