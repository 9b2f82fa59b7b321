import { faceName } from '../../words/say.ts';
import { about } from '../../words/spoken.ts';
import { reworkDue } from '../allowed.ts';
import { faceBook, jobOf, laidOn, type Moment, nextCoat } from '../moment.ts';
import { back, opens, option, type Prompt } from '../prompt.ts';
import { atPrep } from './cautions.ts';
import { reasonPrompt } from './override.ts';
import { reading } from './reading.ts';
import { wetFaultWord } from './trouble.ts';

/** The line of its own that a face with a fault goes through. */

export function reworkPrompt(moment: Moment, face: string, step: 'set-up' | 'sand' | 'clean'): Prompt {
	const { due } = reworkDue(moment, face);
	const facts = { due: due !== null && due <= moment.now.wall };
	const fault = wetFaultWord(faceBook(moment, face).aside?.why ?? '');
	const { grit } = jobOf(moment).materials[nextCoat(moment, face).material] ?? { grit: null };
	const says = {
		'set-up': 'hard enough to sand? Try a gloved nail.',
		/** Its line stands for the sanding that the recoat window wants of all of it. */
		sand: `wet-sand the ${fault} flat, then all of it.`,
		/** A day begun under an older sheet does not ask for it to be wiped and tacked with the others. */
		clean: nextCoat(moment, face).cleaned ? 'wash and dry it.' : 'wash, dry, wipe and tack it.',
	};
	const cautions = atPrep(moment, step === 'clean' ? 'wipe' : step, face);
	/** The smallest window has no room for it beside the caution of old paint, which is said once. */
	const whole = step === 'sand' && grit && cautions.length < 2 ? [`The whole face: ${grit} grit.`] : [];
	const on = { faces: [face], face, coat: laidOn(moment, face) || null };
	const soft = reading(moment, 'set-up', 'soft', ['hard'], on);
	return {
		state: `rework.${step}`,
		ask: 'item',
		say: about(faceName(face), says[step]),
		lines: [...(step === 'set-up' ? ['Try it where it will not show.'] : []), ...whole, ...cautions],
		face,
		options: [
			option('done', step === 'set-up' ? 'HARD' : 'DONE', { type: 'rework.done', face, step, facts }),
			step === 'set-up' ? option('not-yet', 'STILL SOFT', soft) : back('not-yet', 'NOT YET'),
		],
	};
}

/** Sanded flat with all its coats on: only the painter's own answer, with a reason, lays one more. */
export function oneMorePrompt(moment: Moment, face: string): Prompt {
	const laid = laidOn(moment, face);
	const why = () =>
		reasonPrompt(
			'coats',
			about(faceName(face), 'why one coat more?'),
			reason => [{ type: 'override.given', rule: 'coats', reason, face, coat: laid + 1 }],
			'NO COAT MORE',
		);
	// The corner of the DONE before it is left empty: struck twice, it must not answer this.
	return {
		state: 'rework.one-more',
		ask: 'choose',
		say: about(faceName(face), 'one coat more on this face?'),
		lines: [`Its ${laid} planned ${laid === 1 ? 'coat is' : 'coats are'} on. One more takes a reason.`],
		face,
		coat: laid,
		options: [
			{ ...opens('one-more', 'ONE COAT MORE', why), at: 'topRight' },
			{ ...option('no-more', 'NO MORE', { type: 'rework.done', face, step: 'no-coat' }), at: 'bottomLeft' },
		],
	};
}
