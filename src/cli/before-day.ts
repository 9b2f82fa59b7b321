import { realClock } from '../day/clock.ts';
import { LockedError } from '../day/file/lock.ts';
import { DayFileError, plainName } from '../day/file/trouble.ts';
import { isoAt } from '../day/instant.ts';
import { localZone } from '../day/local-zone.ts';
import type { Settings } from '../day/settings.ts';
import { showOnly } from '../day/shown-only.ts';
import type { Choice } from '../day/view.ts';
import { type OneQuestion, oneQuestion } from '../screen/one-question.ts';
import { clock, date } from '../words/clock.ts';
import type { Io } from './command.ts';
import { type Holds, ShelfChangedError, shelfQuestion } from './shelf-changed.ts';
import { show } from './show.ts';

/** What nobody but whoever sits here can tell, asked before a day is opened. */

/** The clock stands before the end of the last day of a job. */
export class ClockBehindError extends DayFileError {
	readonly ended: number;
	readonly now: number;
	/** @param day the file of the last day; instants in ms */
	constructor(day: string, ended: number, now: number) {
		const says = `the last day of this job ended at ${isoAt(ended)}, and the clock stands at ${isoAt(now)}`;
		super('clock', `${plainName(day)}: ${says}: set it right, or say at a terminal that it is`);
		this.ended = ended;
		this.now = now;
	}
}

/** What has been told so far: a lock, word for word, whose process is dead; that the clock is right; which shelf holds. */
export type Told = { dead: string | null; clockIsRight: boolean; shelf: Holds | null };

const showIt: Choice = { code: 'show', text: 'SHOW ONLY' };
const isDead: Choice = { code: 'dead', text: 'IT IS DEAD, GO ON' };
const isRight: Choice = { code: 'clock-right', text: 'IT IS RIGHT' };
const setFirst: Choice = { code: 'leave', text: 'SET IT FIRST' };
const leave: Choice = { code: 'leave', text: 'LEAVE' };

const lockQuestion = ({ who, standing }: LockedError): OneQuestion =>
	standing === 'alive'
		? {
				state: 'locked.alive',
				say: `Day: it is open already, in ${who}.`,
				lines: ['Close it there, or look on from here.'],
				answers: [showIt, leave],
			}
		: {
				state: 'locked.unknown',
				say: `Day: left open in ${who}. Is that dead?`,
				lines: [
					'Nobody here can tell, as after a power cut.',
					'Alive, it stops counting once this one goes on.',
				],
				answers: [showIt, isDead, leave],
			};

const said = (at: number) =>
	`${clock(at, localZone())}, ${date(at, localZone())} ${new Date(at).getFullYear()}`;

const clockQuestion = ({ ended, now }: ClockBehindError): OneQuestion => ({
	state: 'clock.behind',
	say: 'Clock: it stands before the last day. Is it right now?',
	lines: [`It says ${said(now)}.`, `The last day ended at ${said(ended)}.`],
	answers: [isRight, setFirst],
});

/** What is asked where a day cannot be opened; null: whoever sits here cannot tell it either. */
function questionOf(error: unknown): OneQuestion | null {
	if (error instanceof LockedError) return lockQuestion(error);
	if (error instanceof ClockBehindError) return clockQuestion(error);
	return error instanceof ShelfChangedError ? shelfQuestion(error) : null;
}

/** The code of the answer; null: it was left. */
async function answerTo(question: OneQuestion, settings: Settings, io: Io): Promise<string | number | null> {
	const { session, answered } = oneQuestion(question, () => isoAt(Date.now()));
	await show({ session, settings }, io);
	return answered();
}

/**
 * Opens a day, and asks what cannot be told from here.
 * @param open given what has been told so far
 * @returns what was opened; null: it was only to be shown, and was
 * @throws LockedError, ClockBehindError or ShelfChangedError where nobody sits here, or who does leaves it
 */
export async function openedOrShown<Opened>(
	open: (told: Told) => Opened | Promise<Opened>,
	settings: Settings,
	io: Io,
): Promise<Opened | null> {
	let told: Told = { dead: null, clockIsRight: false, shelf: null };
	for (;;) {
		try {
			return await open(told);
		} catch (error) {
			const isLocked = error instanceof LockedError;
			const question = process.stdin.isTTY ? questionOf(error) : null;
			if (!question) throw error;
			const answer = await answerTo(question, settings, io);
			if (isLocked && answer === 'show') {
				const session = showOnly(error.day, error.who, realClock());
				await show({ session, settings }, io);
				return null;
			}
			if (isLocked && answer === 'dead') told = { ...told, dead: error.text };
			else if (answer === 'clock-right') told = { ...told, clockIsRight: true };
			else if (answer === 'keep' || answer === 'new') told = { ...told, shelf: answer };
			else throw error;
		}
	}
}
