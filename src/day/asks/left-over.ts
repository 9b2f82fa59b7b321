import { fromUnit } from '../../trade/quantity.ts';
import { entryUnit } from '../../trade/shown.ts';
import { jobOf, type Moment, unitsOf } from '../moment.ts';
import { option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { flushLines } from './flushing.ts';
import { keyed } from './keyed.ts';

/** Why a cup is poured off that is not empty. */
type PouredOff = 'flushed' | 'end of the day';

/** The cup poured off with time in hand: what is left is measured, so that the shop learns what its coats take. */
export function leftOverPrompt(moment: Moment, why: PouredOff, ...then: DayEvent[]): Prompt {
	const { cup_mL } = moment.state.book;
	const units = unitsOf(moment);
	const { symbol, step } = entryUnit('volume', units);
	const most = keyed(jobOf(moment).gun.cup_mL, 'volume', units);
	return {
		state: 'left',
		ask: 'number',
		say: 'Cup: pour it off. How much is left?',
		lines: why === 'flushed' ? [...flushLines] : ['Air off and line bled before the cap comes off.'],
		number: {
			of: 'left',
			unit: most.unit,
			min: 0,
			max: most.to,
			step,
			reply: value => ({
				events: [
					{ type: 'cup.emptied', volume_mL: fromUnit(value, 'volume', symbol), why, read: true },
					...then,
				],
			}),
		},
		options: [option('unread', 'NOT MEASURED', { type: 'cup.emptied', volume_mL: cup_mL, why }, ...then)],
	};
}
