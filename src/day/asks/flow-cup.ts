import { cupReading } from '../../trade/cup.ts';
import { fromUnit, inUnit } from '../../trade/quantity.ts';
import { entryUnit } from '../../trade/shown.ts';
import type { BatchBook } from '../book.ts';
import { type Moment, materialOf, unitsOf } from '../moment.ts';
import { opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { reasonPrompt } from './override.ts';
import { whyAsked, worded } from './worded.ts';

/** Seconds in the flow cup, then the temperature of the paint. */
export function cupPrompt(
	moment: Moment,
	letter: string,
	batch: BatchBook,
	numbers: readonly number[],
	menu: readonly string[],
): Prompt {
	const { cup } = materialOf(moment, batch.material);
	if (!cup) {
		return {
			state: 'mix.cup',
			ask: 'do',
			say: 'Flow cup: the data sheet gives no seconds.',
			options: [
				option('done', 'DONE', {
					type: 'cup.timed',
					batch: letter,
					cup: 'none',
					seconds: 0,
					tempC: 0,
					fits: true,
				}),
			],
		};
	}
	if (menu[0] === 'cup-off') {
		const [low, high] = cup.seconds;
		const over = (reason: string): DayEvent[] => [
			{ type: 'override.given', rule: 'cup', reason, face: null, coat: null, batch: letter },
		];
		if (menu[1] === 'reason') return reasonPrompt('cup', 'Flow cup: why use it as it is?', menu, over);
		return {
			state: 'mix.cup.off',
			ask: 'choose',
			say: `Flow cup: ${batch.seconds} s. ${low} to ${high} s are wanted.`,
			lines: ['Reducer only as the data sheet allows. Warm it, stir it, time it again.'],
			options: [
				{ code: 'time-again', text: 'TIME AGAIN', reply: () => ({ ui: { menu: [] } }) },
				opens('use-as-is', 'USE AS IT IS', 'cup-off', 'reason'),
				option('discard', 'DISCARD', { type: 'batch.discarded', batch: letter, why: 'flow cup seconds off' }),
			],
		};
	}
	const units = unitsOf(moment);
	if (numbers.length === 0)
		return {
			state: 'mix.cup.seconds',
			ask: 'number',
			say: worded(moment, 'mixing', 'cup', 'cup', { cup: cup.kind }),
			lines: whyAsked(moment, 'mixing', 'cup'),
			number: {
				of: 'seconds',
				unit: 's',
				min: 0,
				max: 300,
				step: 1,
				reply: value => ({ ui: { numbers: [value] } }),
			},
		};
	const { unit, symbol, step } = entryUnit('temperature', units);
	return {
		state: 'mix.cup.temperature',
		ask: 'number',
		say: worded(moment, 'mixing', 'cup', 'temperature'),
		lines: whyAsked(moment, 'mixing', 'cup'),
		number: {
			of: 'tempC',
			unit,
			min: Math.floor(inUnit(-5, 'temperature', symbol)),
			max: Math.ceil(inUnit(60, 'temperature', symbol)),
			step,
			reply: value => {
				const seconds = numbers[0] ?? 0;
				const { fits } = cupReading(cup.seconds, seconds);
				const timed: DayEvent = {
					type: 'cup.timed',
					batch: letter,
					cup: cup.kind,
					seconds,
					tempC: fromUnit(value, 'temperature', symbol),
					fits,
				};
				return { events: [timed], ui: { menu: fits ? [] : ['cup-off'] } };
			},
		},
	};
}
