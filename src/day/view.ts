import type { Horns, Stroke, Window } from '../job/job.ts';

/**
 * What a screen needs, and nothing it must not have: the one description of the present moment from which the
 * line-by-line rehearsal, the terminal and the voice are all drawn.
 */

/** What kind of answer is wanted. Stable words. */
export type Ask =
	| 'item'
	| 'pair'
	| 'level'
	| 'number'
	| 'pattern'
	| 'card'
	| 'horns'
	| 'gauge'
	| 'pattern-height'
	| 'flooded'
	| 'breathing'
	| 'can'
	| 'batch'
	| 'touch'
	| 'last-face'
	| 'which-face'
	| 'one-go'
	| 'do'
	| 'go'
	| 'spraying'
	| 'wait'
	| 'hold'
	| 'trouble'
	| 'choose'
	| 'text'
	| 'closed';

export const corners = ['topLeft', 'topRight', 'bottomLeft', 'bottomRight'] as const;
export type Corner = (typeof corners)[number];
export type Choice = { code: string; text: string };

/** A thing to do to the gun, e.g. `{code: 'set-horns', to: 'upright'}`. */
export type Instruction = { code: string; to: string | number; unit?: string };

export type Timer = {
	code: string;
	face: string | null;
	due: string;
	left_s: number;
	/** Of a recoat window that `opens` or `closes`: what it lets be done, and what follows it. */
	does?: Window;
	follows?: Window;
};

export type View = {
	/** UTC, ms. */
	at: string;
	/** The day's own, for times of day. */
	zone: string;
	/** Activity and step, e.g. `gunCheck.pattern`. */
	state: string;
	ask: Ask;
	/** Which number, where `ask` is `number` or `level`. */
	of?: string;
	/** The one sentence: topic, place, action. */
	say: string;
	/** Up to three short lines beside it. */
	lines: string[];
	unit: string | null;
	min?: number;
	max?: number;
	step?: number;
	corners: Partial<Record<Corner, Choice>>;
	/** `part/face` in hand, and its coat, counted per face; how many it gets. */
	face: string | null;
	coat: number | null;
	coats: number | null;
	/** Letters in the gun's cup; absent until read in this check. */
	cup?: string[];
	/** What the gun and the face in hand are known to be, for the picture; absent until read in this check. */
	gun?: { horns: Horns; tilt: -90 | 0 | 90; stroke: Stroke };
	do: Instruction[];
	timers: Timer[];
	faces: { face: string; coats: number; planned: number; aside: boolean }[];
	/** Items left open or overridden. */
	open: string[];
	rehearsal: boolean;
};

/** What is counted in a sentence does not make it another question; a wait and a hold are known by their state. */
const lasting = ({ ask, say }: View): string =>
	ask === 'wait' || ask === 'hold' ? '' : say.replace(/\d+/g, '0');

/** Two views ask the same question when they ask the same thing about the same face, answered and done alike. */
export const questionOf = (view: View): string =>
	JSON.stringify([
		[view.state, view.ask, view.of, view.face, view.coat, view.unit],
		[lasting(view), view.corners, view.do],
	]);

/** A key or an entry, after the keys' own guard. */
export type Answer = { key: Corner } | { key: 'hold' } | { number: number } | { text: string };
