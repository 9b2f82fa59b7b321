import { appendFileSync, mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Told } from '../../src/board/shown.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { rehearsed } from '../day/rehearsed.ts';

/** A folder of days, and days that are written into it key by key, as a booth does. */

export const start = Date.parse('2027-03-02T08:00:00Z');

export function shop() {
	const home = mkdtempSync(join(tmpdir(), 'fanwise-board-'));
	const days = join(home, 'days');
	mkdirSync(days);
	return { home, days, record: join(home, 'board.jsonl') };
}

const asReal = (record: DayRecord, job: string | undefined): DayRecord =>
	record.type === 'day.opened' ? { ...record, clock: 'real', ...(job !== undefined && { job }) } : record;

/** A rehearsed day whose keys are written as they come. */
export function writtenDay(
	folder: string,
	name: string,
	given: Parameters<typeof rehearsed>[0] & { named?: string } = {},
) {
	const { named, ...options } = given;
	const path = join(folder, `2027-03-02_${name}.day.jsonl`);
	const day = rehearsed(options);
	let written = 0;
	let last: DayRecord | undefined;
	const write = () => {
		for (const key of day.keys.slice(written)) {
			const records = key.map(one => asReal(one, named));
			const bytes = encodeKey(records, last);
			if (written === 0) writeFileSync(path, bytes);
			else appendFileSync(path, bytes);
			last = records.at(-1);
			written++;
		}
	};
	write();
	return { ...day, path, write, now: () => Date.parse(day.line().at) };
}

/** All that was told last of each subject. */
export function heardBy() {
	const told: Told[] = [];
	const put = (_: string, what: object) => void told.push(what as Told);
	const hub = { tell: put, end: put, open: () => null, pages: () => 0, close() {} };
	const last = () =>
		told.findLast((one): one is Extract<Told, { about: 'day' }> => one.about === 'day')?.shown;
	return { hub, told, last };
}
