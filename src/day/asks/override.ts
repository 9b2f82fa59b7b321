import { type Option, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';

/** The last of a menu where a reason is typed. */
const words = 'words';

/** Opens the typing of a reason, inside a menu. */
export const ownWords = (menu: readonly string[]): Option =>
	opens('own-words', 'IN MY WORDS', ...menu, words);

export const isTyped = (menu: readonly string[]): boolean => menu.at(-1) === words;

/** A reason typed at the bench. What opened it stands as it was; nothing typed is kept until it is entered. */
export function wordsPrompt(rule: string, say: string, over: (reason: string) => DayEvent[]): Prompt {
	return {
		state: `override.${rule}.words`,
		ask: 'text',
		say,
		lines: ['It is logged and marks the faces.'],
		options: [{ code: 'not', text: 'DO NOT', at: 'bottomRight', reply: () => ({ ui: { menu: [] } }) }],
		text: reason => ({ events: over(reason) }),
	};
}

/**
 * Every override is asked for a reason; it is logged and marks what is sprayed under it.
 *
 * @param menu the questions that are open, up to this one
 * @param reasons in place of those that serve for most rules
 */
export function reasonPrompt(
	rule: string,
	say: string,
	menu: readonly string[],
	over: (reason: string) => DayEvent[],
	reasons: readonly Option[] = [
		option('data-sheet', 'DATA SHEET ALLOWS IT', ...over('the data sheet allows it')),
		option('test-piece', 'TESTED ON SCRAP', ...over('tested on scrap')),
		option('owner', 'OWNER ACCEPTS IT', ...over('the owner accepts it')),
	],
): Prompt {
	if (isTyped(menu)) return wordsPrompt(rule, say, over);
	return {
		state: `override.${rule}`,
		ask: 'choose',
		say,
		lines: ['It is logged and marks the faces.'],
		options: [
			...reasons.slice(0, 2),
			{ code: 'not', text: 'DO NOT', reply: () => ({ ui: { menu: [] } }) },
			...reasons.slice(2),
			ownWords(menu),
		],
		text: reason => ({ events: over(reason) }),
	};
}
