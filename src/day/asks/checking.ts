import { inert } from '../../job/inert.ts';
import { faceName } from '../../words/say.ts';
import { isSettled } from '../allowed.ts';
import { contextOf, type Moment } from '../moment.ts';
import { instructed, type Option, option, type Prompt } from '../prompt.ts';
import { isSecond } from '../second-features.ts';
import type { Corner } from '../view.ts';
import { cardPrompt } from './card.ts';
import { askedAgain } from './doubted.ts';
import { gunSet, instructionsFor, layFor, wordsFor } from './gun-items.ts';
import {
	answersOf,
	gunsAsked,
	heightDoubted,
	isGunReading,
	lettersAsked,
	numberAsked,
	wantedOf,
} from './gun-readings.ts';
import { cornersOf, itemPrompt } from './listed.ts';
import { fixPrompt } from './put-right.ts';
import { reading } from './reading.ts';
import { whyAsked, worded } from './worded.ts';

/** More things to do to the gun stand on a screen of their own: from afar no more are read. */
const mostAtOnce = 2;

/** The screen of a list or a gun check. */
export function checkPrompt(moment: Moment): Prompt {
	const { check: machine } = contextOf(moment);
	const { check } = moment.state.book;
	if (!machine || !check) throw new Error('no list is being gone through');
	const item = machine.context.items[machine.context.at];
	const face = check.face;
	if (item === undefined) return settling(moment);
	if (check.list === 'gun-check' && check.differed) return fixPrompt(moment, check.differed);
	const isSet = face !== null && check.list === 'gun-check' && item !== 'gun';
	const first = isSet ? instructionsFor(moment, face).slice(0, mostAtOnce) : [];
	const lay = face && check.list === 'gun-check' ? layFor(moment, face) : [];
	if (first.length > 0)
		return {
			state: 'gunCheck.set',
			ask: 'do',
			say: wordsFor(first)[0] ?? '',
			lines: wordsFor([...lay, ...first.slice(1)]),
			do: first,
			options: [instructed(gunSet(first, moment, face))],
		};
	const listed = itemPrompt(moment, item);
	if (listed) return listed;
	if (item === 'card' && face) return cardPrompt(moment, face);
	if (!isGunReading(item)) throw new Error(`nobody knows what may be answered to ${item}`);
	const state = `gunCheck.${item}`;
	const of = isSecond(item) ? 'second' : item;
	const say = worded(moment, 'gun-check', item === 'gun' ? 'batch' : of, item);
	const asHeld = item === 'pattern' || item === 'flooded';
	const held = face && asHeld ? [...wordsFor(lay), `Gun held as for ${faceName(face)}.`] : [];
	const lines = [...held, ...whyAsked(moment, 'gun-check', of)];
	if (item === 'gauge') return { state, ask: item, say, lines, number: numberAsked(moment, item) };
	if (item === 'pattern-height')
		return askedAgain({ state, ask: item, say, lines, number: numberAsked(moment, item) }, height =>
			heightDoubted(moment, height),
		);
	const read = (code: string, text: string): Option =>
		option(code, text, reading(moment, item, code, wantedOf(moment, item)));
	if (item === 'gun')
		return {
			state,
			ask: 'item',
			say,
			options: [
				...gunsAsked(moment).map(name => read(name, inert(name).toUpperCase())),
				{ ...read('another', 'ANOTHER'), at: 'bottomLeft' },
			],
		};
	if (item === 'batch')
		return {
			state,
			ask: 'batch',
			say,
			lines,
			// In the corner of DONE stands what stops: struck twice, it reads no letter.
			options: [
				...lettersAsked(moment).map(letter => read(letter, letter)),
				{ ...read('another', 'ANOTHER, OR NONE'), at: 'bottomLeft' },
			],
		};
	return {
		state,
		ask: item,
		say,
		lines,
		options: answersOf[item].map(([code, text], index) => ({
			...read(code, text),
			...(item === 'flooded' && { at: evenCorners(moment)[index] ?? 'bottomRight' }),
		})),
	};
}

/** Where the answers of the flooded pattern stand: the one that passes changes its corner as those of a list do. */
const evenCorners = (moment: Moment): Corner[] =>
	cornersOf(
		moment,
		answersOf.flooded.map(([code]) => ({
			passes: wantedOf(moment, 'flooded') === code ? 'yes' : 'no',
		})),
	);

/** Every reading is in, but the painter has not been back long enough. */
const settling = (moment: Moment): Prompt => ({
	state: 'gunCheck.settling',
	ask: 'wait',
	say: isSettled(moment) ? 'Gun: checked.' : 'Gun: checked. Ready in a few seconds.',
});
