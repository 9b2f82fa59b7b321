import type { Job } from '../job/job.ts';
import { atWork, day_s } from '../plan/opening-hours.ts';
import type { Clock } from './clock.ts';
import { DayFileError, farWordsOf } from './file/trouble.ts';
import { historyIn } from './history.ts';
import { type FaceNow, faceNows, standsAt } from './now.ts';
import { type Opening, openingRecord } from './open.ts';
import type { Shown } from './passed.ts';
import type { DayRecord } from './records.ts';
import { type Outcome, openSession, type Session, type Sink } from './session.ts';
import { type DayState, fold } from './state.ts';
import type { Choice, Corner } from './view.ts';

/** A rehearsed day that is closed, and the morning after it. */

/** Where the days of a rehearsed job are kept, and what each begins with. */
export type RehearsedDays = {
	/** When the first of them began, ms. */
	began(): number;
	/** What the next one is opened with, but for what the day before it left. */
	next: Omit<Opening, 'before' | 'follows'>;
	/** What is said beside the first question of a day that is gone on with. */
	notice(records: readonly DayRecord[]): string | null;
	/**
	 * Begins the next day of the job, which rests on the newest.
	 * @throws DayFileError where that cannot be relied on, or the new one cannot be kept
	 */
	begin(at: Omit<Shown, 'run'>): Sink;
};

const day_ms = day_s * 1000;

/** When a face can be worked on; infinite: never by waiting. */
function opensAt({ next }: FaceNow, now: number): number {
	if (next.may === 'spray') return now;
	return ('from' in next ? next.from : null) ?? Number.POSITIVE_INFINITY;
}

/** The first morning after an instant, with the first day of the job begun at `began`, ms. */
const morningOf = (began: number, now: number): number =>
	began + (Math.floor((now - began) / day_ms) + 1) * day_ms;

/**
 * When the next day of a rehearsed job begins. A sheet names no opening time, so that the shop opens at the time of day
 * at which the first rehearsed day began, 24 h apart as in a plan; where nothing can be done to any face by then, the
 * day begins when the first window opens, inside the hours that the sheet gives the shop.
 * @param first the record that the next day would begin with at an instant
 * @param began when the first day began, ms
 * @param now after which it begins, ms
 * @returns ms since 1970; null: nothing is left to do on any face
 */
export function morningAfter(
	first: (at: number) => DayRecord,
	job: Job,
	began: number,
	now: number,
): number | null {
	const morning = morningOf(began, now);
	const faces = faceNows(standsAt(fold(null, first(morning)), morning));
	if (faces.every(({ next }) => next.may === 'nothing')) return null;
	const opens = Math.min(...faces.map(face => opensAt(face, morning)));
	if (!Number.isFinite(opens) || opens <= morning) return morning;
	return morning + Math.ceil(atWork(job, (opens - morning) / 1000) * 1000);
}

const nextMorning: Choice = { code: 'next-morning', text: 'NEXT MORNING' };
const place: Corner = 'bottomRight';

/** A day that goes on with the next one of its job once it is closed. */
export type GoingOn = Session & {
	/** The next morning; refused while the day is open, and where nothing is left to do. */
	morning(): Outcome;
};

const refused = (code: string, text: string): Outcome => ({
	accepted: false,
	reason: { code, text },
	records: [],
});

/**
 * A rehearsed day that offers NEXT MORNING once it is closed, and is the next day of its job from then on.
 * @param forward moves the clock on, ms
 */
export function goingOn(
	opened: Session,
	{ clock, forward, days }: { clock: Clock; forward(by_ms: number): void; days: RehearsedDays },
): GoingOn {
	let day = opened;
	const listeners = new Set<(made: readonly DayRecord[]) => void>();
	const listen = () =>
		void day.onChange(made => {
			for (const changed of listeners) changed(made);
		});
	listen();
	const isClosed = () => day.state().machine.value === 'closed';
	/** Worked out once a day and morning: a closed day says the same until the clock has come to the next. */
	let worked: { state: DayState; morning: number; at: number | null } | null = null;
	const nextAt = (): number | null => {
		const [state, morning] = [day.state(), morningOf(days.began(), clock.now().wall)];
		if (worked?.state !== state || worked.morning !== morning) {
			const before = historyIn(state);
			const first = (at: number) => openingRecord({ ...days.next, before }, { wall: at, mono: 0 });
			const at = morningAfter(first, days.next.job, days.began(), clock.now().wall);
			worked = { state, morning, at };
		}
		return worked.at;
	};
	const begin = (at: number): Outcome => {
		const { wall, mono, up } = clock.now();
		const by_ms = at - wall;
		let sink: Sink;
		try {
			sink = days.begin({ wall: at, mono: mono + by_ms, ...(up !== undefined && { up: up + by_ms }) });
		} catch (error) {
			if (error instanceof DayFileError) {
				const { code, say } = farWordsOf(error, '');
				return refused(code, say);
			}
			throw error;
		}
		day.close();
		forward(by_ms);
		day = openSession({ sink, clock, rehearsal: true });
		listen();
		return { accepted: true, records: [...day.opening] };
	};
	const morning = (): Outcome => {
		if (!isClosed()) return refused('day-open', 'The day is open: close it first.');
		const at = nextAt();
		return at === null ? refused('nothing-left', 'Nothing is left to do on this job.') : begin(at);
	};
	return {
		get opening() {
			return day.opening;
		},
		view() {
			const view = day.view();
			if (!isClosed() || nextAt() === null) return view;
			return { ...view, corners: { ...view.corners, [place]: nextMorning } };
		},
		answer: given =>
			isClosed() && nextAt() !== null && 'key' in given && given.key === place
				? morning()
				: day.answer(given),
		morning,
		state: () => day.state(),
		break: kind => day.break(kind),
		trigger: on => day.trigger(on),
		tick: () => day.tick(),
		unkept: () => day.unkept(),
		onChange(changed) {
			listeners.add(changed);
			return () => listeners.delete(changed);
		},
		close: () => day.close(),
	};
}
