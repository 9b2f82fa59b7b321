import type { Prep, Window } from '../job/job.ts';

/** A recoat window in seconds after the coat under it; `until_s` Infinity: it stays open. */
export type Spell = { does: Window; from_s: number; until_s: number };

/** How old a coat is, s, by the clock that counts less and by the one that counts more. */
export type Age = { least_s: number; most_s: number };

/** What is known of a face before its next coat. */
export type Ground = {
	/** Least wait that the sheet itself asks for after the last coat, s. */
	wait_s: number;
	/** The step that is planned next before the coat. */
	next: Prep | null;
	/** Work done since the last coat, or left out with a reason. */
	done: readonly (Prep | Window)[];
};

/** What can be done to a face next, and between which seconds from now. */
export type Outlook = {
	does: Exclude<Window, 'wait'>;
	/** 0: it can be done now. */
	opens_s: number;
	/** Infinity: it stays open. */
	closes_s: number;
	/** What the windows ask for once it closes. */
	follows: Window;
};

/** What a window lets be done: the coat, or the work on the face that it or the sheet asks for first. */
function doesIn(window: Window, { next, done }: Ground): Window {
	if (window === 'wait') return window;
	const sanded = done.includes('sand');
	if (next === 'sand' || (window === 'sand' && !sanded)) return 'sand';
	const scuffed = sanded || done.includes('scuff');
	return next === 'scuff' || (window === 'scuff' && !scuffed) ? 'scuff' : 'spray';
}

/**
 * What can be done to a face next, from what time on and until when: windows open by the clock that counts less
 * and close by the one that counts more.
 * @param spells the windows of the coat that lies on top, in time order
 * @returns null where no window opens by waiting
 */
export function outlook(spells: readonly Spell[], { least_s, most_s }: Age, ground: Ground): Outlook | null {
	const [first] = spells
		.map((spell, at) => ({
			...spell,
			at,
			opens_s: Math.max(0, Math.max(spell.from_s, ground.wait_s) - least_s),
		}))
		.filter(
			({ does, until_s, opens_s }) => does !== 'wait' && most_s + opens_s < until_s && opens_s < Infinity,
		)
		.sort((one, other) => one.opens_s - other.opens_s);
	if (!first) return null;
	const does = doesIn(first.does, ground);
	if (does === 'wait') return null;
	const later = spells.slice(first.at + 1);
	const change = later.find(spell => doesIn(spell.does, ground) !== does);
	const end_s = change?.from_s ?? (later.at(-1) ?? first).until_s;
	return {
		does,
		opens_s: first.opens_s,
		closes_s: end_s - most_s,
		follows: change ? doesIn(change.does, ground) : 'wait',
	};
}
