import { questionOf, type Timer, type View } from '../day/view.ts';
import { duration } from '../words/say.ts';
import { mostWords, short, shortFace, spoken } from '../words/spoken.ts';

/** What is heard of a day, worked out from what is shown of it. Pure: a view after the last one gives what is new. */

/**
 * Four, each with its sight: the screen in reverse video, the countdown of a wait, a new question, a line that says
 * why nothing was taken.
 */
export type Sound = 'held' | 'soon' | 'over' | 'refused';

export type Ear = {
	/** The question that was last heard of. */
	screen: string;
	/** It stands in hold, or at a question inside one. */
	held: boolean;
	/** The wait that runs, as it was last seen. */
	wait: Timer | null;
};

export const freshEar: Ear = { screen: '', held: false, wait: null };

export type Heard = {
	say: string | null;
	sound: Sound | null;
	/** What is worth telling somebody who looks at another window. */
	notice: string | null;
	/** Whatever is being said stops now. */
	hush: boolean;
};

const nothing: Heard = { say: null, sound: null, notice: null, hush: false };

/** What the ear cannot see: how long before its end a wait is warned of, and why a day is held. */
export type Told = { warnEarly_min: number; warnLate_min: number; overdue: boolean };

/** The last warning of a wait, s: at least 8 (Trafton 2003), and as long again to hear it and turn round. */
const lastWarning_s = 15;

const waits = new Set(['flash', 'opens', 'touch', 'stand', 'rework']);

const sameWait = (one: Timer, other: Timer): boolean =>
	one.code === other.code && one.face === other.face && one.due === other.due;

/**
 * The wait that runs: on its own screen the first timer, behind another question the one known from there; in a hold
 * the one that was broken off, which goes on whoever is away.
 */
function waitIn(view: View, before: Timer | null): Timer | null {
	const [first] = view.timers;
	if (view.ask === 'wait') return first && waits.has(first.code) ? first : null;
	if (view.ask === 'hold') return view.timers.find(({ code }) => waits.has(code)) ?? null;
	return before && (view.timers.find(timer => sameWait(timer, before)) ?? null);
}

/** The wait is over since it was last seen; in a hold its timer then stands at nothing. */
function isOver(before: Timer | null, now: Timer | null, view: View, held: boolean): boolean {
	if (before === null || before.left_s <= 0 || view.at < before.due) return false;
	return now === null || (held && sameWait(before, now));
}

/** What is said of a wait that ended while the painter was away: another question than the screen of the hold asks. */
const overInHold = ({ face }: Timer): string =>
	spoken('Wait', face ? shortFace(face) : '', 'it is over, come to the screen');

/** What is left to do in a wait: mixing only where the screen offers it. */
function leftToDo({ code }: Timer, { corners }: View): string {
	if (code === 'stand') return 'back to the pot';
	return Object.values(corners).some(choice => choice?.code === 'mix')
		? 'suit up and mix'
		: 'suit up, ear plugs in';
}

/** What a wait is warned with, where its time has come since it was last seen. */
function warning(before: Timer | null, now: Timer | null, view: View, told: Told): string | null {
	if (!before || !now || !sameWait(before, now)) return null;
	if (now.left_s <= 0) return null;
	const passed = (left_s: number) => before.left_s > left_s && now.left_s <= left_s;
	const place = now.face ? shortFace(now.face) : '';
	const left = `${duration(now.left_s)} left`;
	if (passed(lastWarning_s)) return spoken('Wait', place, left, 'come to the screen');
	if (passed(told.warnLate_min * 60) || passed(told.warnEarly_min * 60))
		return spoken('Wait', place, left, leftToDo(now, view));
	return null;
}

const isHeld = (view: View, before: boolean): boolean =>
	view.state.startsWith('hold') || (before && view.ask === 'trouble');

const sentenceOf = (view: View): string => short(view.say, mostWords);

/**
 * What is to be heard of a view that is shown now. While a face is being sprayed: nothing.
 * @returns the ear after it, and at most one sentence, one sound and one notice
 */
export function hears(ear: Ear, view: View, told: Told): { ear: Ear; heard: Heard } {
	const screen = questionOf(view);
	const held = isHeld(view, ear.held);
	if (view.ask === 'spraying') {
		const hush = ear.screen !== screen;
		return { ear: { screen, held, wait: null }, heard: { ...nothing, hush } };
	}
	const wait = waitIn(view, ear.wait);
	const warned = warning(ear.wait, wait, view, told);
	const over = isOver(ear.wait, wait, view, held);
	const isNew = ear.screen !== screen;
	const turned = held && !ear.held && ear.screen !== '';
	const gone = wait ?? ear.wait;
	const ended = over && held && gone ? overInHold(gone) : null;
	const say = isNew ? sentenceOf(view) : (ended ?? warned);
	const sound = turned ? 'held' : over ? 'over' : warned ? 'soon' : null;
	const notice = ended ?? warned ?? (over || (turned && told.overdue) ? sentenceOf(view) : null);
	return { ear: { screen, held, wait }, heard: { say, sound, notice, hush: false } };
}
