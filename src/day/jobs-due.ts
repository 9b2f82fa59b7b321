import { daysOfJob, loadDay } from './file/days.ts';
import { daysFolder, listDays } from './file/folder.ts';
import { glimpseDay } from './file/glimpse.ts';
import { readBytes } from './file/store.ts';
import { readSums } from './file/sums.ts';
import { asDay, DayFileError } from './file/trouble.ts';
import { type FaceNow, nowAfter } from './now.ts';

/** No more jobs are looked through before the first question. This project's own choice. */
const mostJobs = 12;

/** `until`: no later than that, ms; `isLate`: its window was missed, and it wants work that nobody planned. */
export type Due = { what: string; from: number; until: number; isLate: boolean };

/** What a face wants next, and from when; null: nothing, or nothing that a new day could do. */
function dueOf({ next }: FaceNow, now: number): Due | null {
	const never = Number.POSITIVE_INFINITY;
	const later = { until: never, isLate: false };
	switch (next.may) {
		case 'nothing':
		case 'beside':
			return null;
		case 'spray':
			return { ...later, what: `spray ${next.material}`, from: now, until: next.until ?? never };
		case 'begun':
			return { ...later, what: `coat ${next.coat}, broken off`, from: now };
		case 'wait':
			return { ...later, what: `coat ${next.coat}`, from: next.from, until: next.until ?? never };
		default:
			return { ...later, what: next.step, from: next.from ?? never, isLate: next.may === 'sand' };
	}
}

/** The most urgent first: late ones, then what is due soonest, then what must be done by the earliest hour. */
const byUrgency = (one: Due, other: Due): number =>
	Number(other.isLate) - Number(one.isLate) ||
	compare(one.from, other.from) ||
	compare(one.until, other.until);
const compare = (one: number, other: number): number => (one === other ? 0 : one < other ? -1 : 1);

/** Where the newest day of a job left it; null: nothing is to come. */
function soonest(path: string, now: number): Due | null {
	const faces = asDay(path, () => nowAfter(loadDay(path), now));
	const due = faces.flatMap(face => dueOf(face, now) ?? []);
	return due.toSorted(byUrgency)[0] ?? null;
}

/** What comes next of a job, the path of its newest day, and which day of it the next one is. */
export type JobDue = { name: string; day: string; due: Due; nth: number };

/**
 * Jobs whose days are all closed and that have work to come, the most urgent first, wherever their sheets lie: what is to be
 * done is told by their newest day.
 * @param open names of jobs that have a day open
 * @param now ms since 1970
 */
export function jobsDue(open: readonly string[], now: number, folder = daysFolder()): JobDue[] {
	const listed = listDays(folder);
	const names = new Set<string>();
	for (const { path, size } of listed) {
		const day = readSums(path, undefined, size)?.glimpse ?? glimpseDay(readBytes(path));
		if (day?.clock === 'real' && !open.includes(day.job)) names.add(day.job);
		if (names.size >= mostJobs) break;
	}
	const found = [...names].flatMap(name => {
		const days = daysOfJob(folder, name, undefined, listed);
		const [newest] = days;
		try {
			const due = newest && soonest(newest.path, now);
			return newest && due ? [{ name, day: newest.path, due, nth: days.length + 1 }] : [];
		} catch (error) {
			if (!(error instanceof DayFileError)) throw error;
			return [];
		}
	});
	return found.toSorted((one, other) => byUrgency(one.due, other.due));
}
