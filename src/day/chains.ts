import type { Glimpse } from './file/glimpse.ts';

/** What orders the days of one job name. */
export type Place = Pick<
	Glimpse,
	'id' | 'of' | 'restsOn' | 'began' | 'ended' | 'before' | 'after' | 'firsts'
>;

type Placed = { readonly place: Place };

const byInstant = (one: string, other: string): number => Date.parse(one) - Date.parse(other);

/** Within a job coats and letters only grow; where they do not, the clock says which was first. */
const byContent = ({ place: one }: Placed, { place: other }: Placed): number =>
	one.before - other.before || one.after - other.after || byInstant(one.began, other.began);

/** What days of one job share: its id, or one that rests on the other, or, in older files, the first coat of a face. */
const sharedBy = ({ place: { id, of, restsOn, firsts } }: Placed): string[] => [
	...[id, of ?? id],
	...[...restsOn, ...firsts],
];

/** Days that share something, or share it with days between, one row a job. */
function rowsOf<Day extends Placed>(days: readonly Day[]): Set<Day>[] {
	const rowOf = new Map<string, Set<Day>>();
	const add = (row: Set<Day>, day: Day) => {
		row.add(day);
		for (const shared of sharedBy(day)) rowOf.set(shared, row);
	};
	for (const day of days) {
		const met = new Set(sharedBy(day).flatMap(shared => rowOf.get(shared) ?? []));
		const row = [...met].reduce((one, other) => (other.size > one.size ? other : one), new Set<Day>());
		for (const other of met) if (other !== row) for (const one of other) add(row, one);
		add(row, day);
	}
	return [...new Set(rowOf.values())];
}

const byId = <Day extends Placed>(row: Iterable<Day>): Map<string, Day> =>
	new Map([...row].map(day => [day.place.id, day]));

/** A day stands behind every one that it rests on; where that does not tell, by its content. */
function inLine<Day extends Placed>(row: Iterable<Day>): Day[] {
	const [days, line, met] = [byId(row), new Set<Day>(), new Set<Day>()];
	const under = ({ place }: Day) => place.restsOn.flatMap(id => days.get(id) ?? []);
	for (const day of [...row].sort(byContent)) {
		const waiting = [day];
		for (let last = waiting.at(-1); last; last = waiting.at(-1)) {
			if (!met.has(last)) {
				met.add(last);
				waiting.push(...under(last).filter(one => !met.has(one)));
			} else {
				waiting.pop();
				line.add(last);
			}
		}
	}
	return [...line];
}

/**
 * The days of one job name in the order in which they follow each other, oldest first: one row a job, where a name was
 * used again. What a clock said counts only where neither what they rest on nor coats and letters tell.
 */
export function chainsOf<Day extends Placed>(days: readonly Day[]): Day[][] {
	/** A job on which nothing was laid yet is no later one for that. */
	const isBare = (row: readonly Day[]) => Number(row.every(({ place }) => place.firsts.length === 0));
	const endOf = (row: readonly Day[]) => row.at(-1)?.place.ended ?? '';
	return rowsOf(days)
		.map(inLine)
		.sort((one, other) => isBare(other) - isBare(one) || byInstant(endOf(one), endOf(other)));
}

/** A day and all that it rests on, as far as their files lie here. */
function reachedFrom<Day extends Placed>(day: Day, days: ReadonlyMap<string, Day>): Set<string> {
	const reached = new Set([day.place.id]);
	for (const id of reached) for (const under of days.get(id)?.place.restsOn ?? []) reached.add(under);
	return reached;
}

/**
 * Two days of a job that follow the same day, neither of them the other, and that no later day rests on both of: what
 * each laid the other does not count. Older days do not say what they follow.
 * @param row one job, as `chainsOf` gives it
 */
export function forkIn<Day extends Placed>(row: readonly Day[]): [Day, Day] | null {
	const days = byId(row);
	const next = new Map<string, Day[]>();
	for (const day of days.values())
		for (const id of day.place.restsOn) {
			const others = next.get(id) ?? [];
			const apart = others.find(other => !row.some(one => knowsBoth(one, [other, day], days)));
			if (apart) return [apart, day];
			next.set(id, [...others, day]);
		}
	return null;
}

function knowsBoth<Day extends Placed>(
	day: Day,
	two: readonly [Day, Day],
	days: ReadonlyMap<string, Day>,
): boolean {
	const reached = reachedFrom(day, days);
	return two.every(({ place }) => reached.has(place.id));
}
