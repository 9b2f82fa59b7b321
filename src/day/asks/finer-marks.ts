import { format } from '../../trade/shown.ts';
import { type Moment, unitsOf } from '../moment.ts';
import { type Option, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent, EventOf } from '../records.ts';
import { reasonPrompt } from './override.ts';

/** An amount whose parts the marks of the pot cannot give. */

type Started = EventOf<'batch.started'>;

/**
 * The least that the marks give is offered in its place; less is mixed only by finer marks, which the painter names.
 * @param asked as keyed, or as the coat wants it
 * @param least null: none is given, in any pot
 * @param isFinely whether finer marks give it; where they do not either, nothing of it is mixed
 */
export function marksPrompt(
	moment: Moment,
	asked: Started,
	least: Started | null,
	another: Option,
	isFinely: boolean,
): Prompt {
	const said = ({ make_mL }: Started) => format(make_mL, 'volume', unitsOf(moment));
	const over = (reason: string): DayEvent[] => [
		asked,
		{ type: 'override.given', rule: 'marks', reason, face: null, coat: null, batch: asked.batch },
	];
	const finer = () =>
		reasonPrompt('marks', 'Pot: by which finer marks is so little read?', over, 'NO FINER MARKS', [
			option('finer-cup', 'A FINER CUP', ...over('read on a cup with finer marks')),
			option('syringe', 'A SYRINGE', ...over('measured with a syringe')),
		]);
	return {
		state: 'mix.marks',
		ask: 'choose',
		say: `Pot: its marks cannot give the parts of ${said(asked)}.`,
		lines: [least ? `From there on they give ${said(least)}.` : 'One of them is too little in any pot.'],
		options: [
			...(least ? [option('mix', `MIX ${said(least)}`.toUpperCase(), least)] : []),
			another,
			...(isFinely ? [opens('finer', 'FINER MARKS', finer)] : []),
		],
	};
}
