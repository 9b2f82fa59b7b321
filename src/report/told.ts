import type { DayRecord } from '../day/records.ts';
import type { UnitSystem } from '../trade/quantity.ts';
import { clockOn } from '../words/clock.ts';
import { shortFace } from '../words/spoken.ts';
import { type Day, dayOf } from './tables/day.ts';
import { type Rows, rowsOf } from './tables/tables.ts';
import { usableZone } from './times.ts';
import type { Traced } from './traced.ts';

/** A day as its sentences are made: what is counted comes from the tables, as in every other form of the report. */
export type Told = {
	day: Day;
	rows: Rows;
	units: UnitSystem;
	zone: string;
	/** Of the faults seen; none where they are not asked for. */
	traces: readonly Traced[];
};

/** @throws RangeError where the records do not begin with `day.opened` */
export function toldOf(
	records: readonly DayRecord[],
	units: UnitSystem,
	traces: (rows: Rows) => readonly Traced[] = () => [],
): Told {
	const day = dayOf(records);
	const rows = rowsOf(day);
	return { day, rows, units, zone: usableZone(rows.day.zone), traces: traces(rows) };
}

export const many = (count: number, one: string, more = `${one}s`): string =>
	`${count} ${count === 1 ? one : more}`;

/** How an instant is said: with its date where that is another than the day's. */
export const clockOf =
	({ rows, zone }: Told) =>
	(at: string): string =>
		clockOn(Date.parse(at), Date.parse(rows.day.opened), zone);

type Spot = { face?: string | null | undefined; coat?: number | null | undefined };

/** Face and coat of a row, beside what else is said of it. */
export function where({ face, coat }: Spot, ...beside: string[]): string {
	if (!face) return '';
	const layer = coat ? `coat ${coat}` : '';
	const name = shortFace(face, layer, ...beside);
	return layer === '' ? name : `${name}, ${layer}`;
}
