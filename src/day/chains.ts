import type { Glimpse } from './file/glimpse.ts';

/** What orders the days of one job name. */
export type Place = Pick<Glimpse, 'began' | 'ended' | 'before' | 'after' | 'firsts'>;

type Placed = { readonly place: Place };

const byInstant = (one: string, other: string): number => Date.parse(one) - Date.parse(other);

/** Within a job coats and letters only grow; where they do not, the clock says which was first. */
const byContent = ({ place: one }: Placed, { place: other }: Placed): number =>
	one.before - other.before || one.after - other.after || byInstant(one.began, other.began);

/**
 * The days of one job name in the order in which they follow each other, oldest first: one row a job, where a name was
 * used again. What a clock said counts only where coats and letters do not tell.
 */
export function chainsOf<Day extends Placed>(days: readonly Day[]): Day[][] {
	const rowOf = new Map<string, Set<Day>>();
	for (const day of days) {
		const row = new Set([day]);
		for (const first of day.place.firsts) for (const met of rowOf.get(first) ?? []) row.add(met);
		for (const { place } of row) for (const first of place.firsts) rowOf.set(first, row);
	}
	const rows = [...new Set(rowOf.values())].map(row => [...row]);
	const bare = days.filter(({ place }) => place.firsts.length === 0).map(day => [day]);
	/** A job on which nothing was laid yet is no later one for that. */
	const isBare = (row: readonly Day[]) => Number(row.every(({ place }) => place.firsts.length === 0));
	const endOf = (row: readonly Day[]) => row.at(-1)?.place.ended ?? '';
	return [...bare, ...rows]
		.map(row => row.toSorted(byContent))
		.sort((one, other) => isBare(other) - isBare(one) || byInstant(endOf(one), endOf(other)));
}
