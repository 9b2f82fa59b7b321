import { lifeLeft_s } from '../allowed.ts';
import { contextOf, type Moment, nextCoat, unitsOf } from '../moment.ts';
import { pending } from '../order.ts';
import type { PaintStep } from '../paint.ts';
import { type Option, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { flushLines } from './flushing.ts';
import { asKeyed, keyed } from './keyed.ts';

/** The gun's cup: filled, and emptied. */

/** Fill the cup from a pot: as much as it takes, and less where it would spill. */
export function loadPrompt(
	moment: Moment,
	{ batch: letter, room }: Extract<PaintStep, { kind: 'load' }>,
): Prompt {
	const { book } = moment.state;
	const batch = book.batches.get(letter);
	const free_mL = Math.max(0, room.most_mL - book.cup_mL);
	const pot_mL = batch?.pot_mL ?? 0;
	const volume_mL = Math.min(free_mL, pot_mL);
	const spills = room.leaned && pot_mL > free_mL;
	const units = unitsOf(moment);
	const several = [...book.batches.values()].filter(({ pot_mL }) => (pot_mL ?? 0) > 0).length > 1;
	const { cup } = contextOf(moment);
	const refill = cup.includes(letter);
	const tape = cup.length === 0 || refill ? 'the letter' : [...cup, letter].join('+');
	const loaded: Option[] =
		volume_mL > 0.5
			? [option('done', 'FILLED', { type: 'batch.loaded', batch: letter, volume_mL, refill })]
			: [option('done', 'EMPTIED', { type: 'cup.emptied', volume_mL: book.cup_mL, why: 'too little left' })];
	return {
		state: 'load',
		ask: 'do',
		say: `Cup: fill in ${asKeyed(volume_mL, 'volume', units)} from the ${several ? `pot taped ${letter}` : 'taped pot'}.`,
		lines: [
			`Tape ${tape} on the cup.`,
			...tabLine(moment),
			...(spills ? ['No fuller: the gun is laid over on this coat.'] : []),
		],
		do: [{ code: 'fill-cup', ...keyed(volume_mL, 'volume', units) }],
		options: loaded,
	};
}

/** The tab is sprayed with a coat that another one of its stage follows. */
function tabLine(moment: Moment): string[] {
	const next = pending(moment)[0];
	if (!next || contextOf(moment).cup.length > 0) return [];
	const [nth, of] = nextCoat(moment, next.face).ofStage;
	return nth < of ? ['Hang a strip of tape by the parts: spray it too.'] : [];
}

/** The cup must be emptied before anything else. */
export function emptyPrompt(moment: Moment, why: Extract<PaintStep, { kind: 'empty' }>['why']): Prompt {
	const { cup } = contextOf(moment);
	const { cup_mL } = moment.state.book;
	const reasons = {
		'too-old': 'Cup: its batch is past its life. Empty, flush.',
		'short-lived': 'Cup: its batch dies before this coat is done. Empty, flush.',
		'other-material': 'Cup: other material is in it. Empty, flush.',
		'other-mix': 'Cup: thinned for another coat. Empty, flush.',
		'stood-too-long': 'Gun: paint stood too long in it. Empty, flush.',
	};
	const dead = cup.filter(letter => lifeLeft_s(moment, letter) <= 0);
	return {
		state: 'empty',
		ask: 'do',
		say: reasons[why],
		lines: [...flushLines, 'Left-over mix: outside, in vented metal, as the data sheet says.'],
		do: [{ code: 'empty-cup', to: 'empty' }],
		options: [
			option(
				'done',
				'EMPTY AND FLUSHED',
				{ type: 'cup.emptied', volume_mL: cup_mL, why },
				...dead.map((batch): DayEvent => ({ type: 'batch.discarded', batch, why: 'past its life' })),
			),
		],
	};
}
