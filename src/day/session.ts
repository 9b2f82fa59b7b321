import { clock as sayClock } from '../words/clock.ts';
import { beyondSaid } from './beyond-table.ts';
import type { Clock } from './clock.ts';
import { decide, type Refusal } from './decide.ts';
import { asDay, type DayFileError, type FarWords, farWordsOf } from './file/trouble.ts';
import { deadlineOf, following } from './follow.ts';
import { type Instant, instantAfter, isoAt } from './instant.ts';
import { activityOf, type Moment, settingsOf } from './moment.ts';
import { coolingSaid } from './own-cooling.ts';
import type { Shown } from './passed.ts';
import { freshUi, type Ui } from './prompt.ts';
import type { BreakKind, DayEvent, DayRecord } from './records.ts';
import { type DayState, foldAll } from './state.ts';
import { type Done, transact } from './transact.ts';
import { holdsAtOnce, openKeeping, toldOn } from './unkept.ts';
import type { Answer, View } from './view.ts';
import { viewOf } from './view-of.ts';

/** Where records go. They count from the moment `append` returns; a DayFileError: they do not. */
export type Sink = {
	/** Of its file, where there is one. */
	readonly path?: string;
	readonly records: readonly DayRecord[];
	append(records: readonly DayRecord[]): void;
	close(): void;
};

export type Outcome = { accepted: boolean; reason?: Refusal; records: DayRecord[] };

/**
 * A day under way, for whoever draws it and hands it answers. Where the disk does not take what is made, nothing counts:
 * the day stands in hold and says so until the disk is well. Nothing but the opening throws for a disk.
 */
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
	/** Why the disk does not take the day as it stands; null: all of it is there. */
	unkept(): DayFileError | null;
	close(): void;
};

/** `notice`: a line to be shown beside the first question. */
export type SessionOptions = { sink: Sink; clock: Clock; rehearsal: boolean; notice?: string | null };

/** How often a disk that failed is tried again by itself, ms. */
const tryAgain_ms = 5000;

/**
 * Opens a day to go on with it. One that was left open stands in hold, whatever it was doing.
 * @throws DayFileError where its records make no day, or cannot be written: the sink is then closed
 */
export function openSession(options: SessionOptions): Session {
	const { sink, clock } = options;
	try {
		return asDay(sink.path ?? 'the day', () => opened(options));
	} catch (error) {
		clock.wakeAt(null, () => {});
		sink.close();
		throw error;
	}
}

