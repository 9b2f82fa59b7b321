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
import { sentencesOf } from './summary.ts';
import { dayOf } from './tables/day.ts';
import { tablesOf } from './tables/tables.ts';
import { timesOf, usableZone } from './times.ts';
import { toldOf } from './told.ts';
import { tracesOf } from './traced.ts';
import { verdictOf } from './verdict.ts';

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

function reportOf({ day: records, days, lost = [], faults, units: asked }: Asked): Report {
	const day = dayOf(records);
	const tables = tablesOf(records);
	const { settings, zone, at } = day.opened;
	const known = [...day.job.faces.map(({ id }) => id), ...new Set(tables.coats.map(({ face }) => face))];
	const units = asked ?? (settings.units === 'sheet' ? day.job.units : settings.units);
	const traces = tracesOf(days, tables.faults, faults);
	return {
		day,
		tables,
		lost,
		traces,
		verdict: verdictOf({ day, rows: tables, units, zone: usableZone(zone), traces }),
		faults,
		times: timesOf(zone, at),
		units,
		faces: timelineFaces(tables, [...new Set(known)]),
		end: tables.day.closed ?? records.at(-1)?.at ?? at,
	};
}

/**
 * A day in spoken sentences, its verdict as on its page.
 * @throws RangeError where the records do not begin with `day.opened`
 */
export const summaryOf = (
	{ day, days, faults }: Pick<Asked, 'day' | 'days' | 'faults'>,
	units: UnitSystem,
): string[] => sentencesOf(toldOf(day, units, rows => tracesOf(days, rows.faults, faults)));

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
