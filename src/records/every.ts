import type { DayRecord, EventType } from '../day/records.ts';

type Groups<Name extends string> = Readonly<Record<string, readonly Name[]>>;
type Left<Name extends string, Sorted extends Groups<Name>> = Exclude<Name, Sorted[keyof Sorted][number]>;

/** Names sorted into groups: with one of them in no group it does not compile, and the error names it. */
const every =
	<Name extends string>() =>
	<const Sorted extends Groups<Name>>(
		groups: Sorted & ([Left<Name, Sorted>] extends [never] ? unknown : { 'in no group': Left<Name, Sorted> }),
	): Sorted =>
		groups;

/** Every type of record, sorted by what a reader makes of it: a new one is asked for. */
export const everyType = every<EventType>();

type FieldOf<One> = One extends unknown ? keyof One & string : never;
/** Every field that some record has. */
export type Field = FieldOf<DayRecord>;
/** The same of their fields. */
export const everyField = every<Field>();
