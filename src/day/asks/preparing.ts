import { inert } from '../../job/inert.ts';
import { prepWord } from '../../words/say.ts';
import { about } from '../../words/spoken.ts';
import { windowNow } from '../allowed.ts';
import { faceOf, faceState, laidOn, type Moment, materialOf, nextCoat } from '../moment.ts';
import type { Step } from '../next.ts';
import { plannedPrep } from '../prep.ts';
import { opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { reasonPrompt } from './override.ts';
import { reading } from './reading.ts';

/** Between coats: the tape tab, what a part wants before its next coat, and a part's own line after a fault. */

export function touchPrompt(moment: Moment, faces: readonly string[], coat: number): Prompt {
	const first = faces[0] ?? '';
	const { touch } = materialOf(moment, nextCoat(moment, first).material).flash;
	const on = { faces: [...faces], coat, face: first };
	return {
		state: 'touch',
		ask: 'touch',
		say: 'Tape tab of the last coat: touch it, gloved. How?',
		lines: [`Before coat ${coat}.`],
		face: first,
		coat,
		options: (['strings', 'tacky', 'dry'] as const).map(value =>
			option(value, value.toUpperCase(), reading(moment, 'touch', value, [...touch], on)),
		),
	};
}

/** Preparation of a part before its next coat. */
export function prepPrompt(
	moment: Moment,
	step: Extract<Step, { kind: 'prep' }>,
	menu: readonly string[],
): Prompt {
	const { part, faces, step: prep, grit, rule } = step;
	const placeOn = (face: string) => plannedPrep(moment, face)?.place ?? null;
	const over = (reason: string): DayEvent[] =>
		faces.map(face => ({
			type: 'override.given',
			rule,
			reason,
			face,
			coat: laidOn(moment, face) + 1,
			...(rule === 'prep'
				? { step: prep, place: placeOn(face) }
				: { facts: { window: windowNow(moment, face) } }),
		}));
	if (menu[0] === 'reason')
		return reasonPrompt(rule, about(part, `why is it not ${prepWord[prep] ?? prep}?`), menu, over);
	const done = faces.map(
		(face): DayEvent => ({ type: 'stage.done', face, stage: prep, grit, place: placeOn(face) }),
	);
	return {
		state: `prep.${prep}`,
		ask: 'item',
		say: about(
			part,
			`${prep}${grit ? ` with ${grit} grit` : ''}, ${faces.length === 1 ? 'one face' : `${faces.length} faces`}.`,
		),
		lines:
			prep === 'sand' || prep === 'scuff'
				? ['Dust protection on. Film not fully cured is still a hazard.']
				: [],
		face: faces[0] ?? null,
		options: [
			option('done', (prepWord[prep] ?? prep).toUpperCase(), ...done),
			opens('skip', 'LEAVE IT OUT', 'reason'),
		],
	};
}

/** The next step of a part's own line. */
export function reworkPrompt(
	moment: Moment,
	faces: readonly string[],
	step: 'set-up' | 'sand' | 'clean',
): Prompt {
	const first = faces[0] ?? '';
	const part = inert(faceOf(moment, first).part);
	const says = {
		'set-up': 'set up hard? Press a thumbnail where it hides.',
		sand: 'sand the fault flat, wet.',
		clean: 'wash, dry, wipe and tack it.',
	};
	const done = faces.flatMap((face): DayEvent[] => {
		const laid = faceState(moment, face).context.laid;
		const back: DayEvent = { type: 'rework.done', face, step };
		const beyond = step === 'clean' && laid >= faceOf(moment, face).coats.length;
		return beyond
			? [
					back,
					{
						type: 'override.given',
						rule: 'coats',
						reason: 'respray after sanding flat',
						face,
						coat: laid + 1,
					},
				]
			: [back];
	});
	return {
		state: `rework.${step}`,
		ask: 'item',
		say: about(part, says[step]),
		lines: step === 'sand' ? ['Dust protection on. Film not fully cured is still a hazard.'] : [],
		face: first,
		options: [
			option('done', step === 'set-up' ? 'HARD' : 'DONE', ...done),
			opens('not-yet', 'NOT YET', 'not-yet'),
		],
	};
}
