import type { DayShown, ElsewhereShown, Told } from '../shown.ts';

/** What the page knows: as much as it was told last of each subject, so that it never grows. */
export type Known = {
	days: Map<string, DayShown>;
	jobs: ElsewhereShown[];
	unread: string[];
	isPlain: boolean;
	/** When the last byte came, by this machine's clock, and how far the board's is ahead of it, ms. */
	heard: number;
	ahead_ms: number;
	/** The board does not know this page: it wants the token. */
	isShut: boolean;
};

export const nothingKnown = (now: number): Known => ({
	...{ days: new Map(), jobs: [], unread: [], isPlain: false },
	...{ heard: now, ahead_ms: 0, isShut: false },
});

export function learn(known: Known, told: Told): void {
	switch (told.about) {
		case 'day':
			known.days.set(told.shown.day, told.shown);
			return;
		case 'gone':
			known.days.delete(told.day);
			return;
		case 'elsewhere':
			known.jobs = told.jobs;
			return;
		case 'unread':
			known.unread = told.names;
			return;
		case 'board':
			known.isPlain = told.isPlain;
			for (const day of known.days.keys()) if (!told.days.includes(day)) known.days.delete(day);
	}
}
