import { type Book, openBook } from '../../day/book.ts';
import { enter } from '../../day/enter.ts';
import type { DayRecord, EventOf, EventType } from '../../day/records.ts';
import type { Face, Job } from '../../job/job.ts';
import { type RecordOf, ofType as typed } from '../../records/of-type.ts';

/** A day as the tables read it: its records, its sheet, and the book at its end. */
export type Day = {
	records: readonly DayRecord[];
	opened: RecordOf<'day.opened'>;
	job: Job;
	book: Book;
};

/**
 * A day from its records, as `loadDay` returns them.
 * @throws RangeError where they do not begin with `day.opened`
 */
export function dayOf(records: readonly DayRecord[]): Day {
	const [opened, ...rest] = records;
	if (opened?.type !== 'day.opened')
		throw new RangeError('these are no records of a day: day.opened is missing');
	const book = rest.reduce((sum, record) => enter(sum, record, ''), openBook(opened));
	return { records, opened, job: opened.sheet, book };
}

export const ofType = <Type extends EventType>({ records }: Day, type: Type): RecordOf<Type>[] =>
	typed(records, type);

export const ms = (iso: string): number => Date.parse(iso);
export const iso = (at_ms: number): string => new Date(at_ms).toISOString();
export const seconds = (from: string, to: string): number => Math.max(0, ms(to) - ms(from)) / 1000;

export const faceIn = (job: Job, id: string): Face | undefined => job.faces.find(face => face.id === id);

/** What the sheet plans for a coat; one beyond the plan repeats the last. */
export function plannedCoat(job: Job, id: string, coat: number) {
	const coats = faceIn(job, id)?.coats ?? [];
	return coats[coat - 1] ?? coats.at(-1);
}

/** When the painter closed the day; entries after that were added later. */
export const closedAt = (day: Day): string | null => ofType(day, 'day.closed')[0]?.at ?? null;

export type Air = EventOf<'air.read'>;
