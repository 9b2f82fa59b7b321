import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { encodeKey } from '../../src/day/file/keep.ts';
import type { DayRecord } from '../../src/day/records.ts';

/** Writes days as files of a shop's folder, named by their date and a slug. */
export function writeDays(folder: string, slug: string, days: readonly DayRecord[][]): string[] {
	mkdirSync(folder, { recursive: true });
	return days.map((records, nth) => {
		const date = records[0]?.at.slice(0, 10) ?? '';
		const path = join(folder, `${date}_${slug}${nth === 0 ? '' : `-${nth + 1}`}.day.jsonl`);
		let last: DayRecord | undefined;
		const lines = records.map(record => {
			const line = encodeKey([record], last);
			last = record;
			return line;
		});
		writeFileSync(path, Buffer.concat(lines));
		return path;
	});
}
