import { inert } from '../../job/inert.ts';
import { letterOf } from '../../plan/batch-letters.ts';
import { reducerFor, spare } from '../../plan/batches.ts';
import { fromUnit } from '../../trade/quantity.ts';
import { entryUnit, format } from '../../trade/shown.ts';
import { sentence } from '../../words/say.ts';
import { about } from '../../words/spoken.ts';
import { wantedFor } from '../allowed.ts';
import { jobOf, type Moment, materialOf, nextCoat, unitsOf } from '../moment.ts';
import { paintShort_mL, restOfCoat } from '../paint.ts';
import { opens, option, type Prompt } from '../prompt.ts';
import type { EventOf } from '../records.ts';
import { tapeWords } from './cans.ts';
import { asKeyed, keyed } from './keyed.ts';
import { kindOf, littlePart } from './pot-levels.ts';

/** How much is mixed, and under which letter. */

/** What the rest of the coat wants of a material, less what is mixed already, with the spare; rounded up to 10 mL. */
function amountToMix_mL(moment: Moment, face: string): number {
	const wanted = restOfCoat(moment, face).reduce((sum, id) => sum + wantedFor(moment, id).volume_mL, 0);
	const { sheet, rates = {} } = moment.state.book.opened;
	const more = (spare(sheet, nextCoat(moment, face).material, rates) - 1) * wanted;
	return Math.max(50, Math.ceil((paintShort_mL(moment, face) + more) / 10) * 10);
}

const nextLetter = ({ state }: Moment): string =>
	letterOf(state.book.lettersBefore + state.book.batches.size + 1);

const startBatch = (moment: Moment, face: string, make_mL: number): EventOf<'batch.started'> => {
	const coat = nextCoat(moment, face);
	const { ratio } = materialOf(moment, coat.material);
	return {
		type: 'batch.started',
		batch: nextLetter(moment),
		material: coat.material,
		ratio: {
			base: ratio.base,
			hardener: ratio.hardener,
			reducer: reducerFor(jobOf(moment), coat),
		},
		by: ratio.by,
		make_mL,
	};
};

/** A part of the batch that its marks cannot tell well. */
function littleLine(moment: Moment, batch: EventOf<'batch.started'>): string[] {
	const little = littlePart(moment, batch);
	if (!little) return [];
	const amount = asKeyed(little.amount, kindOf(batch), unitsOf(moment));
	return [sentence(`${little.component}: ${amount} is little for these marks. Mix more.`)];
}

/** A batch is wanted: how much, and begin. */
export function mixPrompt(moment: Moment, face: string, menu: readonly string[]): Prompt {
	const { material } = nextCoat(moment, face);
	const units = unitsOf(moment);
	const make_mL = amountToMix_mL(moment, face);
	const { symbol, step } = entryUnit('volume', units);
	const least = keyed(50, 'volume', units);
	const name = inert(materialOf(moment, material).name);
	if (menu[0] === 'amount')
		return {
			state: 'mix.amount',
			ask: 'number',
			say: 'Batch: how much is to be mixed?',
			number: {
				of: 'volume',
				unit: least.unit,
				min: least.to,
				max: keyed(20_000, 'volume', units).to,
				step,
				reply: value => ({ events: [startBatch(moment, face, fromUnit(value, 'volume', symbol))] }),
			},
		};
	const isFirst = ![...moment.state.book.batches.values()].some(batch => batch.material === material);
	return {
		state: 'mix.begin',
		ask: 'choose',
		say: about(name, `mix ${format(make_mL, 'volume', units)}.`),
		lines: [
			...(isFirst ? [tapeWords(moment, material)] : []),
			...littleLine(moment, startBatch(moment, face, make_mL)),
			`Gloves on. Tape the pot ${nextLetter(moment)}.`,
			'Vapour and fire: as the data sheet says.',
		],
		options: [
			option('mix', 'MIX', startBatch(moment, face, make_mL)),
			opens('amount', 'ANOTHER AMOUNT', 'amount'),
		],
	};
}
