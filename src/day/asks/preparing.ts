import { faceName, prepWord } from '../../words/say.ts';
import { about } from '../../words/spoken.ts';
import { shutWindow } from '../allowed.ts';
import { laidOn, type Moment, materialOf, nextCoat } from '../moment.ts';
import type { Step } from '../next.ts';
import { plannedPrep } from '../prep.ts';
import { opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { reasonPrompt } from './override.ts';
import { reading } from './reading.ts';

/** Between coats: the tape tab, and what a part wants before its next coat. */

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
export function prepPrompt(moment: Moment, step: Extract<Step, { kind: 'prep' }>): Prompt {
	const { part, faces, step: prep, grit, rule } = step;
	const placeOn = (face: string) => plannedPrep(moment, face)?.place ?? null;
	const over = (reason: string): DayEvent[] =>
		faces.map(face => ({
			type: 'override.given',
			rule,
			reason,
			face,
			coat: laidOn(moment, face) + 1,
			...(rule === 'prep' ? { step: prep, place: placeOn(face) } : { window: shutWindow(moment, face) }),
		}));
	const [first = ''] = faces;
	const topic = faces.length === 1 ? faceName(first) : part;
	const why = () =>
		reasonPrompt(
			rule,
			about(topic, `why is it not ${prepWord[prep] ?? prep}?`),
			over,
			`${prep.toUpperCase()} IT`,
		);
	const done = faces.map(
		(face): DayEvent => ({ type: 'stage.done', face, stage: prep, grit, place: placeOn(face) }),
	);
	return {
		state: `prep.${prep}`,
		ask: 'item',
		say: about(
			topic,
			`${prep}${grit ? ` with ${grit} grit` : ''}${faces.length === 1 ? '' : `, ${faces.length} faces`}.`,
		),
		lines:
			prep === 'sand' || prep === 'scuff'
				? ['Dust protection on. Film not fully cured is still a hazard.']
				: [],
		face: first,
		options: [
			option('done', (prepWord[prep] ?? prep).toUpperCase(), ...done),
			opens('skip', 'LEAVE IT OUT', why),
		],
	};
}
