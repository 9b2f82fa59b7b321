import { batchInHand } from '../../../machines/day-context.ts';
import { inert } from '../../job/inert.ts';
import type { Component } from '../../job/job.ts';
import { about } from '../../words/spoken.ts';
import { gunNext } from '../guns.ts';
import { contextOf, jobOf, type Moment, materialOf, nextCoat } from '../moment.ts';
import { pending } from '../order.ts';
import { option, type Prompt } from '../prompt.ts';
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

/** The screen while a batch is mixed. */
export function mixingPrompt(moment: Moment): Prompt {
	const [letter, machine] = batchInHand(contextOf(moment)) ?? [];
	const batch = letter === undefined ? undefined : moment.state.book.batches.get(letter);
	if (letter === undefined || !machine || !batch) throw new Error('no batch is being mixed');
	const step = machine.context.todo[0];
	const component = step as Component;
	const { strainer } = materialOf(moment, batch.material);
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
				lines: [strainer ? `Strainer: ${inert(strainer)}.` : '', ...whyAsked(moment, 'mixing', 'strain')],
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
