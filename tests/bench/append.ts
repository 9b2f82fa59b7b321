import { closeSync, fdatasyncSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { encodeLine } from '../../src/day/file/line.ts';
import { createDay } from '../../src/day/file/store.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { everyEvent, first, stamped } from '../day/file/sample.ts';

/**
 * A key into the day file against a bare write of the same bytes and fdatasync, in pairs, each pair in the other
 * order than the one before. `node tests/bench/run.js append [PAIRS] [FOLDER]`; the folder must lie on a real disk.
 */
const pairs = Number(process.argv[3] ?? 1000);
const folder = mkdtempSync(join(process.argv[4] ?? process.cwd(), '.bench-'));
const limit = 1.3;

const median = (values: number[]) =>
	values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
const time_us = (work: () => void) => {
	const from = process.hrtime.bigint();
	work();
	return Number(process.hrtime.bigint() - from) / 1000;
};

const events = everyEvent.filter(({ type }) => type !== 'day.closed');
const recordAt = (seq: number): DayRecord => stamped(events[seq % events.length] ?? first, seq);

try {
	const day = createDay(join(folder, 'a.day.jsonl'), first);
	const bare = openSync(join(folder, 'bare'), 'a', 0o600);
	const ours_us: number[] = [];
	const bare_us: number[] = [];
	const ratios: number[] = [];
	for (let pair = 0; pair < pairs; pair++) {
		const record = recordAt(pair + 2);
		const line = encodeLine(record);
		const works = [
			() => {
				writeSync(bare, line);
				fdatasyncSync(bare);
			},
			() => day.append([record]),
		] as const;
		const order = pair % 2 ? ([0, 1] as const) : ([1, 0] as const);
		const times = [0, 0];
		for (const which of order) times[which] = time_us(works[which]);
		const [plain = 0, kept = 0] = times;
		bare_us.push(plain);
		ours_us.push(kept);
		ratios.push(kept / plain);
	}
	day.close();
	closeSync(bare);
	const ratio = median(ratios);
	process.stdout.write(
		`${pairs} pairs: bare write + fdatasync ${median(bare_us).toFixed(0)} us, ` +
			`a key ${median(ours_us).toFixed(0)} us, median ratio ${ratio.toFixed(3)} (limit ${limit})\n`,
	);
	process.exitCode = ratio <= limit ? 0 : 1;
} finally {
	rmSync(folder, { recursive: true, force: true });
}
