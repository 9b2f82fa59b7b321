import { realClock } from '../day/clock.ts';
import { LockedError } from '../day/file/lock.ts';
import { isoAt } from '../day/instant.ts';
import type { Settings } from '../day/settings.ts';
import { showOnly } from '../day/shown-only.ts';
import type { Choice } from '../day/view.ts';
import { type OneQuestion, oneQuestion } from '../screen/one-question.ts';
import type { Io } from './command.ts';
import { show } from './show.ts';

/** What to do about a day that another program has, or had. */
export type AboutLock = 'show' | 'dead' | null;

const showIt: Choice = { code: 'show', text: 'SHOW ONLY' };
const isDead: Choice = { code: 'dead', text: 'IT IS DEAD, GO ON' };
const leave: Choice = { code: 'leave', text: 'LEAVE' };

const questionOf = ({ who, standing }: LockedError): OneQuestion =>
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

/** Asks whoever sits here what to do about a locked day. */
export async function askAboutLock(locked: LockedError, settings: Settings, io: Io): Promise<AboutLock> {
	const { session, answered } = oneQuestion(questionOf(locked), () => isoAt(Date.now()));
	await show({ session, settings }, io);
	const answer = answered();
	return answer === 'show' || answer === 'dead' ? answer : null;
}

/** Shows a locked day until it is left. */
export const lookOn = ({ day, who }: LockedError, settings: Settings, io: Io): Promise<number> =>
	show({ session: showOnly(day, who, realClock()), settings }, io);

/**
 * Opens a day, and asks what to do where it is locked.
 * @param open given a lock, word for word, that was said to be dead; null: none was
 * @returns what was opened; null: it was only to be shown, and was
 * @throws LockedError where nobody sits here, or who does leaves it
 */
export async function openedOrShown<Opened>(
	open: (dead: string | null) => Opened | Promise<Opened>,
	settings: Settings,
	io: Io,
): Promise<Opened | null> {
	for (let dead: string | null = null; ; ) {
		try {
			return await open(dead);
		} catch (error) {
			const isAsked = error instanceof LockedError && process.stdin.isTTY;
			const answer = isAsked ? await askAboutLock(error, settings, io) : null;
			if (!isAsked || answer === null) throw error;
			if (answer === 'show') {
				await lookOn(error, settings, io);
				return null;
			}
			dead = error.text;
		}
	}
}
