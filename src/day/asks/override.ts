import { back, type Option, opens, option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';

/**
 * A reason typed at the bench. What opened it stands as it was; nothing typed is kept until it is entered.
 * @param keeps the answer that keeps the rule, in its own words
 */
export const ownWords = (
	rule: string,
	say: string,
	over: (reason: string) => DayEvent[],
	keeps: string,
): Option =>
	opens('own-words', 'IN MY WORDS', () => ({
		state: `override.${rule}.words`,
		ask: 'text',
		say,
		lines: ['It is logged and marks the faces.'],
		options: [{ ...back('not', keeps), at: 'bottomRight' }],
		text: over,
	}));

/**
 * Every override is asked for a reason; it is logged and marks what is sprayed under it.
 * @param keeps the answer that keeps the rule, in its own words: under *why not wait?* it is to wait after all
 * @param reasons in place of those that serve for most rules
 */
export function reasonPrompt(
	rule: string,
	say: string,
	over: (reason: string) => DayEvent[],
	keeps: string,
	reasons: readonly Option[] = [
		option('data-sheet', 'DATA SHEET ALLOWS IT', ...over('the data sheet allows it')),
		option('test-piece', 'TESTED ON SCRAP', ...over('tested on scrap')),
		option('owner', 'OWNER ACCEPTS IT', ...over('the owner accepts it')),
	],
): Prompt {
	return {
		state: `override.${rule}`,
		ask: 'choose',
		say,
		lines: ['It is logged and marks the faces.'],
		options: [
			...reasons.slice(0, 2),
			back('not', keeps),
			...reasons.slice(2),
			ownWords(rule, say, over, keeps),
		],
		text: over,
	};
}
