import { assign, setup } from 'xstate';
import type { DayEvent } from '../src/day/records.ts';

export type CheckInput = {
	/** Item codes in the order asked; for readings the feature read. */
	items: readonly string[];
	/** Only supplied air will do: a material with isocyanate is sprayed, or one whose sheet names no cartridge. */
	isocyanate: boolean;
	/** The pattern that fits the face to come; null where the list is not a gun check. */
	pattern: 'tall' | 'wide' | null;
};

type CheckContext = CheckInput & { at: number };

/** Items that only a reading closes: no tick, and no reason passes over them. */
const onlyByReading = ['mask', 'batch', 'pattern', 'card'];

/** The feature whose reading is asked for; undefined once every item is closed. */
export const featureAsked = ({ items, at }: CheckContext): string | undefined =>
	items[at] === 'mask' ? 'breathing' : items[at];

function closes(context: CheckContext, event: DayEvent): boolean {
	const item = context.items[context.at];
	switch (event.type) {
		case 'reading.taken':
			if (event.feature !== featureAsked(context)) return false;
			if (event.feature === 'breathing')
				return event.value === 'supplied-air' || (event.value === 'filter-mask' && !context.isocyanate);
			if (event.feature === 'pattern') return event.value === context.pattern;
			return event.matched;
		case 'item.answered':
			return event.item === item && event.passed && !onlyByReading.includes(item);
		case 'override.given':
			return event.rule === item && !onlyByReading.includes(item);
		default:
			return false;
	}
}

/**
 * A list gone through in order; an item that is open, or a reading that differs, keeps it where it stands. It has
 * no way back in after a break: a list broken off is dropped, and a new one starts from its first item.
 */
export const gunCheckMachine = setup({
	types: { context: {} as CheckContext, events: {} as DayEvent, input: {} as CheckInput },
	guards: {
		closesLast: ({ context, event }) => context.at === context.items.length - 1 && closes(context, event),
		closesOne: ({ context, event }) => closes(context, event),
	},
	actions: { advance: assign({ at: ({ context }) => context.at + 1 }) },
}).createMachine({
	id: 'gunCheck',
	context: ({ input }) => ({ ...input, at: 0 }),
	initial: 'asking',
	states: {
		asking: {
			on: {
				'*': [
					{ guard: 'closesLast', target: 'passed', actions: 'advance' },
					{ guard: 'closesOne', actions: 'advance' },
				],
			},
		},
		passed: { type: 'final' },
	},
});
