import { inert } from '../../job/inert.ts';
import { partsWith } from '../../job/on-work.ts';
import { letterOf } from '../../plan/batch-letters.ts';
import { largestBatch_mL, leastBatch_mL, reducerFor } from '../../plan/batches.ts';
import { leastMixed_mL } from '../../plan/paint-rule.ts';
import { fromUnit } from '../../trade/quantity.ts';
import { entryUnit } from '../../trade/shown.ts';
import { duration, sentence } from '../../words/say.ts';
import { about } from '../../words/spoken.ts';
import { diesBefore } from '../allowed.ts';
import { jobOf, type Moment, materialOf, nextCoat, unitsOf } from '../moment.ts';
import { amountFor_mL } from '../paint.ts';
import { type Option, opens, option, type Prompt } from '../prompt.ts';
import type { EventOf } from '../records.ts';
import { airPrompt } from './air.ts';
import { tapeWords } from './cans.ts';
import { mixingGear } from './cautions.ts';
import { cleanUp } from './clean-up.ts';
import { marksPrompt } from './finer-marks.ts';
import { asKeyed, keyed } from './keyed.ts';
import { finely, kindOf, littlePart } from './pot-levels.ts';

/** How much is mixed, and under which letter. */

const nextLetter = ({ state }: Moment): string =>
	letterOf(state.book.lettersBefore + state.book.batches.size + 1);

const startBatch = (moment: Moment, face: string, make_mL: number): EventOf<'batch.started'> => {
	const coat = nextCoat(moment, face);
	const material = materialOf(moment, coat.material);
	return {
		type: 'batch.started',
		batch: nextLetter(moment),
		material: coat.material,
		ratio: partsWith(material, reducerFor(jobOf(moment), coat)),
		by: material.ratio.by,
		make_mL,
	};
};

/** The smallest batch, no smaller than the one wanted, whose parts the marks of the pot give, each divided into `marks`; null: none does. */
function givenBatch(
	moment: Moment,
	face: string,
	wanted_mL: number,
	marks = 1,
): EventOf<'batch.started'> | null {
	const coat = nextCoat(moment, face);
	const reducer = reducerFor(jobOf(moment), coat);
	const make_mL = leastBatch_mL(
		materialOf(moment, coat.material),
		reducer,
		wanted_mL,
		unitsOf(moment),
		marks,
	);
	return make_mL === null ? null : startBatch(moment, face, make_mL);
}

/** Why it is more than was asked for, or a part of it that half a mark says little of. */
function marksLine(moment: Moment, batch: EventOf<'batch.started'>, isRaised: boolean): string[] {
	if (isRaised) return ['Less than this the marks of the pot cannot give.'];
	const little = littlePart(moment, batch);
	if (!little) return [];
	const amount = asKeyed(little.amount, kindOf(batch), unitsOf(moment));
	return [sentence(`${little.component}: ${amount} is little for these marks. Pour it slowly.`)];
}

/** How much is mixed in the painter's own figure: what its marks cannot give is asked about. */
function amountPrompt(moment: Moment, face: string): Prompt {
	const units = unitsOf(moment);
	const { symbol, step } = entryUnit('volume', units);
	const least = keyed(leastMixed_mL, 'volume', units);
	return {
		state: 'mix.amount',
		ask: 'number',
		say: 'Batch: how much is to be mixed?',
		number: {
			of: 'volume',
			unit: least.unit,
			min: least.to,
			max: keyed(largestBatch_mL, 'volume', units).to,
			step,
			reply: value => {
				const make_mL = fromUnit(value, 'volume', symbol);
				return givenBatch(moment, face, make_mL)?.make_mL === make_mL
					? { events: [startBatch(moment, face, make_mL)] }
					: { next: () => marksOf(moment, face, make_mL) };
			},
		},
	};
}

/** Never beside MIX: the two would read as one sentence. */
const anotherAmount = (moment: Moment, face: string): Option => ({
	...opens('amount', 'LESS / MORE', () => amountPrompt(moment, face)),
	at: 'bottomRight',
});

const marksOf = (moment: Moment, face: string, asked_mL: number): Prompt =>
	marksPrompt(
		moment,
		startBatch(moment, face, asked_mL),
		givenBatch(moment, face, asked_mL),
		anotherAmount(moment, face),
		givenBatch(moment, face, asked_mL, finely)?.make_mL === asked_mL,
	);

/** A batch that could not stand and be sprayed within its life is not offered, nor one after the other. */
function doomedPrompt(
	moment: Moment,
	name: string,
	{ life_s, needs_s }: { life_s: number; needs_s: number },
): Prompt {
	return {
		state: 'mix.too-short-lived',
		ask: 'choose',
		say: about(name, `lives ${duration(life_s)} here; ${duration(needs_s)} are needed.`),
		lines: [
			'Cooler air and paint, or the hardener for this heat.',
			'Which one fits stands on its data sheet.',
		],
		options: [
			opens('read-again', 'READ THE AIR AGAIN', () => airPrompt(moment)),
			option('clean-up', 'CLEAN UP', ...cleanUp(moment)),
		],
	};
}

/** A batch is wanted: how much, and begin. */
export function mixPrompt(moment: Moment, face: string): Prompt {
	const { material } = nextCoat(moment, face);
	const name = inert(materialOf(moment, material).name);
	const dies = diesBefore(moment, face);
	if (dies) return doomedPrompt(moment, name, dies);
	const { wanted_mL, given_mL } = amountFor_mL(moment, face);
	if (given_mL === null) return marksOf(moment, face, wanted_mL);
	const batch = startBatch(moment, face, given_mL);
	const isFirst = ![...moment.state.book.batches.values()].some(batch => batch.material === material);
	return {
		state: 'mix.begin',
		ask: 'choose',
		say: about(
			name,
			`mix ${asKeyed(batch.make_mL, 'volume', unitsOf(moment))}. Tape the pot ${nextLetter(moment)}.`,
		),
		lines: [
			...(isFirst ? [tapeWords(moment, material)] : []),
			...marksLine(moment, batch, batch.make_mL > wanted_mL),
			mixingGear(materialOf(moment, material)),
		],
		options: [option('mix', 'MIX', batch), anotherAmount(moment, face)],
	};
}
