import { windowReasoned } from '../../machines/face.ts';
import { isShutPart, isWet, reworkDue, stopsAt, waitEnds } from '../../src/day/allowed.ts';
import { historyAfter } from '../../src/day/history.ts';
import { instantAfter, sameClocks, shownBy } from '../../src/day/instant.ts';
import type { Moment } from '../../src/day/moment.ts';
import { type FaceNow, faceNows, nowAfter, standsAt, withWindows } from '../../src/day/now.ts';
import type { DayRecord } from '../../src/day/records.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import { type DayState, fold } from '../../src/day/state.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { type Days, playDay } from './by-chance/days.ts';
import { type Chance, chanceOf } from './keys/chance.ts';

/**
 * `fanwise now` beside days by chance. On every face: behind every line that wrote anything or let time pass, and so at
 * each reopening, it says what the day's own stops and the timers on the screen say; what the day then takes (a pass, a
 * step, a reason, a wait, a line of its own) it has just said; a later instant it tells as a day finds it that was left
 * there and opened then; and between two days, as the next day finds it once its air is read.
 */

export type Agreed = {
	days: number;
	/** Faces asked of behind a line; records taken; timers shown; faces asked of later, and between two days. */
	asked: number;
	taken: number;
	timers: number;
	later: number;
	between: number;
	says: string[];
};

type Day = ReturnType<typeof rehearsed>;
type Next = FaceNow['next'];

const fromOf = (next: Next): number | null => ('from' in next ? next.from : null);

const isFrom = (next: Next, due: number | null): boolean => {
	const from = fromOf(next);
	return from === null || due === null ? from === due : Math.abs(from - due) <= 1;
};

/** A half coat is gone on with for as long as its edge is wet, and a moment later no more. */
const isWetUntil = ({ state, now }: Moment, id: string, until: number | null): boolean => {
	const wetAt = (ms: number) => isWet({ state, now: sameClocks(now, ms) }, id);
	return until !== null && wetAt(until - 2) && !wetAt(until + 2);
};

/** Whether what `now` says of a face is what its stops in the day ask for, from when the day would have it. */
function fits(next: Next, moment: Moment, id: string): boolean {
	const stops = stopsAt(moment, id);
	const aside = stops.find(stop => stop.by === 'aside');
	if (aside?.by === 'aside' && aside.step === null) return next.may === 'beside';
	if (aside?.by === 'aside')
		return next.may === 'rework' && next.step === aside.step && isFrom(next, reworkDue(moment, id).due);
	if (stops.some(({ by }) => by === 'coats'))
		return next.may === 'nothing' || (next.may === 'prep' && next.for === null);
	const window = stops.find(stop => stop.by === 'window');
	const isWait = window?.by === 'window' && window.is === 'wait';
	const isShut = window !== undefined && !isWait;
	const prep = stops.find(stop => stop.by === 'prep' || (stop.by === 'tack' && !isShut));
	const due = isWait ? waitEnds(moment, id) : moment.now.wall;
	if (due === null || isShutPart(moment, id)) return next.may === 'sand' && next.from === null;
	if (prep && 'step' in prep) return next.may === 'prep' && next.step === prep.step && isFrom(next, due);
	if (isWait) return (next.may === 'wait' || next.may === 'sand') && isFrom(next, due);
	if (window?.by === 'window') return next.may === 'sand' && next.step === window.is && isFrom(next, due);
	if (next.may !== 'spray') return false;
	return isWet(moment, id)
		? isWetUntil(moment, id, next.until)
		: next.until === null || next.until >= moment.now.wall;
}

/** Longest that a face may still have to wait which is prepared after another of its part, by its turn: three times their spraying. */
const turn_ms = 6 * 60_000;

