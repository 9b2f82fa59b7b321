import { noCup } from '../../records/cup-timed.ts';
import { cupReading, cupStandard_C, cupTakes_mL } from '../../trade/cup.ts';
import { fromUnit, inUnit } from '../../trade/quantity.ts';
import { entryUnit, type UnitSystem } from '../../trade/shown.ts';
import type { BatchBook } from '../book.ts';
import { type Moment, materialOf, unitsOf } from '../moment.ts';
import { back, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { discardPrompt } from './discarding.ts';
import { asKeyed } from './keyed.ts';
import { reasonPrompt } from './override.ts';
import { whyAsked, worded } from './worded.ts';

type FlowCup = NonNullable<ReturnType<typeof materialOf>['cup']>;

/** Seconds in the flow cup, then the temperature of the paint. */
export function cupPrompt(moment: Moment, letter: string, { material }: BatchBook): Prompt {
	const { cup } = materialOf(moment, material);
	return cup ? secondsPrompt(moment, letter, cup) : noSeconds(letter);
}

/** The record that no cup was timed. */
const untimed = (batch: string): DayEvent => ({
	type: 'cup.timed',
	batch,
	cup: noCup,
	seconds: 0,
	tempC: 0,
	fits: true,
});

const noSeconds = (batch: string): Prompt => ({
	state: 'mix.cup',
	ask: 'do',
	say: 'Flow cup: the data sheet gives no seconds.',
	options: [option('done', 'DONE', untimed(batch))],
});

/** A pot that does not fill the cup is not timed: nobody is asked. */
export function tooLittleToTime(
	moment: Moment,
	batch: string,
	{ material }: BatchBook,
	volume_mL: number,
): DayEvent[] {
	const { cup } = materialOf(moment, material);
	return cup && volume_mL < cupTakes_mL(cup.kind) ? [untimed(batch)] : [];
}

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
			reply: value => {
				const tempC = fromUnit(value, 'temperature', symbol);
				const off = () => offPrompt(batch, cup, seconds, remedies(cup, seconds, tempC, unitsOf(moment)));
				return { events: [timed(tempC)], ...(!fits && { next: off }) };
			},
		},
	};
}

/**
 * What helps paint that runs too fast or too slowly: nobody warms what is warm, or cools what is cold (common practice, no
 * source).
 */
function remedies(cup: FlowCup, seconds: number, tempC: number, units: UnitSystem): string[] {
	const standard_C = cupStandard_C(cup.kind);
	const standard = asKeyed(standard_C, 'temperature', units);
	if (cupReading(cup.seconds, seconds).found === 'thin') {
		const [why, then] =
			tempC > standard_C
				? ['Too thin or warm', `let it cool to ${standard}, time again`]
				: ['Too thin', 'time again'];
		return [`${why}: ${then}.`, 'Too much reducer in it: discard it.'];
	}
	const [why, then] =
		tempC < standard_C
			? ['Too thick or cold', `bring it to ${standard}, time again`]
			: ['Too thick', 'stir it, time again'];
	return [`${why}: ${then}.`, 'Reducer only as the data sheet allows.'];
}

function offPrompt(batch: string, cup: FlowCup, seconds: number, lines: readonly string[]): Prompt {
	const [low, high] = cup.seconds;
	const over = (reason: string): DayEvent[] => [
		{ type: 'override.given', rule: 'cup', reason, face: null, coat: null, batch },
	];
	return {
		state: 'mix.cup.off',
		ask: 'choose',
		say: `Flow cup: ${seconds} s. ${low} to ${high} s are wanted.`,
		lines,
		options: [
			back('time-again', 'TIME AGAIN'),
			opens('use-as-is', 'USE AS IT IS', () =>
				reasonPrompt('cup', 'Flow cup: why use it as it is?', over, 'DO NOT USE IT'),
			),
			opens('discard', 'DISCARD', () => discardPrompt(batch, 'flow cup seconds off')),
		],
	};
}
