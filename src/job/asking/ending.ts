import { notAllowed } from '../errors.ts';
import type { Job } from '../job.ts';
import type { Loaded } from '../load.ts';
import type { Shelf, ShelfFile } from '../shelf.ts';
import { timeOfDay } from '../values.ts';
import { shopOn } from './on-shelf.ts';
import { type Asking, ask, choiceOf, type Read } from './question.ts';

/** How the questions of a sheet end: the first day, the plan, and what becomes of it. */

export type Asked = {
	/** The shelf before anything is asked for. */
	shelf: Shelf;
	/** Offered for the first day and hour, `2027-03-02 08:00`. */
	morning: string;
	/** The plan of a job from its first hour on, in lines; null: the hour is still to do. */
	planned(job: Job, start: string | null): string[];
	/** Whether days were sprayed under a name: left out, none were. */
	hasDays?(name: string): boolean;
	/** What nobody measured. */
	usual(job: Job): string[];
};

/** A sheet to write, with what the shelf lacks. */
export type Whole = { text: string; name: string; lacking: ShelfFile[] };
/** `backTo`: the question to go back to, by its number; null: left. */
export type Outcome = Whole | { backTo: number } | null;

const dayForm = /^\d{4}-(\d{2})-(\d{2}) ([01]\d|2[0-3]):[0-5]\d$/;

/** `2027-03-02 08:00`, of a day that there is. */
function startRead(answer: string): Read<string | null> {
	if (answer === '-') return { is: null };
	const day = new Date(`${answer.slice(0, 10)}T00:00:00Z`);
	const isDay =
		dayForm.test(answer) && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(answer.slice(0, 10));
	return isDay ? { is: answer } : { wrong: 'write it as in "2027-03-02 08:00"; - leaves it to do' };
}

/** First day and hour, when the shop opens; null: still to do. */
export function startQuestion({ morning, shelf }: Asked, grown: Shelf = shelf): Asking<string | null> {
	const opens_min = shopOn(grown)?.opens_min;
	const first = opens_min === undefined ? morning : `${morning.slice(0, 11)}${timeOfDay(opens_min)}`;
	return ask(
		{
			question: 'start',
			say: 'First day and hour?',
			means: 'From it the plan counts every coat and night.',
			like: first,
			offered: first,
			ahead: 1,
		},
		startRead,
	);
}

/** As a comment of the sheet. */
export const startLine = (start: string | null): string =>
	start === null ? '# to do: first day and hour' : `# first day: ${start}`;

const endings = ['WRITE', 'CHANGE', 'LEAVE'] as const;

/** A sheet as the answers make it, before it is written. */
type Made = {
	name: string;
	start: string | null;
	loaded: Loaded;
	/** @param usual what nobody measured, in words */
	text(usual: readonly string[]): string;
	/** The shelf with what was asked for on the way. */
	shelf: Shelf;
};

/** The plan, and what becomes of it. */
export function* ending(made: Made, { shelf, planned, usual }: Asked): Asking<Outcome> {
	const { loaded } = made;
	const said = loaded.ok ? usual(loaded.job) : [];
	const shown = loaded.ok
		? [...planned(loaded.job, made.start), ...said]
		: loaded.errors.map(error => error.says);
	const means = 'WRITE ends it; CHANGE goes back to any question; LEAVE keeps the answers.';
	const put = { question: 'write', say: 'The sheet: write it?', means, choices: endings, shown, ahead: 0 };
	const chosen = yield* ask({ ...put, ...(loaded.ok && { offered: 'WRITE' }) }, (answer): Read<string> => {
		const found = choiceOf(endings, answer);
		if (found === undefined) return { wrong: notAllowed(answer, endings) };
		return found === 'WRITE' && !loaded.ok ? { wrong: 'a sheet with errors is not written' } : { is: found };
	});
	if (chosen === 'LEAVE') return null;
	if (chosen === 'WRITE') {
		const lacking = made.shelf.files.filter(file => !shelf.files.includes(file));
		return { text: made.text(said), name: made.name, lacking };
	}
	const which = {
		question: 'change',
		say: 'Back to which question, by its number?',
		like: '6',
		ahead: 1,
		means: 'Every question shows its number before its words.',
	};
	return yield* ask(
		which,
		(answer): Read<Outcome> =>
			/^[1-9]\d{0,2}$/.test(answer) ? { is: { backTo: Number(answer) } } : { wrong: 'a number is wanted' },
	);
}
