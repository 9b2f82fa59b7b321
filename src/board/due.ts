import { timerLine } from '../screen/captions.ts';
import { faceName } from '../words/say.ts';
import type { DayShown, ElsewhereShown, TimerShown } from './shown.ts';

/** What falls due, over all jobs. `at`: ms since 1970. */
export type Due = { job: string; says: string; at: number; zone: string | null; isLate: boolean };

const at = ({ due }: TimerShown): number => Date.parse(due);

/** One timer of a day in words, without its time where that runs. */
export function timerSays(timer: TimerShown, now: number, zone: string): string {
	const left_s = Math.max(0, Math.ceil((at(timer) - now) / 1000));
	const face = timer.face === null ? null : faceName(timer.face);
	return timerLine({ ...timer, face, left_s }, { at: new Date(now).toISOString(), zone });
}

/** What falls due of a day's timer: of a recoat window what it lets be done, of the others what ends. */
function dueSays(timer: TimerShown, now: number, zone: string): string {
	const { code, face, does } = timer;
	if (does === undefined || face === null)
		return timerSays(timer, now, zone).replace(/: \d[^:]*(?::\d\d)?$/, '');
	const work = does === 'spray' ? 'next coat' : does;
	return `${faceName(face)}: ${work}${code === 'closes' ? ', no later' : ''}`;
}

const ofDay = ({ job, zone, timers }: DayShown, now: number): Due[] =>
	timers
		.filter(timer => timer.code !== 'settle' && at(timer) > now)
		.map(timer => ({ job, zone, at: at(timer), isLate: false, says: dueSays(timer, now, zone) }));

/** What can be done at any time is not due: what opens is, and what closes. */
function ofJob({ job, what, from, until, isLate }: ElsewhereShown, now: number): Due[] {
	const due = { job, zone: null, isLate };
	if (isLate) return [{ ...due, says: `${what}: its window was missed`, at: from ?? now }];
	if (from !== null && from > now) return [{ ...due, says: what, at: from }];
	return until !== null && until > now ? [{ ...due, says: `${what}, no later`, at: until }] : [];
}

/** What falls due over all days and jobs, the most urgent first: a window missed, then the soonest. */
export const duesOf = (days: readonly DayShown[], jobs: readonly ElsewhereShown[], now: number): Due[] =>
	[...days.flatMap(day => ofDay(day, now)), ...jobs.flatMap(job => ofJob(job, now))].toSorted(
		(one, other) => Number(other.isLate) - Number(one.isLate) || one.at - other.at,
	);
