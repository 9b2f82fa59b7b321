import { batchInHand } from '../../../machines/day-context.ts';
import { inert } from '../../job/inert.ts';
import type { Component, MixStep } from '../../job/job.ts';
import { about } from '../../words/spoken.ts';
import { gunNext } from '../guns.ts';
import { contextOf, jobOf, type Moment, materialOf, nextCoat } from '../moment.ts';
import { pending } from '../order.ts';
import { option, type Prompt } from '../prompt.ts';
import type { DayEvent, EventOf } from '../records.ts';
import { cupPrompt } from './flow-cup.ts';
import { pressureShown } from './gauge.ts';
import { canPrompt, foundPrompt, pourPrompt } from './pouring.ts';
import { whyAsked, worded } from './worded.ts';

/** The pressure of the gun that a material is sprayed with next. */
function gunLine(moment: Moment, material: string): string {
	const next = pending(moment).find(({ face }) => nextCoat(moment, face).material === material);
	const gun = next ? gunNext(moment, next.face) : jobOf(moment).gun;
	const which = gun.called === undefined ? 'Gun today' : `Gun ${inert(gun.called)}`;
	return about(which, `${pressureShown(moment, gun)}, trigger pulled.`);
}

/** The strainer that a batch goes through; empty where its sheet names none. */
function strainerLine(moment: Moment, letter: string): string {
	const { strainer } = materialOf(moment, moment.state.book.batches.get(letter)?.material ?? '');
	return strainer ? `Strainer: ${inert(strainer)}.` : '';
}

/** The screen while a batch is mixed. */
export function mixingPrompt(moment: Moment): Prompt {
	const [letter, machine] = batchInHand(contextOf(moment)) ?? [];
	const batch = letter === undefined ? undefined : moment.state.book.batches.get(letter);
	if (letter === undefined || !machine || !batch) throw new Error('no batch is being mixed');
	const step = machine.context.todo[0];
	const component = step as Component;
	switch (machine.value) {
		case 'stir':
			if (machine.context.poured.length > 0)
				return {
					state: 'mix.stir-pot',
					ask: 'item',
					say: worded(moment, 'mixing', 'stir-pot'),
					lines: whyAsked(moment, 'mixing', 'stir-pot'),
					options: [option('done', 'STIRRED', { type: 'batch.stepped', batch: letter, step: 'stir' })],
				};
			return {
				state: 'mix.stir',
				ask: 'item',
				say: worded(moment, 'mixing', 'stir'),
				// Told long before the gauge is read: the screen before a reading must not say what it should be.
				lines: [gunLine(moment, batch.material), ...whyAsked(moment, 'mixing', 'stir')],
				options: [option('done', 'STIRRED', { type: 'batch.stepped', batch: letter, step: 'stir' })],
			};
		case 'strain':
			return {
				state: 'mix.strain',
				ask: 'item',
				say: worded(moment, 'mixing', 'strain'),
				lines: [strainerLine(moment, letter), ...whyAsked(moment, 'mixing', 'strain')],
				options: [option('done', 'STRAINED', { type: 'batch.stepped', batch: letter, step: 'strain' })],
			};
		case 'can':
			return canPrompt(moment, letter, batch, component);
		case 'level':
			return pourPrompt(moment, letter, batch, component);
		case 'adrift':
			return foundPrompt(moment, letter, batch);
		default:
			return cupPrompt(moment, letter, batch);
	}
}

type Worked = EventOf<'batch.stepped'>['step'];

/** A step that a pot which has stood goes through in one go with those beside it. */
const isWorked = (step: MixStep): step is Worked => step === 'stir' || step === 'strain';

/** A batch that has stood: it is stirred and strained in one go, as its order has it, and told of by one key. */
export function stoodPrompt(moment: Moment, letter: string): Prompt {
	const [, ...todo] = contextOf(moment).batches[letter]?.context.todo ?? [];
	const end = todo.findIndex(step => !isWorked(step));
	const steps = (end < 0 ? todo : todo.slice(0, end)).filter(isWorked);
	const did = steps.includes('strain') ? 'STRAINED' : steps.length > 0 ? 'STIRRED' : 'GO ON';
	return {
		state: 'mix.stood',
		ask: 'choose',
		say: worded(moment, 'mixing', 'stand', 'stand', { letter }),
		lines: [
			...steps.map(step => worded(moment, 'mixing', step === 'stir' ? 'stir-pot' : step)),
			...(steps.includes('strain') ? [strainerLine(moment, letter)] : []),
			...whyAsked(moment, 'mixing', 'stand'),
		].filter(Boolean),
		options: [
			option(
				'go-on-mixing',
				did,
				{ type: 'batch.stood', batch: letter, facts: { stood: true } },
				...steps.map((step): DayEvent => ({ type: 'batch.stepped', batch: letter, step })),
			),
		],
	};
}