function opened({ sink, clock, rehearsal, notice = null }: SessionOptions): Session {
	let state = foldAll(sink.records);
	let ui: Ui = freshUi;
	const { last: found } = state.book;
	const fresh = found.type === 'day.opened';
	const run = fresh ? found.run : found.run + 1;
	const listeners = new Set<(made: readonly DayRecord[]) => void>();
	/** Both clocks, read once for everything that one answer, or one look at them, leads to. */
	let reading: Shown | null = null;
	const now = (): Instant => instantAfter(state.book.now, reading ?? { ...clock.now(), run });
	const moment = (): Moment => ({ state, now: now() });
	const atOneInstant = <Result>(work: () => Result): Result => {
		const outer = reading;
		reading ??= { ...clock.now(), run };
		try {
			return work();
		} finally {
			reading = outer;
		}
	};
	let seen: Shown = now();
	/** The question that was last shown: an answer to another one is not taken. */
	let shown = '';
	const asked = ({ state: step, face, coat }: View) => `${step} ${face} ${coat}`;

	const keeping = openKeeping(sink.append);
	let tried_ms = 0;
	const tell = (made: readonly DayRecord[]) => {
		wake();
		for (const changed of listeners) changed(made);
	};
	const stand = (done: Done, nextUi: Ui) => {
		state = done.state;
		ui = nextUi;
	};
	const defer = (done: Done) => {
		keeping.defer(done.records);
		stand(done, freshUi);
	};
	/** What takes leave away, or only tells, waits for the disk; anything else is nothing, and the day is held. */
	const unkept = (events: readonly DayEvent[], done: Done): null => {
		tried_ms = now().mono;
		const atOnce = holdsAtOnce(events);
		if (atOnce) defer(done);
		const activity = activityOf(moment());
		const isHeld = activity === 'hold' && keeping.waits();
		if (!isHeld && !(atOnce && activity === 'spraying'))
			defer(transact(state, [{ type: 'break.began', kind: 'hold', by: 'program' }], now()));
		tell([]);
		return null;
	};

	/** Null where the disk does not take it. */
	const commit = (
		events: readonly DayEvent[],
		nextUi: Ui | ((made: readonly DayRecord[]) => Ui),
	): DayRecord[] | null => {
		const done = transact(state, events, now());
		if (!keeping.keep(done.records)) return unkept(events, done);
		stand(done, typeof nextUi === 'function' ? nextUi(done.records) : nextUi);
		tell(done.records);
		return done.records;
	};
	const tryAgain = (): DayRecord[] => {
		tried_ms = now().mono;
		const kept = keeping.retry();
		if (kept.length > 0) tell(kept);
		return kept;
	};

	const wake = () => clock.wakeAt(deadlineOf(moment())?.at ?? null, () => tick());

	const slip_ms = () => settingsOf(moment()).clockSlip_s * 1000;
	/** When the program last looked, wall clock ms, where that is longer ago than while it runs; undefined: it runs. */
	const ranUntil = (): number | undefined => {
		const { wall, mono } = now();
		return Math.max(wall - seen.wall, mono - seen.mono) > slip_ms() ? seen.wall : undefined;
	};

	/** The clocks went different ways since they were last looked at; an uptime beyond the monotonic clock proves a sleep. */
	const slip = (at: Shown): BreakKind | null => {
		const limit_ms = slip_ms();
		const mono = at.mono - seen.mono;
		const up = at.up === undefined || seen.up === undefined ? mono : at.up - seen.up;
		if (up - mono > limit_ms) return 'suspend';
		return Math.abs(at.wall - seen.wall - mono) > limit_ms ? 'clock' : null;
	};

	/** @param since when the program last ran, wall clock ms, where it did not see the break begin */
	const broken = (kind: BreakKind, since?: number): DayRecord[] => {
		const activity = activityOf(moment());
		if (activity === 'closed') return [];
		const unseen = since === undefined ? {} : { since: isoAt(since) };
		return commit([{ type: 'break.began', kind, by: 'program', ...unseen }], freshUi) ?? [];
	};

	const due = (): DayRecord[] => {
		const records: DayRecord[] = [];
		for (let next = deadlineOf(moment()); next && next.at <= now().wall; next = deadlineOf(moment())) {
			const made = commit(next.events, next.events.length > 0 ? freshUi : ui);
			if (!made || made.length === 0) break;
			records.push(...made);
		}
		return records;
	};

	/** What has come to follow by the clock alone, such as a wet edge that dried while nobody keyed. */
	const drift = (): DayRecord[] => (following(moment()).length > 0 ? (commit([], keptWhere) ?? []) : []);
	/** A window that moves changes no question: what is half keyed stays. */
	const keptWhere = (made: readonly DayRecord[]) =>
		made.every(({ type }) => type === 'window.moved') ? ui : freshUi;

	const tick = (): DayRecord[] => atOneInstant(look);
	const look = (): DayRecord[] => {
		const last = seen;
		const kind = slip(now());
		seen = now();
		const kept = keeping.waits() && now().mono - tried_ms >= tryAgain_ms ? tryAgain() : [];
		const stands = keeping.waits() && activityOf(moment()) === 'hold';
		const made = kind ? broken(kind, last.wall) : stands ? [] : [...due(), ...drift()];
		wake();
		return [...kept, ...made];
	};

	const first = fresh ? (commit([], freshUi) ?? []) : broken('restart', state.book.now.wall);
	const failed = keeping.trouble();
	if (failed) throw failed;
	/** A day of which no screen can be made is none, either. */
	viewOf(moment(), ui, rehearsal);
	if (!fresh) sayClock(now().wall, state.book.opened.zone);
	const opening = fresh ? [found, ...first] : first;
	ui = { ...ui, notice: notice ?? beyondSaid(moment(), first) };
	const farWords = (): FarWords | null => {
		const trouble = keeping.trouble();
		return trouble && farWordsOf(trouble, sink.path ?? '');
	};

	const taken = (answer: Answer): Outcome => {
		const before = [...tick(), ...(keeping.waits() ? tryAgain() : [])];
		const holds = 'key' in answer && answer.key === 'hold';
		if (!holds && shown !== asked(viewOf(moment(), ui, rehearsal)))
			return {
				accepted: false,
				reason: { code: 'changed', text: 'The screen changed. Look again.' },
				records: before,
			};
		const decision = decide(moment(), ui, answer);
		if ('refused' in decision) return { accepted: false, reason: decision.refused, records: before };
		const { ui: next } = decision;
		const made = commit(decision.events, records => ({
			...next,
			notice: next.notice ?? beyondSaid(moment(), records) ?? coolingSaid(moment(), records),
		}));
		if (made) return { accepted: true, records: [...before, ...made] };
		const { code = 'disk', say: text = '' } = farWords() ?? {};
		return { accepted: false, reason: { code, text }, records: before };
	};

	return {
		opening,
		view() {
			const view = viewOf(moment(), ui, rehearsal);
			shown = asked(view);
			const words = farWords();
			return words ? toldOn(view, words) : view;
		},
		state: () => state,
		answer: answer => atOneInstant(() => taken(answer)),
		break: kind => atOneInstant(() => broken(kind, kind === 'suspend' ? ranUntil() : undefined)),
		trigger: on =>
			activityOf(moment()) === 'closed'
				? []
				: (commit([{ type: on ? 'trigger.on' : 'trigger.off' }], ui) ?? []),
		unkept: keeping.trouble,
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
