import { option, type Prompt } from '../prompt.ts';
import type { DayEvent } from '../records.ts';

/** Every override is asked for a reason; it is logged and marks what is sprayed under it. */
export function reasonPrompt(rule: string, say: string, over: (reason: string) => DayEvent[]): Prompt {
	return {
		state: `override.${rule}`,
		ask: 'choose',
		say,
		lines: ['The reason is logged and marks the faces.'],
		options: [
			option('data-sheet', 'DATA SHEET ALLOWS IT', ...over('the data sheet allows it')),
			option('test-piece', 'TESTED ON SCRAP', ...over('tested on scrap')),
			option('owner', 'OWNER ACCEPTS IT', ...over('the owner accepts it')),
			{ code: 'not', text: 'DO NOT', reply: () => ({ ui: { menu: [] } }) },
		],
		text: reason => ({ events: over(reason) }),
	};
}
