import { noCup } from '../../records/cup-timed.ts';
import { paintLimits_C } from '../../trade/air.ts';
import { cupStandard_C, cupTakes_mL, type PaintOff, paintOff } from '../../trade/cup.ts';
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
/** The cup of a material, and between which temperatures its paint may be sprayed, °C. */
type Asked = { cup: FlowCup; limits_C: readonly [number, number] };

/** Seconds in the flow cup, then the temperature of the paint. */
export function cupPrompt(moment: Moment, letter: string, { material }: BatchBook): Prompt {
	const { cup, limits } = materialOf(moment, material);
	return cup ? secondsPrompt(moment, letter, { cup, limits_C: paintLimits_C(limits) }) : noSeconds(letter);
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

const secondsPrompt = (moment: Moment, letter: string, asked: Asked): Prompt => ({
	state: 'mix.cup.seconds',
	ask: 'number',
	say: worded(moment, 'mixing', 'cup', 'cup', { cup: asked.cup.kind }),
	lines: whyAsked(moment, 'mixing', 'cup'),
	number: {
		of: 'seconds',
		unit: 's',
		min: 0,
		max: 300,
		step: 1,
		reply: seconds => ({ next: () => temperaturePrompt(moment, letter, asked, seconds) }),
	},
});

function temperaturePrompt(moment: Moment, batch: string, asked: Asked, seconds: number): Prompt {
	const { unit, symbol, step } = entryUnit('temperature', unitsOf(moment));
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
				const off = paintOff(asked.cup, asked.limits_C, { seconds, tempC });
				const fits = off === null;
				const timed: DayEvent = { type: 'cup.timed', batch, cup: asked.cup.kind, seconds, tempC, fits };
				const next = () => offPrompt(batch, offWords(off, asked, { seconds, tempC }, unitsOf(moment)));
				return { events: [timed], ...(!fits && { next }) };
			},
		},
	};
}

type Read = { seconds: number; tempC: number };
/** What is wrong, and what helps. */
type OffWords = { say: string; lines: string[] };

function offWords(off: PaintOff, { cup, limits_C }: Asked, read: Read, units: UnitSystem): OffWords {
	const [low, high] = cup.seconds;
	const temp = (C: number) => asKeyed(C, 'temperature', units);
	if (off === 'limits') {
		const isCold = read.tempC < limits_C[0];
		return {
			say: `Paint: ${temp(read.tempC)}. ${temp(limits_C[0])} to ${temp(limits_C[1])} are wanted.`,
			lines: [
				isCold
					? 'Too cold: let it warm, no flame near. Stir, time again.'
					: 'Too warm: let it cool, time again.',
			],
		};
	}
	if (off === 'temperature')
		return {
			say: `Paint: ${temp(read.tempC)}. Its seconds are for ${temp(cup.at_C ?? read.tempC)}.`,
			lines: [
				`Bring it to ${temp(cup.at_C ?? read.tempC)}, stir, time again.`,
				'Cold paint runs slower, warm paint faster.',
			],
		};
	return {
		say: `Flow cup: ${read.seconds} s. ${low} to ${high} s are wanted.`,
		lines: remedies(cup, off, read.tempC, units),
	};
}

/**
 * What helps paint that runs too fast or too slowly: nobody warms what is warm, or cools what is cold (common practice, no
 * source).
 */
function remedies(cup: FlowCup, off: PaintOff, tempC: number, units: UnitSystem): string[] {
	const standard_C = cup.at_C ?? cupStandard_C(cup.kind);
	const standard = asKeyed(standard_C, 'temperature', units);
	if (off === 'thin') {
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

function offPrompt(batch: string, { say, lines }: OffWords): Prompt {
	const over = (reason: string): DayEvent[] => [
		{ type: 'override.given', rule: 'cup', reason, face: null, coat: null, batch },
	];
	return {
		state: 'mix.cup.off',
		ask: 'choose',
		say,
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
