import { daysOfJob, loadDay } from '../day/file/days.ts';
import { daysFolder, listDays } from '../day/file/folder.ts';
import { glimpseDay } from '../day/file/glimpse.ts';
import { readBytes } from '../day/file/store.ts';
import { readSums } from '../day/file/sums.ts';
import { asDay, DayFileError } from '../day/file/trouble.ts';
import { type FaceNow, nowAfter } from '../day/now.ts';
import type { JobToPick } from '../screen/picker.ts';
import { clockOn } from '../words/clock.ts';

/** No more jobs are looked through before the first question. This project's own choice. */
const mostJobs = 12;

type Due = { what: string; from: number };

/** What a face wants next, and from when; null: nothing, or nothing that a new day could do. */
function dueOf({ next }: FaceNow, now: number): Due | null {
	if (next.may === 'nothing' || next.may === 'beside') return null;
	if (next.may === 'spray') return { what: `spray ${next.material}`, from: now };
	if (next.may === 'begun') return { what: `coat ${next.coat}, broken off`, from: now };
	const what = next.may === 'wait' ? `coat ${next.coat}` : next.step;
	return { what, from: next.from ?? Number.POSITIVE_INFINITY };
}

/** Where the newest day of a job left it; null: nothing is to come. */
function soonest(path: string, now: number): Due | null {
	const faces = asDay(path, () => nowAfter(loadDay(path), now));
	const due = faces.flatMap(face => dueOf(face, now) ?? []);
	return due.toSorted((one, other) => one.from - other.from)[0] ?? null;
}

function said({ what, from }: Due, nth: number, now: number, zone: string): string {
	const when = from <= now ? 'now' : `from ${clockOn(from, now, zone)}`;
	return `day ${nth}: ${what} ${Number.isFinite(from) ? when : 'once hard'}`;
}

/**
 * Jobs whose days are all closed and that have work to come, soonest due first, wherever their sheets lie: what is to be
 * done is told by their newest day.
 * @param open names of jobs that have a day open, which comes first
 * @param now ms since 1970
 */
export function jobsToGoOn(
	open: readonly string[],
	now: number,
	zone: string,
	folder = daysFolder(),
): JobToPick[] {
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
	return found
		.toSorted((one, other) => one.due.from - other.due.from)
		.map(({ name, day, due, nth }) => ({ name, day, due: said(due, nth, now, zone) }));
}
