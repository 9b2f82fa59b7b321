import { inert } from '../../job/inert.ts';
import { fromUnit } from '../../trade/quantity.ts';
import { entryUnit } from '../../trade/shown.ts';
import { about } from '../../words/spoken.ts';
import { lifeLeft_s } from '../allowed.ts';
import { contextOf, type Moment, nextCoat, unitsOf } from '../moment.ts';
import { pending } from '../order.ts';
import type { PaintStep } from '../paint.ts';
import { opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { flushLines } from './flushing.ts';
import { asKeyed, keyed } from './keyed.ts';

/** The gun's cup: filled, and emptied. */

/** Fill the cup from a pot, to a level: what sprayed faces really took shows by it. */
export function loadPrompt(
	moment: Moment,
	{ batch, to_mL, leaned, gun }: Extract<PaintStep, { kind: 'load' }>,
): Prompt {
	const { batches, cup_mL } = moment.state.book;
	const pot_mL = batches.get(batch)?.pot_mL ?? 0;
	const units = unitsOf(moment);
	const several = [...batches.values()].filter(pot => (pot.pot_mL ?? 0) > 0).length > 1;
	const { cup } = contextOf(moment);
	const refill = cup.includes(batch);
	const tape = cup.length === 0 || refill ? 'the letter' : [...cup, batch].join('+');
	const loaded = { type: 'batch.loaded' as const, batch, refill, ...(gun !== undefined && { ofGun: gun }) };
	const volume_mL = Math.min(pot_mL, Math.max(1, to_mL - cup_mL));
	return {
		state: 'load',
		ask: 'do',
		say: `Cup: fill to ${asKeyed(to_mL, 'volume', units)} from the ${several ? `pot taped ${batch}` : 'taped pot'}.`,
		lines: [
			gun === undefined
				? `Tape ${tape} on the cup.`
				: about(`Gun ${inert(gun)}`, `its cup. Tape ${tape} and its name on it.`),
			...tabLine(moment),
			...(leaned ? ['No fuller: the gun is laid over on this coat.'] : []),
		],
		do: [{ code: 'fill-cup', ...keyed(to_mL, 'volume', units) }],
		options: [
			option('done', 'FILLED', { ...loaded, volume_mL, to_mL }),
			opens('pot-empty', 'POT EMPTY', () =>
				reachedPrompt(moment, to_mL, read_mL => ({ ...loaded, volume_mL: pot_mL, to_mL: read_mL })),
			),
		],
	};
}

/** The pot ran out before the cup was filled to its level: how full it is now. */
function reachedPrompt(moment: Moment, to_mL: number, loaded: (read_mL: number) => DayEvent): Prompt {
	const units = unitsOf(moment);
	const { symbol, step } = entryUnit('volume', units);
	const { to, unit } = keyed(to_mL, 'volume', units);
	return {
		state: 'load.reached',
		ask: 'number',
		say: 'Cup: all of the pot is in. How full is it?',
		number: {
			of: 'reached',
			unit,
			min: 0,
			max: to,
			step,
			reply: value => ({ events: [loaded(fromUnit(value, 'volume', symbol))] }),
		},
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
		'other-gun': 'Cup: the next coat has another gun. Empty, flush.',
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
