import { rescaleForOver, sumOf } from '../../trade/mix.ts';
import type { BatchBook } from '../book.ts';
import { type Moment, unitsOf } from '../moment.ts';
import { again, opens, type Prompt, type Reply } from '../prompt.ts';
import { discardPrompt } from './discarding.ts';
import { asKeyed } from './keyed.ts';
import { plannedOf } from './pot-levels.ts';

/** What a level read leads to: its record, and what is said of it. */
type Told = Extract<Reply, { events: unknown }>;

/** A pot takes this share more than it was chosen for before it is asked about. This project's own choice. */
const roomLeft = 0.1;

const state = 'mix.rim';

/**
 * Too much of one is in, and the rest would make far more than the pot was taken for: nobody is told to pour past its rim.
 * @param amounts what is in the pot with what was read, in the unit poured in
 * @param words what was read, and what was wanted
 * @param after what the level read leads to
 * @param asked the question that the level was read for: it is read once more, and nothing is poured before
 * @returns null: it makes hardly more than was to be mixed
 * @throws RangeError as `rescaleForOver`
 */
export function rimPrompt(
	moment: Moment,
	letter: string,
	batch: BatchBook,
	amounts: BatchBook['amounts'],
	words: string,
	after: Told,
	asked: string,
): Prompt | null {
	const planned = plannedOf(moment, batch);
	const { total } = rescaleForOver(batch.ratio, amounts, sumOf(amounts));
	if (total <= planned * (1 + roomLeft)) return null;
	const whole = asKeyed((batch.make_mL * total) / planned, 'volume', unitsOf(moment));
	return {
		state,
		ask: 'choose',
		say: `Pot: does it hold ${whole}, below the rim?`,
		lines: [words, `With the rest to match it makes ${whole}.`],
		options: [
			{ code: 'holds', text: 'IT HOLDS THAT', ...after },
			again('read-again', 'READ AGAIN', asked),
			opens('larger', 'TOO SMALL', () => largerPot(letter, whole, after)),
			opens('discard', 'DISCARD', () => discardPrompt(letter, 'more than the pot holds')),
		],
	};
}

const largerPot = (letter: string, whole: string, after: Told): Prompt => ({
	state: 'mix.larger-pot',
	ask: 'do',
	say: `Pot: all of it into a larger one, for ${whole}.`,
	lines: [`Scrape it out. Move the tape ${letter} over.`],
	do: [{ code: 'larger-pot', to: whole }],
	options: [{ code: 'done', text: 'POURED OVER', ...after }, again('none', 'NO LARGER POT', state)],
});
