import type { Lost } from '../day/file/lost.ts';
import type { DayRecord } from '../day/records.ts';
import type { Tables } from './tables/tables.ts';
import type { Traced } from './traced.ts';

/** The records and all that is worked out from them: SI values, keys ending in their unit. */
export const json = (
	records: readonly DayRecord[],
	tables: Tables,
	traces: readonly Traced[],
	lost: readonly Lost[],
): string => `${JSON.stringify({ v: 1, tables, traces, lost, records }, null, '\t')}\n`;
