import { crc32Hex, type Raw } from './lines.ts';

/** A day file in the making: records with their stamps, and a clock that a test moves on. */
export type Draft = {
	records: Raw[];
	run: number;
	t: number;
	mono: number;
	/** Whether the next record belongs to the write of the one before. */
	joined: boolean;
};

export const newDraft = (start: string): Draft => ({
	records: [],
	run: 1,
	t: Date.parse(start),
	mono: 0,
	joined: false,
});

/** Lets time go by. */
export function pass(draft: Draft, seconds: number): void {
	draft.t += Math.round(seconds * 1000);
	draft.mono += Math.round(seconds * 1000);
}

/** Adds one record at the present moment and returns it. */
export function add(draft: Draft, type: string, fields: Raw = {}): Raw {
	const before = draft.records.at(-1);
	if (draft.joined && before) before.more = true;
	draft.joined = false;
	const at = new Date(draft.t).toISOString();
	const record = { seq: draft.records.length + 1, run: draft.run, at, mono: draft.mono, type, ...fields };
	draft.records.push(record);
	return record;
}

/** Makes the record added next a part of the write before it. */
export function join(draft: Draft): void {
	draft.joined = true;
}

/** One line of a day file. */
export function lineOf(record: Raw): Uint8Array {
	const body = Buffer.from(JSON.stringify(record));
	return Buffer.concat([Buffer.from(`${crc32Hex(body)} `), body, Buffer.from('\n')]);
}

/** Records as the bytes of a file, numbered anew; references to an air reading follow it. */
export function seal(records: Raw[]): Uint8Array {
	const places = new Map(records.map((record, n) => [record.seq, n + 1]));
	const numbered = records.map((record, n) => ({
		...record,
		seq: n + 1,
		...(typeof record.air === 'number' && { air: places.get(record.air) ?? record.air }),
	}));
	return Buffer.concat(numbered.map(lineOf));
}

type Which = (record: Raw, n: number) => boolean;

/** Whether a record has this type and these fields. */
export const like =
	(type: string, fields: Raw = {}): Which =>
	record =>
		record.type === type && Object.entries(fields).every(([key, value]) => record[key] === value);

/** Index of the `nth` record (from 0) that is wanted; a test that names none is itself wrong. */
export function find(records: Raw[], which: Which, nth = 0): number {
	const found = records.flatMap((record, n) => (which(record, n) ? [n] : []))[nth];
	if (found === undefined) throw new Error(`no record ${nth} of this kind in the day`);
	return found;
}

/** The records without one of them. */
export function without(records: Raw[], which: Which, nth = 0): Raw[] {
	const n = find(records, which, nth);
	return records.toSpliced(n, 1);
}

/** The records with fields of one of them changed. */
export function changed(records: Raw[], which: Which, fields: Raw, nth = 0): Raw[] {
	const n = find(records, which, nth);
	return records.with(n, { ...records[n], ...fields });
}

/** The records with another put in after one of them, at its instant. */
export function putAfter(records: Raw[], which: Which, type: string, fields: Raw, nth = 0): Raw[] {
	const n = find(records, which, nth);
	const { run, at, mono } = records[n] ?? {};
	return records.toSpliced(n + 1, 0, { seq: 0, run, at, mono, type, ...fields });
}

const instant = /^\d{4}-\d\d-\d\dT/;

function laterBy(ms: number) {
	return (_: string, value: unknown) =>
		typeof value === 'string' && instant.test(value) ? new Date(Date.parse(value) + ms).toISOString() : value;
}

/** The records from one of them on shifted in time, by both clocks and in every instant that they name. */
export function shifted(records: Raw[], which: Which, seconds: number, nth = 0): Raw[] {
	const from = find(records, which, nth);
	const later = (record: Raw): Raw => ({
		...JSON.parse(JSON.stringify(record), laterBy(seconds * 1000)),
		mono: Number(record.mono) + seconds * 1000,
		...(record.up === undefined ? {} : { up: Number(record.up) + seconds * 1000 }),
	});
	return records.map((record, n) => (n < from ? record : later(record)));
}
