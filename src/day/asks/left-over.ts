import { inert } from '../../job/inert.ts';
import { gunCalled } from '../../job/job.ts';
import { fromUnit } from '../../trade/quantity.ts';
import { entryUnit, format } from '../../trade/shown.ts';
import { about } from '../../words/spoken.ts';
import type { Book } from '../book.ts';
import { jobOf, type Moment, unitsOf } from '../moment.ts';
import { option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { askedAgain } from './doubted.ts';
import { flushLines } from './flushing.ts';
import { keyed } from './keyed.ts';

/** Why a cup is poured off that is not empty. */
type PouredOff = 'flushed' | 'end of the day';

/** Coats take so much less than is counted for them at the least. This project's own choice. */
const leastTaken = 0.75;

/** The most that can be left in the cup, mL: what was filled in, less what was sprayed of it at the least. */
const mostLeft_mL = ({ cup_mL, cupSince }: Book): number =>
	cupSince.loaded_mL - leastTaken * Math.max(0, cupSince.loaded_mL - cup_mL);

/** The cup poured off: what is left is seen by eye, or measured, so that the shop learns what its coats take. */
export function leftOverPrompt(moment: Moment, why: PouredOff, ...then: DayEvent[]): Prompt {
	const { cup_mL, cupGun } = moment.state.book;
	const left_mL = mostLeft_mL(moment.state.book);
	const units = unitsOf(moment);
	const { symbol, step } = entryUnit('volume', units);
	const cup = gunCalled(jobOf(moment), cupGun);
	const most = keyed(cup.cup_mL, 'volume', units);
	const seen = (volume_mL: number): DayEvent => ({ type: 'cup.emptied', volume_mL, why });
	const prompt: Prompt = {
		state: 'left',
		ask: 'number',
		say:
			cupGun === null
				? 'Air shut, line bled. Pour off the cup: how much is left?'
				: about(`Gun ${inert(cupGun)}`, 'air shut, bled. Pour it off: how much?'),
		lines: why === 'flushed' ? [...flushLines] : [],
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
		// By eye it is no reading. In the corner of CLEAN UP stands what says least: struck twice, it goes by the count.
		options: [
			option('unread', 'MORE', seen(cup_mL)),
			...(
				[
					['half', 'HALF', 1 / 2],
					['quarter', 'A QUARTER', 1 / 4],
					['empty', 'EMPTY', 0],
				] as const
			).map(([code, text, share]) => option(code, text, seen(Math.min(left_mL, share * cup.cup_mL)))),
		].map(one => ({ ...one, events: [...one.events, ...then] })),
	};
	const doubts = (value: number) => fromUnit(value, 'volume', symbol) > left_mL + 1;
	return askedAgain(
		prompt,
		doubts,
		read => `${read}? At most ${format(left_mL, 'volume', units)} can be in it.`,
	);
}
