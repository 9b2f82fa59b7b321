import { inert } from '../job/inert.ts';
import type { Quantity, UnitSystem } from '../trade/quantity.ts';
import { format } from '../trade/shown.ts';
import { faceName, sentence } from '../words/say.ts';

/** Codes of the day file as a report says them; a code that is not known says itself. */
const words: Record<string, string> = {
	'air-lost': 'breathing air off',
	suspend: 'the program stood still',
	clock: 'the clock was set',
	hangup: 'the screen was closed',
	overdue: 'a face far over its time',
	'trigger-pause': 'a pause in the trigger',
	silence: 'minutes without an answer',
	restart: 'the program was started again',
	breathing: 'breathing gear',
	batch: 'batch letter',
	gauge: 'gauge',
	card: 'pattern card',
	'pattern-height': 'height of the pattern',
	flooded: 'flooded pattern',
	can: 'can mark',
	touch: 'touch on the tape tab',
	'last-face': 'what was done to the last face',
	'which-face': 'the last face of the stretch',
	'one-go': 'whether it went in one go',
	'side-to-side': 'side to side',
	'up-and-down': 'up and down',
	'to-and-fro': 'to and fro',
	'supplied-air': 'supplied air',
	'filter-mask': 'filter mask',
	'too-old': 'too old',
	'short-lived': 'would not have lasted',
	aside: 'set aside',
	'set-up': 'set up hard',
};

/** Text from outside made inert: no control or direction character, no half of a pair. */
export const plain = (text: string): string => inert(text.replace(/\p{Cs}/gu, '\uFFFD'));

export const word = (code: string): string =>
	(Object.hasOwn(words, code) ? words[code] : undefined) ?? plain(code.replaceAll('-', ' '));
export const asSentence = (text: string): string => sentence(text);

/** `left door edges, coat 2`. */
export const spot = (face: string | null, coat: number | null): string =>
	face === null ? '' : coat === null ? faceName(plain(face)) : `${faceName(plain(face))}, coat ${coat}`;
export const face = (id: string): string => faceName(plain(id));

const quantityOf: Record<string, Quantity> = { gauge: 'pressure', 'pattern-height': 'length' };

/** A reading's value, or the ones that were wanted. */
export function value(feature: string, said: string | number | string[] | null, units: UnitSystem): string {
	if (said === null) return '';
	if (Array.isArray(said)) return said.map(word).join(' or ');
	const kind = quantityOf[feature];
	if (typeof said === 'number') return kind ? format(said, kind, units) : String(said);
	return feature === 'batch' || feature === 'can' || feature === 'card' ? plain(said) : word(said);
}
