import { cupReading } from '../../trade/cup.ts';
import { fromUnit, inUnit } from '../../trade/quantity.ts';
import { entryUnit } from '../../trade/shown.ts';
import type { BatchBook } from '../book.ts';
import { type Moment, materialOf, unitsOf } from '../moment.ts';
import { back, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { reasonPrompt } from './override.ts';
import { whyAsked, worded } from './worded.ts';

type FlowCup = NonNullable<ReturnType<typeof materialOf>['cup']>;

/** Seconds in the flow cup, then the temperature of the paint. */
export function cupPrompt(moment: Moment, letter: string, { material }: BatchBook): Prompt {
	const { cup } = materialOf(moment, material);
	return cup ? secondsPrompt(moment, letter, cup) : noSeconds(letter);
}

const noSeconds = (batch: string): Prompt => ({
	state: 'mix.cup',
	ask: 'do',
	say: 'Flow cup: the data sheet gives no seconds.',
	options: [
		option('done', 'DONE', { type: 'cup.timed', batch, cup: 'none', seconds: 0, tempC: 0, fits: true }),
	],
});

const secondsPrompt = (moment: Moment, letter: string, cup: FlowCup): Prompt => ({
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
		reply: seconds => ({ next: () => temperaturePrompt(moment, letter, cup, seconds) }),
	},
});

function temperaturePrompt(moment: Moment, batch: string, cup: FlowCup, seconds: number): Prompt {
	const { unit, symbol, step } = entryUnit('temperature', unitsOf(moment));
	const { fits } = cupReading(cup.seconds, seconds);
	const timed = (tempC: number): DayEvent => ({
		type: 'cup.timed',
		batch,
		cup: cup.kind,
		seconds,
		tempC,
		fits,
	});
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
			reply: value => ({
				events: [timed(fromUnit(value, 'temperature', symbol))],
				...(!fits && { next: () => offPrompt(batch, cup, seconds) }),
			}),
		},
	};
}

function offPrompt(batch: string, cup: FlowCup, seconds: number): Prompt {
	const [low, high] = cup.seconds;
	const over = (reason: string): DayEvent[] => [
		{ type: 'override.given', rule: 'cup', reason, face: null, coat: null, batch },
	];
	return {
		state: 'mix.cup.off',
		ask: 'choose',
		say: `Flow cup: ${seconds} s. ${low} to ${high} s are wanted.`,
		lines: ['Reducer only as the data sheet allows. Warm it, stir it, time it again.'],
		options: [
			back('time-again', 'TIME AGAIN'),
			opens('use-as-is', 'USE AS IT IS', () => reasonPrompt('cup', 'Flow cup: why use it as it is?', over)),
			option('discard', 'DISCARD', { type: 'batch.discarded', batch, why: 'flow cup seconds off' }),
		],
	};
}
