import type { Lost } from '../day/file/lost.ts';
import type { DayRecord } from '../day/records.ts';
import type { FaultData } from '../trace/faults.ts';
import type { UnitSystem } from '../trade/quantity.ts';
import { csv, type SheetName } from './csv.ts';
import { ics } from './ics.ts';
import { json } from './json.ts';
import type { Report } from './page/context.ts';
import { page } from './page/page.ts';
import { timelineFaces } from './pictures/timeline.ts';
import { dayOf } from './tables/day.ts';
import { tablesOf } from './tables/tables.ts';
import { timesOf } from './times.ts';
import { tracesOf } from './traced.ts';

export const endings = ['html', 'csv', 'ics', 'json'] as const;
export type Ending = (typeof endings)[number];

export type Asked = {
	/** The day in question, and every day that may bear on its faults, oldest first, itself the last. */
	day: readonly DayRecord[];
	days: readonly (readonly DayRecord[])[];
	/** What its disk has lost of it; left out: nothing. */
	lost?: readonly Lost[];
	faults: FaultData;
	/** Left out: the units of the day's own settings. */
	units?: UnitSystem | undefined;
	/** The table that a `.csv` holds. */
	sheet: SheetName;
};

function reportOf({ day: records, days, lost = [], faults, units }: Asked): Report {
	const day = dayOf(records);
	const tables = tablesOf(records);
	const { settings } = day.opened;
	const known = [...day.job.faces.map(({ id }) => id), ...new Set(tables.coats.map(({ face }) => face))];
	return {
		day,
		tables,
		lost,
		traces: tracesOf(days, tables.faults, faults),
		faults,
		times: timesOf(day.opened.zone, day.opened.at),
		units: units ?? (settings.units === 'sheet' ? day.job.units : settings.units),
		faces: timelineFaces(tables, [...new Set(known)]),
		end: tables.day.closed ?? records.at(-1)?.at ?? day.opened.at,
	};
}

/**
 * A day's report in one of its forms. The same days give the same text.
 * @throws RangeError where the records do not begin with `day.opened`
 */
export function reportAs(ending: Ending, asked: Asked): string {
	const stamped = asked.day.at(-1)?.at ?? '';
	switch (ending) {
		case 'html':
			return page(reportOf(asked));
		case 'csv':
			return csv(tablesOf(asked.day), asked.sheet);
		case 'ics':
			return ics(tablesOf(asked.day), stamped);
		case 'json': {
			const { tables, traces, lost } = reportOf(asked);
			return json(asked.day, tables, traces, lost);
		}
	}
}
