import type { ReworkStep } from '../../machines/face.ts';
import type { Stop } from '../../machines/stops.ts';
import type { Prep, Window } from '../job/job.ts';
import {
	isShutPart,
	outlookOf,
	reworkDue,
	stopsAt,
	waitEnds,
	wetLeft_s,
	windowByClock,
	windowsMoved,
} from './allowed.ts';
import { beyondOf } from './beyond-table.ts';
import { historyAfter } from './history.ts';
import { instantAfter } from './instant.ts';
import { besideOf, faceBook, faceState, jobOf, laidOn, type Moment, nextCoat } from './moment.ts';
import { openingRecord } from './open.ts';
import { finishingIn_s, plannedPrep } from './prep.ts';
import type { DayRecord } from './records.ts';
import { type DayState, fold, foldAll } from './state.ts';
import { recordOf } from './transact.ts';
import { windowsDue } from './windows-due.ts';
import { mustWait } from './work.ts';

/** Where one face stands at an instant, and what may be done to it next. Instants in ms. */
export type FaceNow = {
	face: string;
	coats: number;
	planned: number;
	/** The recoat window that its last coat is in, and until when; null: none is on, or it is set aside. */
	window: Window | null;
	until: number | null;
	/** On which side of the sheet's recoat table its surface lies: its windows are then the careful ones. */
	beyond: 'above' | 'below' | null;
	next:
		| { may: 'spray'; coat: number; material: string; until: number | null }
		/** `from` null: the sheet gives no time for so cold or warm a surface. */
		| { may: 'prep'; step: Prep; from: number | null; for: number | null }
		| { may: 'wait'; coat: number; from: number; until: number | null }
		/** Its windows ask for work that the sheet does not plan; `from` null: none opens by waiting. */
		| { may: 'sand'; coat: number; step: 'sand' | 'scuff'; from: number | null }
		/** Its pass is under way, or was broken off: how much is on is still to be said. */
		| { may: 'begun'; coat: number }
		| { may: 'nothing' }
		/** `from` null: as for preparation. */
		| { may: 'rework'; step: ReworkStep; from: number | null }
		/** Sound, and out of line until a face of its part is back from its own. */
		| { may: 'beside' };
	/** Why it was set aside, where it was. */
	aside: string | null;
};

/**
 * What can be done to each face of a job at an instant, by its newest day; where that is closed, by what the next day
 * would open with. Nothing is written.
 * @param at ms since 1970
 * @throws Error where the records make no day
 */
export function nowAfter(records: readonly DayRecord[], at: number): FaceNow[] {
	const lived = foldAll(records);
	const { sheet: job, ...opened } = lived.book.opened;
	const next = () =>
		fold(null, openingRecord({ ...opened, job, before: historyAfter(records) }, { wall: at, mono: 0 }));
	return faceNows(standsAt(lived.machine.value === 'closed' ? next() : lived, at));
}

/** A day as it would be found at an instant, ms since 1970, if both its clocks ran on alike from its last record. */
export function standsAt(state: DayState, at: number): Moment {
	const { wall, mono, run } = state.book.now;
	const shown = { wall: at, mono: mono + Math.max(0, at - wall), run };
	return withWindows({ state, now: instantAfter(state.book.now, shown) });
}

/** The same moment with each recoat window where the clock has brought it. */
export const withWindows = ({ state, now }: Moment): Moment => ({
	state: [windowsDue, windowsMoved].reduce(
		(told, windows) =>
			windows({ state: told, now }).reduce((sum, event) => fold(sum, recordOf(sum, event, now)), told),
		state,
	),
	now,
});

/** Seconds from now as an instant; null: never. */
const after = ({ now }: Moment, seconds: number): number | null =>
	Number.isFinite(seconds) ? Math.ceil(now.wall + seconds * 1000) : null;

/** What can be done to each face, in the order of the sheet. */
export const faceNows = (moment: Moment): FaceNow[] =>
	jobOf(moment).faces.map(({ id, coats }) => {
		const here = { face: id, coats: laidOn(moment, id), planned: coats.length, next: nextOf(moment, id) };
		const aside = faceBook(moment, id).aside ?? besideOf(moment, id);
		if (aside) return { ...here, window: null, until: null, beyond: null, aside: aside.why };
		const { to, left_s } = windowByClock(moment, id);
		const beyond = here.next.may === 'nothing' ? null : beyondOf(moment, id);
		return { ...here, beyond, window: to === 'bare' ? null : to, until: after(moment, left_s), aside: null };
	});

const named = <By extends Stop['by']>(stops: readonly Stop[], by: By) =>
	stops.find((stop): stop is Extract<Stop, { by: By }> => stop.by === by);

/** What the first stop that the face itself has asks for. */
function nextOf(moment: Moment, id: string): FaceNow['next'] {
	const stops = stopsAt(moment, id);
	const coat = laidOn(moment, id) + 1;
	const state = faceState(moment, id);
	if (state.matches('spraying') || state.matches('broken')) return { may: 'begun', coat };
	const aside = named(stops, 'aside');
	if (aside?.step === null) return { may: 'beside' };
	if (aside) {
		const { step, due } = reworkDue(moment, id);
		return { may: 'rework', step, from: due && Math.ceil(due) };
	}
	if (named(stops, 'coats')) return afterLast(moment, id);
	const window = named(stops, 'window');
	const waits = window?.is === 'wait';
	/** Its own time: that dusty work also waits for other coats that are wet is the day's to ask. */
	const opens = mustWait(moment, id) ? waitEnds(moment, id) : moment.now.wall;
	if (opens === null || isShutPart(moment, id)) return { may: 'sand', coat, step: 'sand', from: null };
	const from = Math.ceil(opens);
	const prep = named(stops, 'prep') ?? (window && !waits ? undefined : named(stops, 'tack'));
	if (prep) return { may: 'prep', step: prep.step, from, for: coat };
	if (!window)
		return { may: 'spray', coat, material: nextCoat(moment, id).material, until: sprayEnds(moment, id) };
	if (window.is !== 'wait') return { may: 'sand', coat, step: window.is, from };
	const next = faceBook(moment, id).part ? null : outlookOf(moment, id);
	if (next && next.does !== 'spray') return { may: 'sand', coat, step: next.does, from };
	return { may: 'wait', coat, from, until: next && after(moment, next.closes_s) };
}

/** Until when a face that may be sprayed may be begun: a reason ends with the window that it was given for. */
function sprayEnds(moment: Moment, id: string): number | null {
	const wet_s = wetLeft_s(moment, id);
	if (wet_s !== null && wet_s >= 0) return after(moment, wet_s);
	const next = outlookOf(moment, id);
	return next && after(moment, next.does === 'spray' ? next.closes_s : next.opens_s);
}

/** Work that the sheet asks for after the last coat of a face. */
function afterLast(moment: Moment, id: string): FaceNow['next'] {
	const step = plannedPrep(moment, id);
	const left_s = finishingIn_s(moment, id);
	if (!step || left_s === null) return { may: 'nothing' };
	return { may: 'prep', step: step.step, from: after(moment, left_s), for: null };
}
