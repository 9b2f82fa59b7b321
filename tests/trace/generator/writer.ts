import type { DayEvent, DayRecord } from '../../../src/day/records.ts';

/** Writes one day as an engine would: records in order of time, numbered without gaps. */
export type Writer = {
	records: DayRecord[];
	now: number;
	/** Moves the clock, s. */
	pass(seconds: number): void;
	write(event: DayEvent): DayRecord;
};

export const iso = (ms: number): string => new Date(ms).toISOString();

export function writer(start: number): Writer {
	const self: Writer = {
		records: [],
		now: start,
		pass: seconds => {
			self.now += Math.round(seconds * 1000);
		},
		write: event => {
			const record: DayRecord = {
				seq: self.records.length + 1,
				run: 1,
				at: iso(self.now),
				mono: self.now - start,
				...event,
			};
			self.records.push(record);
			return record;
		},
	};
	return self;
}

/**
 * Puts later findings in their place by time and numbers the day anew; a face keeps the air reading it was
 * sprayed under.
 */
export function insert(records: DayRecord[], late: { at: number; event: DayEvent }[]): DayRecord[] {
	const first = records[0];
	if (!first) return records;
	const start = Date.parse(first.at);
	const extra = late.map(
		({ at, event }): DayRecord => ({ seq: 0, run: 1, at: iso(at), mono: at - start, ...event }),
	);
	const sorted = [
		...records.map(record => ({ record, old: record.seq })),
		...extra.map(record => ({ record, old: 0 })),
	];
	sorted.sort((a, b) => a.record.at.localeCompare(b.record.at));
	const place = new Map(sorted.map(({ old }, at) => [old, at + 1]));
	const closed = sorted.findIndex(({ record }) => record.type === 'day.closed');
	return sorted.map(({ record }, at) => {
		const moved = { ...record, seq: at + 1, run: closed >= 0 && at > closed ? 2 : record.run };
		if (moved.type === 'face.started' && moved.air !== null) moved.air = place.get(moved.air) ?? null;
		return moved;
	});
}
