import { faceName } from '../../words/say.ts';
import { about, shortFace } from '../../words/spoken.ts';
import { activityOf, jobOf, laidOn, lastSprayed, type Moment } from '../moment.ts';
import { type Option, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';
import { reading } from './reading.ts';
import { mayLeave, setAside } from './set-aside.ts';

/** The trigger was pulled, and no face was begun: it may have laid a coat. */

const told = (moment: Moment, value: 'none' | 'part'): DayEvent =>
	reading(moment, 'last-face', value, null, { face: null });

/** On which face: the one that was to come, then the one sprayed last. What lies there is not known: it is sanded flat, and where it was to be already, from the start. */
function whichFace(moment: Moment, next: string | null): Prompt {
	const likely = [next, lastSprayed(moment)?.face ?? null].filter(face => face !== null);
	const faces = new Set([...likely, ...jobOf(moment).faces.map(({ id }) => id)]);
	return {
		state: 'stray.which-face',
		ask: 'which-face',
		say: 'On which face? Its part is set aside and sanded.',
		options: [...faces].map(face =>
			option(
				face,
				faceName(face).toUpperCase(),
				told(moment, 'part'),
				...setAside(moment, face, 'sprayed outside a pass', [...new Set([...mayLeave(moment, face), face])]),
			),
		),
	};
}

/**
 * Was that a pass?
 * @param next the face that *ready* offers, and how it is begun; null: none may be begun
 */
export function strayPrompt(moment: Moment, next: { face: string; begin: DayEvent } | null): Prompt {
	const pulled_s = Math.max(1, Math.round(moment.state.book.stray?.pulled_s ?? 0));
	const atReady = activityOf(moment) === 'ready' ? next : null;
	const begun: Option[] = atReady
		? [{ ...option('begun', 'ON THIS FACE', atReady.begin), at: 'bottomLeft' }]
		: [];
	return {
		state: 'stray',
		ask: 'choose',
		say: about('Trigger', `pulled ${pulled_s} s, and no face begun. On what?`),
		lines: atReady
			? [about(shortFace(atReady.face), `coat ${laidOn(moment, atReady.face) + 1} is next.`)]
			: [],
		face: next?.face ?? null,
		options: [
			{ ...option('none', 'NOT ON A PART', told(moment, 'none')), at: 'topRight' },
			...begun,
			{
				...opens('elsewhere', atReady ? 'ON ANOTHER' : 'ON A PART', () =>
					whichFace(moment, next?.face ?? null),
				),
				at: 'bottomRight',
			},
		],
	};
}
