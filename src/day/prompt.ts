import type { DayEvent } from './records.ts';
import type { Ask, Choice, Corner, Instruction } from './view.ts';

/** What stands on the screen and is nobody's record: where the painter is among the questions, and what was said of the last key. */
export type Ui = {
	/** The answers chosen since the last record: codes of options, and numbers as they were keyed. */
	path: readonly (string | number)[];
	page: number;
	/** A line about what the last key did. */
	notice: string | null;
};

export const freshUi: Ui = { path: [], page: 0, notice: null };

/** What an answer leads to. */
export type Reply =
	/** Records, and a line about them; the next question is asked from its start, but where `next` follows on them. */
	| { events: DayEvent[]; notice?: () => string | null; next?: () => Prompt }
	| { next: () => Prompt }
	/** The same question once more. */
	| { notice: () => string | null }
	/** The question that this one belongs to. */
	| { back: true }
	/** A question that was asked on the way here, by its state: what was answered since is forgotten. */
	| { again: string }
	| { page: number };

/** `at`: the corner it must stand in; else the first one free. */
export type Option = Choice & { at?: Corner } & Reply;

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
	text?: (text: string) => DayEvent[];
	/** What is opened from here ends here, and not at the first question. */
	home?: true;
};

export const option = (
	code: string,
	text: string,
	...events: DayEvent[]
): Choice & { events: DayEvent[] } => ({ code, text, events });

/**
 * DONE after an instruction to the gun, in a corner where the reading that follows has an answer that stops: struck
 * twice, it is never a reading that fits.
 */
export const instructed = (...events: DayEvent[]): Option => ({
	...option('done', 'DONE', ...events),
	at: 'bottomLeft',
});

/** An option that only opens the next question. */
export const opens = (code: string, text: string, next: () => Prompt): Option => ({ code, text, next });

export const again = (code: string, text: string, state: string): Option => ({ code, text, again: state });

export const back = (code: string, text: string): Option => ({ code, text, back: true });

/** A question with an end of its own inside another one. */
export const asHome = (prompt: Prompt): Prompt => ({ ...prompt, home: true });

/** Where a path leads: the question, how much of the path still stands, as much of it as leads home, and all states met. */
export type Place = { prompt: Prompt; path: Ui['path']; home: Ui['path']; states: readonly string[] };

function leadsTo({ options = [], number }: Prompt, answer: string | number): Prompt | undefined {
	const chosen =
		typeof answer === 'number' ? number?.reply(answer) : options.find(({ code }) => code === answer);
	return chosen && 'next' in chosen ? chosen.next() : undefined;
}

/** Walks a path from its first question; one that leads nowhere any more ends at the deepest that still stands. */
export function placeOn(first: Prompt, path: Ui['path']): Place {
	let place: Place = { prompt: first, path: [], home: [], states: [first.state] };
	for (const answer of path) {
		const prompt = leadsTo(place.prompt, answer);
		if (!prompt) return place;
		const walked = [...place.path, answer];
		place = {
			...{ prompt, path: walked, home: prompt.home ? walked : place.home },
			states: [...place.states, prompt.state],
		};
	}
	return place;
}
