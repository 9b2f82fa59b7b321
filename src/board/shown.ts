import type { Timer, View } from '../day/view.ts';

/** What the page is told. Instants are ms since 1970, so that the page counts down by itself. */

/** A timer that the page counts down. */
export type TimerShown = Omit<Timer, 'left_s'>;

/** One open day: what its view holds, and when somebody last answered. */
export type DayShown = Pick<View, 'zone' | 'face' | 'coat' | 'coats' | 'cup' | 'faces'> & {
	/** Of its first line, by which it is known. */
	day: string;
	job: string;
	/** The state in one word. */
	word: string;
	timers: TimerShown[];
	/** Items left open. */
	open: number;
	/** The face in hand with fan and stroke, once the gun is known: markup of the report. */
	picture: string | null;
	answered: number;
	heldSince: number | null;
	/** A program has the day open. */
	isHeard: boolean;
	/** Why its file cannot be read, in a few words: the rest is how it stood. */
	trouble: string | null;
	/** Since when somebody should look in; null: nobody need. */
	calling: number | null;
};

/** What a job with no open day comes to next. `until` null: at any time; `from` null: once hard. */
export type ElsewhereShown = {
	job: string;
	what: string;
	from: number | null;
	until: number | null;
	isLate: boolean;
};

/** What the page is sent, each the whole present of its subject. */
export type Told =
	| { about: 'day'; shown: DayShown }
	/** Closed, moved away or no longer to be read. */
	| { about: 'gone'; day: string }
	| { about: 'elsewhere'; jobs: ElsewhereShown[] }
	/** Jobs with an open day that cannot be read. */
	| { about: 'unread'; names: string[] }
	/** The days there are: any other is forgotten. `isPlain`: what is sent can be read on its way. */
	| { about: 'board'; days: string[]; isPlain: boolean };
