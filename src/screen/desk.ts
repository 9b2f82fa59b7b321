import { type Answer, questionOf, type View } from '../day/view.ts';
import {
	type Effect,
	type HandsSetup,
	type HandsState,
	handsDue,
	handsStart,
	newScreen,
	passTime,
	stood,
	strikeKey,
} from './hands.ts';
import type { Key } from './keys/key.ts';
import { keyNames } from './keys/names.ts';
import { noticeStands_ms, noticeTexts } from './notices.ts';
import type { Passing } from './passing.ts';
import type { ScreenClock, Session } from './session-port.ts';
import { openTimer } from './timer.ts';
import { openWorking } from './working.ts';

/** The painter's side of a day: keys come in, answers go to the session, what it shows goes to the face. */
export type Desk = {
	key(key: Key): void;
	/** The program stood still, or was stopped and continued. */
	stood(): void;
	/** Looks at the day again. */
	refresh(): void;
	/** Draws what is shown once more. */
	draw(): void;
	/** Shows a few words for a while. */
	tell(words: string): void;
	close(): void;
};

export type DeskPorts = {
	session: Session;
	clock: ScreenClock;
	show(view: View, passing: Passing): void;
	/** Nothing but hold may be answered: the screen cannot be read. */
	blind(): boolean;
	leave(why: 'closed' | 'left'): void;
	suspend(): void;
};

/** How often a held screen is looked at, ms: whoever is away does not watch the seconds. */
const heldTick_ms = 5000;

/** Until what is counted down first shows another second. */
function nextTick_ms(view: View): number {
	if (view.ask === 'hold') return heldTick_ms;
	const now = Date.parse(view.at);
	const parts = view.timers.map(({ due }) => (Date.parse(due) - now) % 1000).filter(part => part > 0);
	return Math.min(1000, ...parts.map(part => part + 5));
}

function passingOf(hands: HandsState, setup: HandsSetup, notice: string | null): Passing {
	const { chosen, presses, entry } = hands;
	const counting = presses > 0 ? `pressed ${presses}` : chosen === null ? null : 'once more to answer';
	const keys = keyNames(setup.layout);
	return { typed: entry.text, notice: counting ?? notice, chosen, counted: setup.oneKey, keys };
}

/** Opens the desk and shows the first screen. */
export function openDesk(ports: DeskPorts, setup: HandsSetup): Desk {
	const { session, clock } = ports;
	let hands = handsStart;
	let view = session.view();
	let shown = '';
	let notice: string | null = null;
	let open = true;
	const { work, busy } = openWorking();
	const draw = () => {
		if (open) ports.show(view, passingOf(hands, setup, notice));
	};
	const noticeTimer = openTimer(clock, () => {
		notice = null;
		draw();
	});
	const handsTimer = openTimer(clock, () => take(passTime(hands, view, clock.mono())));
	const second = openTimer(clock, () => refresh());

	const note = (text: string | null) => {
		notice = text;
		noticeTimer.set(text === null ? null : noticeStands_ms);
	};
	const say = (text: string) => {
		note(text);
		draw();
	};
	const answer = (given: Answer) => {
		const isHold = 'key' in given && given.key === 'hold';
		if (ports.blind() && !isHold) return;
		if (view.ask === 'closed' && isHold) return;
		const outcome = work(() => session.answer(given));
		if (session.over?.()) return ports.leave('closed');
		note(outcome.accepted ? null : (outcome.reason?.text ?? noticeTexts['no-answer-there']));
		refresh();
	};
	const perform = (effect: Effect) => {
		if (!open) return;
		if (effect.do === 'answer') answer(effect.answer);
		else if (effect.do === 'notice') say(noticeTexts[effect.code]);
		else if (effect.do === 'leave') ports.leave(view.ask === 'closed' ? 'closed' : 'left');
		else if (effect.do === 'suspend') ports.suspend();
		else if (effect.do === 'say-again') session.sayAgain?.();
		else if (effect.do === 'move-clock') {
			work(() => session.moveClock?.(effect.by_ms));
			refresh();
		} else draw();
	};
	const take = (step: { state: HandsState; effects: Effect[] }) => {
		hands = step.state;
		for (const effect of step.effects) perform(effect);
		const due = handsDue(hands);
		handsTimer.set(due === null || !open ? null : due - clock.mono());
	};
	const refresh = () => {
		if (!open) return;
		work(() => session.tick());
		view = session.view();
		const question = questionOf(view);
		if (question !== shown) {
			shown = question;
			take(newScreen(hands, view, clock.mono()));
		}
		draw();
		second.set(open ? nextTick_ms(view) : null);
	};
	const quiet = session.onChange(() => {
		if (!busy()) refresh();
	});
	refresh();

	return {
		key: key => take(strikeKey(hands, view, setup, key, clock.mono())),
		stood: () => take(stood(hands, view, clock.mono())),
		refresh,
		draw,
		tell: words => {
			if (view.ask !== 'spraying') say(words);
		},
		close() {
			open = false;
			quiet();
			for (const timer of [noticeTimer, handsTimer, second]) timer.set(null);
		},
	};
}
