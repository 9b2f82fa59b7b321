import type { Clock } from './clock.ts';
import { decide, type Refusal } from './decide.ts';
import { deadlineOf, following } from './follow.ts';
import { type Instant, instantAfter, isoAt } from './instant.ts';
import { activityOf, type Moment, settingsOf } from './moment.ts';
import { freshUi, type Ui } from './prompt.ts';
import type { BreakKind, DayEvent, DayRecord } from './records.ts';
import { type DayState, foldAll } from './state.ts';
import { transact } from './transact.ts';
import type { Answer, View } from './view.ts';
import { viewOf } from './view-of.ts';

/** Where records go. They count from the moment this returns. */
export type Sink = {
	readonly records: readonly DayRecord[];
	append(records: readonly DayRecord[]): void;
	close(): void;
};

export type Outcome = { accepted: boolean; reason?: Refusal; records: DayRecord[] };

/** A day under way, for whoever draws it and hands it answers. */
export type Session = {
	view(): View;
	state(): DayState;
	answer(answer: Answer): Outcome;
	/** A break that nobody keyed. */
	break(kind: BreakKind): DayRecord[];
	/** The switch on the air line. */
	trigger(on: boolean): DayRecord[];
	/** Looks at both clocks: fires what is due, and notices a clock that jumped. */
	tick(): DayRecord[];
	onChange(changed: (made: readonly DayRecord[]) => void): () => void;
	/** What opening the day wrote: the start, or the break that the program was away. */
	readonly opening: readonly DayRecord[];
	close(): void;
};

/** `notice`: a line to be shown beside the first question. */
export type SessionOptions = { sink: Sink; clock: Clock; rehearsal: boolean; notice?: string | null };

/**
 * Opens a day to go on with it. One that was left open stands in hold, whatever it was doing.
 * @throws Error where the records are no day; DayFileError where they cannot be written
 */
export function openSession({ sink, clock, rehearsal, notice = null }: SessionOptions): Session {
	let state = foldAll(sink.records);
	let ui: Ui = freshUi;
	const fresh = state.book.last.type === 'day.opened';
	const run = fresh ? state.book.last.run : state.book.last.run + 1;
	const listeners = new Set<(made: readonly DayRecord[]) => void>();
	const now = (): Instant => instantAfter(state.book.now, { ...clock.now(), run });
	const moment = (): Moment => ({ state, now: now() });
	let seen = now();
	/** The question that was last shown: an answer to another one is not taken. */
	let shown = '';
	const asked = ({ state: step, face, coat }: View) => `${step} ${face} ${coat}`;

	const commit = (events: readonly DayEvent[], nextUi: Ui): DayRecord[] => {
		const done = transact(state, events, now());
		if (done.records.length > 0) sink.append(done.records);
		state = done.state;
		ui = nextUi;
		wake();
		for (const changed of listeners) changed(done.records);
		return done.records;
	};

	const wake = () => clock.wakeAt(deadlineOf(moment())?.at ?? null, () => tick());

	/** Wall and monotonic clock went different ways since they were last looked at. */
	const slip = (at: Instant): BreakKind | null => {
		const slip_s = (at.wall - seen.wall - (at.mono - seen.mono)) / 1000;
		if (Math.abs(slip_s) <= settingsOf(moment()).clockSlip_s) return null;
		return slip_s > 0 ? 'suspend' : 'clock';
	};

	/** @param since when the program last ran, wall clock ms, where it did not see the break begin */
	const broken = (kind: BreakKind, since?: number): DayRecord[] => {
		const activity = activityOf(moment());
		if (activity === 'closed') return [];
		const unseen = since === undefined ? {} : { since: isoAt(since) };
		return commit([{ type: 'break.began', kind, by: 'program', ...unseen }], freshUi);
	};

	const due = (): DayRecord[] => {
		const records: DayRecord[] = [];
		for (let next = deadlineOf(moment()); next && next.at <= now().wall; next = deadlineOf(moment())) {
			const made = commit(next.events, next.events.length > 0 ? freshUi : ui);
			if (made.length === 0) break;
			records.push(...made);
		}
		return records;
	};

	/** What has come to follow by the clock alone, such as a wet edge that dried while nobody keyed. */
	const drift = (): DayRecord[] => (following(moment()).length > 0 ? commit([], freshUi) : []);

	const tick = (): DayRecord[] => {
		const last = seen;
		const kind = slip(now());
		seen = now();
		const made = kind ? broken(kind, kind === 'suspend' ? last.wall : undefined) : [...due(), ...drift()];
		wake();
		return made;
	};

	const opening = fresh ? [state.book.last, ...commit([], freshUi)] : broken('restart', state.book.now.wall);
	ui = { ...ui, notice };

	return {
		opening,
		view() {
			const view = viewOf(moment(), ui, rehearsal);
			shown = asked(view);
			return view;
		},
		state: () => state,
		answer(answer) {
			const before = tick();
			const holds = 'key' in answer && answer.key === 'hold';
			if (!holds && shown !== asked(viewOf(moment(), ui, rehearsal)))
				return {
					accepted: false,
					reason: { code: 'changed', text: 'The screen changed. Look again.' },
					records: before,
				};
			const decision = decide(moment(), ui, answer);
			if ('refused' in decision) return { accepted: false, reason: decision.refused, records: before };
			return { accepted: true, records: [...before, ...commit(decision.events, decision.ui)] };
		},
		break: kind => broken(kind),
		trigger: on =>
			activityOf(moment()) === 'closed' ? [] : commit([{ type: on ? 'trigger.on' : 'trigger.off' }], ui),
		tick,
		onChange(changed) {
			listeners.add(changed);
			return () => listeners.delete(changed);
		},
		close() {
			clock.wakeAt(null, () => {});
			sink.close();
		},
	};
}
