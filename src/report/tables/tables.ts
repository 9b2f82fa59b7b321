import type { DayRecord } from '../../day/records.ts';
import { type BatchRow, batchRows } from './batches.ts';
import { type CoatRow, coatRows } from './coats.ts';
import { type Coming, comingOf } from './coming.ts';
import { type Counts, countsOf } from './counts.ts';
import { closedAt, type Day, dayOf } from './day.ts';
import { type FilmRow, filmRows } from './film.ts';
import {
	type AirRow,
	type AsideRow,
	airRows,
	asideRows,
	type BreakRow,
	breakRows,
	type FaultRow,
	faultRows,
	type WaitRow,
	type WorkRow,
	waitRows,
	workRows,
} from './happenings.ts';
import { type MapRow, mapRows } from './map.ts';
import { type DueRow, dueRows } from './next.ts';
import {
	type CheckRow,
	checkRows,
	type DifferedRow,
	differedRows,
	type FirstRow,
	firstRows,
	type ItemRow,
	itemRows,
	type OverrideRow,
	overrideRows,
} from './readings.ts';
import { type WindowRow, windowRows } from './windows.ts';

/** Everything that a report says of a day, worked out once for all its forms. Instants ISO 8601 UTC, SI units. */
export type Tables = {
	day: {
		job: string;
		zone: string;
		clock: 'real' | 'moved';
		program: string;
		opened: string;
		closed: string | null;
		why: string | null;
	};
	coats: CoatRow[];
	film: FilmRow[];
	map: MapRow[];
	windows: WindowRow[];
	due: DueRow[];
	/** What comes next, faces to which the same does together. */
	coming: Coming[];
	batches: BatchRow[];
	checks: CheckRow[];
	items: ItemRow[];
	differed: DifferedRow[];
	first: FirstRow[];
	overrides: OverrideRow[];
	air: AirRow[];
	breaks: BreakRow[];
	waits: WaitRow[];
	faults: FaultRow[];
	aside: AsideRow[];
	work: WorkRow[];
	/** Every figure that is said of the whole day. */
	counts: Counts;
};

/** … without the film over each face, which takes longest to work out. */
export type Rows = Omit<Tables, 'map'>;

function headOf(day: Day): Tables['day'] {
	const { job, zone, clock, program, at } = day.opened;
	const closed = day.records.find(record => record.type === 'day.closed');
	return {
		job,
		zone,
		clock,
		program,
		opened: at,
		closed: closedAt(day),
		why: closed?.type === 'day.closed' ? closed.why : null,
	};
}

/** What is said of a day in figures and sentences. */
export function rowsOf(day: Day): Rows {
	const coats = coatRows(day);
	const windows = windowRows(day, coats);
	const due = dueRows(day, windows);
	const rows = {
		day: headOf(day),
		coats,
		film: filmRows(day, coats),
		windows,
		due,
		coming: comingOf(day, { windows, due }, closedAt(day) ?? day.records.at(-1)?.at ?? day.opened.at),
		batches: batchRows(day),
		checks: checkRows(day),
		items: itemRows(day),
		differed: differedRows(day),
		first: firstRows(day),
		overrides: overrideRows(day),
		air: airRows(day),
		breaks: breakRows(day),
		waits: waitRows(day),
		faults: faultRows(day),
		aside: asideRows(day),
		work: workRows(day),
	};
	return { ...rows, counts: countsOf(day, rows) };
}

/**
 * The tables of a day.
 * @param records as `loadDay` returns them
 * @throws RangeError where they do not begin with `day.opened`
 */
export function tablesOf(records: readonly DayRecord[]): Tables {
	const day = dayOf(records);
	const rows = rowsOf(day);
	return { ...rows, map: mapRows(day, rows.film) };
}
