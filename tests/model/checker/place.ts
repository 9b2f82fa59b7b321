import { elapsed, type Step } from './day.ts';
import type { Moment } from './notes.ts';
import type { Told } from './told.ts';

/** A step on a list, its place there, and the hours that the sheet has the work wait behind it. */
type Listed = Step & { place: number; then_h: number };
/** A wait of the sheet that is running, and what it stands behind. */
type Wait = { from: Moment; hours: number; behind: string };

/** How far a list is struck off, the wait that runs, and what was wrong with the telling. */
export type Progress = { list: Listed[]; left: Listed[]; wait: Wait | null; wrong: string[] };

const hour_ms = 3_600_000;
const slack_ms = 1000;

/** A list before its first step, behind a wait or none. */
export function freshList(steps: Step[], wait: Wait | null): Progress {
	const list = steps.map((step, place) => ({ ...step, place, then_h: step.then_h ?? 0 }));
	return { list, left: list, wait, wrong: [] };
}

/** What is wrong where work goes on at a moment: the wait before it is not over. */
export function tooSoon({ wait }: Progress, at: Moment, early_ms: number, what: string): string[] {
	if (!wait) return [];
	const gone_ms = elapsed(wait.from, at).least;
	return gone_ms + early_ms + slack_ms < wait.hours * hour_ms
		? [`${what} ${(gone_ms / 60_000).toFixed(1)} min into the wait of ${wait.hours} h behind ${wait.behind}`]
		: [];
}

/** The list begins anew behind the line of a face with a fault, which has done of it what comes first; what was told before is past. */
function reworked({ list }: Progress): Progress {
	const left = ['sand', 'wipe', 'tack'].reduce(
		(rest, step) => (rest[0]?.step === step ? rest.slice(1) : rest),
		list,
	);
	return { list, left, wait: null, wrong: [] };
}

const behind = ({ step, then_h }: Listed, at: Moment | null): Wait | null =>
	at && then_h > 0 ? { from: at, hours: then_h, behind: step } : null;

/**
 * A list with one thing told struck off it.
 * @param isHurried whether the painter gave a reason not to wait, by the moment of the work
 */
export function struck(now: Progress, told: Told, isHurried: (at: Moment) => boolean): Progress {
	if (told.is === 'rework') return reworked(now);
	const { step, place, at } = told;
	if (place === null) return now;
	if (typeof place !== 'number')
		return { ...now, left: now.left.filter(one => step !== undefined && one.step !== step), wait: null };
	const from = told.is === 'earlier' ? now.left.findIndex(one => one.place === place) : 0;
	const next = now.left[from];
	if (next?.step !== step || next?.place !== place) {
		const wanted = next ? `${next.step} at place ${next.place}` : 'nothing';
		return { ...now, wrong: [...now.wrong, `${step} is told of place ${place}, wanted was ${wanted}`] };
	}
	const soon =
		told.is === 'step' && at && !isHurried(at) ? tooSoon(now, at, told.early_ms, `${step} is done`) : [];
	return { ...now, left: now.left.slice(from + 1), wait: behind(next, at), wrong: [...now.wrong, ...soon] };
}
