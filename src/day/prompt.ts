import type { DayEvent } from './records.ts';
import type { Ask, Corner, Instruction } from './view.ts';

/** What stands on the screen and is nobody's record: open menus, half-typed numbers, the first of two corners. */
export type Ui = {
	/** Open questions inside one activity, the innermost last. */
	menu: readonly string[];
	page: number;
	numbers: readonly number[];
	/** The first of *ready*'s two corners is struck. */
	armed: boolean;
	/** A line about what the last key did. */
	notice: string | null;
};

export const freshUi: Ui = { menu: [], page: 0, numbers: [], armed: false, notice: null };

/** What an answer leads to: records, or a change of the screen alone. */
export type Reply = { events?: DayEvent[]; ui?: Partial<Ui> };

/** `at`: the corner it must stand in; else the first one free. */
export type Option = { code: string; text: string; at?: Corner; reply: () => Reply };

/** A question and, with each answer, its consequence. */
export type Prompt = {
	/** Activity and step. */
	state: string;
	ask: Ask;
	/** At most 12 words. */
	say: string;
	lines?: readonly string[];
	face?: string | null;
	coat?: number | null;
	do?: readonly Instruction[];
	/** In the order of the corners; more than four are paged. */
	options?: readonly Option[];
	number?: {
		of: string;
		unit: string;
		min: number;
		max: number;
		step: number;
		/** In the unit on the screen. */
		reply: (value: number) => Reply;
	};
	text?: (text: string) => Reply;
};

export const option = (code: string, text: string, ...events: DayEvent[]): Option => ({
	code,
	text,
	reply: () => ({ events }),
});

/** A question asked inside an open menu: its own menus open inside that one, and its end comes back to it. */
export function inside(prefix: string, prompt: Prompt): Prompt {
	const within = (reply: Reply): Reply =>
		reply.events
			? { ...reply, ui: { ...reply.ui, menu: [prefix] } }
			: { ui: { ...reply.ui, ...(reply.ui?.menu && { menu: [prefix, ...reply.ui.menu] }) } };
	const { number } = prompt;
	return {
		...prompt,
		options: (prompt.options ?? []).map(one => ({ ...one, reply: () => within(one.reply()) })),
		...(number && { number: { ...number, reply: value => within(number.reply(value)) } }),
	};
}

/**
 * DONE after an instruction to the gun, in a corner where the reading that follows has an answer that stops: struck
 * twice, it is never a reading that fits.
 */
export const instructed = (...events: DayEvent[]): Option => ({
	...option('done', 'DONE', ...events),
	at: 'bottomLeft',
});

/** An option that only opens the next question. */
export const opens = (code: string, text: string, ...menu: string[]): Option => ({
	code,
	text,
	reply: () => ({ ui: { menu } }),
});
