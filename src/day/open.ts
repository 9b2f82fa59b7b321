import type { Checklist } from '../job/checklist.ts';
import type { Job } from '../job/job.ts';
import type { Rates } from '../plan/pace.ts';
import { type CanMarks, cansOf } from './asks/cans.ts';
import { isoAt } from './instant.ts';
import type { Shown } from './passed.ts';
import type { DayRecord, EventOf, Follows } from './records.ts';
import type { Settings } from './settings.ts';

export type Opening = {
	job: Job;
	lists: readonly Checklist[];
	settings: Settings;
	clock: 'real' | 'moved';
	program: string;
	before: EventOf<'day.opened'>['before'];
	/** Of which job the day is, by its first day, and which days it rests on; null: it is a first one. */
	follows?: Follows | null;
	/** What the shelf has become, and is turned down for this job. */
	turnedDown?: string | undefined;
	/** What the shop's own days have shown; none: the sheet's figures hold. */
	rates?: Rates | undefined;
	/** Marks that the shop's cans have from earlier jobs. */
	marks?: CanMarks;
	zone: string;
	seed?: number | undefined;
};

/** The first record of a day: everything that the day rests on, in full. */
export function openingRecord(
	{
		job,
		lists,
		settings,
		clock,
		program,
		before,
		follows,
		turnedDown,
		rates,
		zone,
		seed = 0,
		marks,
	}: Opening,
	{ wall, mono, up }: Omit<Shown, 'run'>,
): DayRecord {
	return {
		seq: 1,
		run: 1,
		at: isoAt(wall),
		mono,
		...(up !== undefined && { up }),
		type: 'day.opened',
		v: 2,
		program,
		job: job.name,
		sheet: job,
		lists: [...lists],
		settings,
		clock,
		zone,
		cans: cansOf(job, marks),
		seed,
		before,
		...follows,
		...(turnedDown !== undefined && { turnedDown }),
		...(rates && Object.keys(rates).length > 0 && { rates }),
	};
}
