import type { Checklist, ListItem, ListName } from './checklist.ts';

/** The sentences of the lists in force, and what stands in them to be filled in. */

/** What a sentence leaves open: `{coat}` in "{face}: how much of coat {coat} is on?". */
const gap = /\{([^{}]*)\}/g;

/** The names in braces of a sentence, in their order. */
export const gapsIn = (sentence: string): string[] =>
	[...sentence.matchAll(gap)].map(([, name = '']) => name);

/** A brace that opens nothing, or closes nothing. */
export const hasLooseBrace = (sentence: string): boolean => /[{}]/.test(sentence.replace(gap, ''));

/** A sentence with what it leaves open filled in; a name that nothing is known of stays as it is written. */
export const filled = (sentence: string, of: (name: string) => string | undefined): string =>
	sentence.replace(gap, (braced, name: string) => of(name) ?? braced);

/**
 * What was asked on days whose lists have no forms: of these items such a list had a sentence that nobody was asked.
 * It stays as it was asked then.
 */
const older: Partial<Record<string, Record<string, string>>> = {
	batch: {
		batch: 'Batch: look at the tape. Which letter?',
		gun: 'Gun in hand: look at its tape. Which name?',
	},
	gauge: { gauge: 'Gauge: trigger pulled, at the gun. What does it read?' },
	second: {
		horns: 'Air cap: look at the horns, gun held straight. How?',
		'pattern-height': 'Pattern: measure the burst along its length. How long?',
		flooded: 'Flooded pattern: hold until it runs. How long are the runs?',
	},
	pattern: {
		pattern: 'Pattern: one short burst on paper. What shape?',
		card: 'Pattern card: hang a fresh one upright. Which number?',
		letters: 'Card {card}: which letters did the paint cover?',
	},
	can: {
		can: '{component}: take the can. Which mark is on it?',
		wrong: '{mark}: wrong can. Stop. Nothing of it goes in.',
	},
	level: {
		level: '{component}: which level does the pot show at eye height?',
		pour: '{component}: pour slowly, up to {amount}.',
		weight: '{component}: which weight does the scale show?',
		found: 'Pot: look at it now. Which level does it show?',
		'found-weight': 'Pot: on the scale, as it is now. Which weight?',
	},
	stand: { stand: 'Batch {letter}: it has stood. Go on mixing.' },
	cup: { cup: 'Flow cup {cup}: how many seconds?', temperature: 'Flow cup: how warm is the paint?' },
	'last-face': {
		'last-face': '{face}: how much of coat {coat} is on?',
		'which-face': 'Stretch: which face were you on last?',
		stroke: '{face}: which was the last stroke laid?',
	},
};

/** An item of the lists in force; undefined: a shop has taken it out, or an older day has none. */
export const itemIn = (lists: readonly Checklist[], list: ListName, code: string): ListItem | undefined =>
	lists.find(one => one.list === list)?.items.find(one => one.code === code);

/**
 * How an item is asked by the lists in force. Where a list of an older day lacks the sentence, the one that was asked
 * then stands in.
 * @param form which of its sentences; its own code: the one under `say`
 * @throws Error where no list has it, and none ever did
 */
export function sentenceOf(
	lists: readonly Checklist[],
	list: ListName,
	code: string,
	form: string = code,
): string {
	const item = itemIn(lists, list, code);
	const then = item?.forms ? undefined : older[code]?.[form];
	const said = then ?? (form === code ? item?.say : item?.forms?.[form]);
	if (!said) throw new Error(`the list ${list} does not say how ${code} (${form}) is asked`);
	return said;
}

/** The reason that a list gives for an item, where it gives one. */
export const reasonOf = (lists: readonly Checklist[], list: ListName, code: string): string[] => {
	const why = itemIn(lists, list, code)?.why;
	return why ? [why] : [];
};
