import { contextOf, type Moment } from '../moment.ts';
import type { EventOf, ReadingFeature } from '../records.ts';

type Taken = EventOf<'reading.taken'>;

/** A reading as it is recorded: what was keyed beside what was wanted, within the check under way if there is one. */
export function reading(
	moment: Moment,
	feature: ReadingFeature,
	value: string | number,
	wanted: Taken['wanted'],
	more: Partial<Taken> = {},
): Taken {
	const { check, attempts } = moment.state.book;
	const inList = contextOf(moment).check !== null;
	return {
		type: 'reading.taken',
		feature,
		value,
		wanted,
		matched: wanted === null || (Array.isArray(wanted) ? wanted.includes(String(value)) : value === wanted),
		attempt: (inList ? (check?.attempts ?? 0) : attempts) + 1,
		check: inList ? (check?.no ?? null) : null,
		face: inList ? (check?.face ?? null) : null,
		coat: inList ? (check?.coat ?? null) : null,
		batch: null,
		...more,
	};
}