/** What the day takes of a face is what `now` has just said of it. */
function foretold({ next }: FaceNow, record: DayRecord, at: number): boolean {
	const from = fromOf(next);
	const isNow = from !== null && from <= at;
	switch (record.type) {
		case 'stage.done': {
			const isByTurn = from !== null && from <= at + turn_ms;
			return isByTurn && (next.may === 'prep' || next.may === 'sand') && next.step === record.stage;
		}
		case 'face.started':
			return next.may === 'spray' && next.coat === record.coat;
		case 'rework.done':
			return isNow && next.may === 'rework' && next.step === record.step;
		case 'wait.began':
			if (from === null) return false;
			/** Dust waits for other coats that are wet, too. */
			if (record.why === 'flash' && from < Date.parse(record.due)) return true;
			return Math.abs(from - Date.parse(record.due)) <= 1;
		case 'override.given':
			if (record.rule === 'prep') return next.may === 'prep' && next.step === record.step;
			if (record.rule === 'coats') return next.may === 'nothing';
			if (record.rule !== 'window') return true;
			return record.window === 'wait' ? !isNow && next.may !== 'spray' : next.may === 'sand';
		default:
			return true;
	}
}

/** The records that `now` foretells, with the face that they are of. */
function faceToldOf(record: DayRecord): string | null {
	switch (record.type) {
		case 'stage.done':
		case 'face.started':
		case 'override.given':
			return record.face;
		case 'rework.done':
			return record.step === 'respray' || record.step === 'no-coat' ? null : record.face;
		case 'wait.began':
			return ['window', 'flash', 'rework'].includes(record.why) ? record.face : null;
		default:
			return null;
	}
}

/** The edge of a recoat window that `now` tells; null: its words have none. */
const edgeOf = (code: string, next: Next): number | null =>
	code === 'closes' && next.may === 'spray' ? next.until : code === 'opens' ? fromOf(next) : null;

/**
 * The edges of recoat windows on the screen are those that `now` tells. Under a reason a face is worked on before its
 * window opens; and a wait that has begun ends when it was told to, also where the clock was set since.
 */
function timersDiffer(faces: readonly FaceNow[], line: Line, { machine }: DayState, sum: Agreed): string[] {
	return line.timers.flatMap(({ code, face, due }) => {
		const next = faces.find(one => one.face === face)?.next;
		const edge = next ? edgeOf(code, next) : null;
		const state = machine.context.faces.find(one => one.context.rules.id === face);
		const isReasoned = code === 'opens' && state !== undefined && windowReasoned(state.context);
		if (edge === null || isReasoned) return [];
		sum.timers++;
		return Math.abs(edge - Date.parse(due)) <= 1
			? []
			: [`${face} ${code} ${due}, not ${JSON.stringify(next)}`];
	});
}

/** A pass under way, or broken off, is no coat to be begun: what the face may get is not known. */
const isBegun = ({ machine }: DayState, id: string): boolean =>
	machine.context.faces.some(
		face => face.context.rules.id === id && (face.matches('spraying') || face.matches('broken')),
	);

/** Faces of which `now` says something else than the stops of a day as it stands. */
export function differ(faces: readonly FaceNow[], state: DayState, at: number): string[] {
	const { wall, mono, run } = state.book.now;
	const now = instantAfter(state.book.now, { wall: at, mono: mono + at - wall, run });
	return faces.flatMap(({ face, next }) => {
		const agrees = isBegun(state, face) ? next.may === 'begun' : fits(next, { state, now }, face);
		return agrees
			? []
			: [`${face}: ${JSON.stringify(next)}, not ${JSON.stringify(stopsAt({ state, now }, face))}`];
	});
}

const minute_ms = 60_000;
const hour_ms = 60 * minute_ms;
const spans_ms = [minute_ms, 12 * minute_ms, 50 * minute_ms, 2 * hour_ms, 5 * hour_ms, 20 * hour_ms];

/** A later instant: as a day tells it that was left here and opened again, and as it finds it once it is come. */
function later(day: Day, span_ms: number): string[] {
	const again = rehearsed({ job: day.job, left: day.left() });
	const opened = again.state();
	again.send(`wait ${span_ms / minute_ms} min`);
	const at = Date.parse(again.line().at);
	const told = faceNows(standsAt(opened, at));
	const found = faceNows(standsAt(again.state(), at));
	const differs = told.filter((one, index) => JSON.stringify(one) !== JSON.stringify(found[index]));
	return [
		...differ(told, again.state(), at),
		...differs.map(one => `${one.face} otherwise once waited for: ${JSON.stringify(one)}`),
	].map(text => `${span_ms / minute_ms} min later: ${text}`);
}

