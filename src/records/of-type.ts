import type { DayRecord, EventType } from '../day/records.ts';

/** A record of one type, with its place in the file. */
export type RecordOf<Type extends EventType> = Extract<DayRecord, { type: Type }>;

/** The records of one type, in order. */
export const ofType = <Type extends EventType>(records: readonly DayRecord[], type: Type): RecordOf<Type>[] =>
	records.filter((record): record is RecordOf<Type> => record.type === type);