/** Between two days, as the next finds its faces once the air is read. */
function between(
	days: Days,
	job: Day['job'],
	records: readonly DayRecord[],
	gap_ms: number,
	sum: Agreed,
): string[] {
	const at = Date.parse(records.at(-1)?.at ?? '') + gap_ms;
	const before = historyAfter(records);
	const next = rehearsed({ job, lists: days.lists, before, at });
	for (
		let count = 0;
		count < 60 && next.line().ask !== 'closed' && next.ofType('air.read').length === 0;
		count++
	) {
		const line = next.painter.answer(next.line());
		if (line === null) break;
		next.send(line);
	}
	const read = Date.parse(next.line().at);
	const sets = next.ofType('window.set');
	const faces = nowAfter(records, read).filter(({ face }) => {
		const carried = before.faces[face]?.coats.at(-1)?.surfaceC;
		return carried === undefined || sets.some(set => set.face === face && set.surfaceC === carried);
	});
	const isAsLeft = !next.records().some(({ type }) => type === 'rework.done' || type === 'stage.done');
	if (next.ofType('air.read').length === 0 || !isAsLeft) return [];
	sum.between += faces.length;
	return differ(faces, next.state(), read).map(text => `between days: ${text}`);
}

/** Lines before a day is left as it stands. */
const longest = 500;

/** How often a later instant is asked of, a line. */
const oftenLater = 0.02;

/** A day followed line by line. */
function follower(chance: Chance, sum: Agreed, says: (text: string) => void) {
	let state: DayState | null = null;
	let read = 0;
	let seen = 0;
	const take = (record: DayRecord) => {
		const face = state && faceToldOf(record);
		if (state && face) {
			const now = instantAfter(state.book.now, shownBy(record));
			const told = faceNows(withWindows({ state, now })).find(one => one.face === face);
			sum.taken++;
			if (told && !foretold(told, record, now.wall))
				says(`${record.type} ${JSON.stringify(record)} after ${JSON.stringify(told.next)}`);
		}
		state = fold(state, record);
	};
	return (day: Day) => {
		const at = Date.parse(day.line().at);
		if (day.keys.length === read && at === seen) return;
		for (const key of day.keys.slice(read)) for (const record of key) take(record);
		read = day.keys.length;
		seen = at;
		if (state === null || state.machine.value === 'closed') return;
		const faces = faceNows(standsAt(state, at));
		/** Until the air is read no day knows the windows of the coats that it began with. */
		const known = faces.filter(({ coats }) => coats === 0 || day.state().book.air !== null);
		sum.asked += known.length;
		for (const text of differ(known, day.state(), at)) says(text);
		for (const text of timersDiffer(known, day.line(), day.state(), sum)) says(text);
		if (known.length < faces.length || chance.next() >= oftenLater) return;
		sum.later += faces.length;
		for (const text of later(day, chance.pick(spans_ms))) says(text);
	};
}

export const noneAgreed: Agreed = { days: 0, asked: 0, taken: 0, timers: 0, later: 0, between: 0, says: [] };

/** Days with the seeds `from`, `from` + 1 …; of each that was closed, what comes between it and the next. */
export function agreedOn(days: Days, from: number, count: number): Agreed {
	const sum: Agreed = { ...noneAgreed, says: [] };
	for (let seed = from; seed < from + count && sum.says.length < 20; seed++) {
		const says = (text: string) => void sum.says.push(`day ${seed}: ${text}`);
		const chance = chanceOf(seed * 104_729 + 7);
		const { records } = playDay(days, seed, longest, { each: follower(chance, sum, says) });
		const job = days.jobs[seed % days.jobs.length];
		if (job && records.at(-1)?.type === 'day.closed')
			for (const text of between(days, job, records, chance.pick([1, 14]) * hour_ms, sum)) says(text);
		sum.days++;
	}
	return sum;
}
