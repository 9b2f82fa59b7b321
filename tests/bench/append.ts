import { closeSync, fdatasyncSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { encodeLine } from '../../src/day/file/line.ts';
import { createDay } from '../../src/day/file/store.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { everyEvent, first, stamped } from '../day/file/sample.ts';
import { root } from './built.ts';
import { beside, type Figure, inPairs, time_ms } from './figure.ts';

const pairs = 600;

const goal = 1.3;
/**
 * Checking a record, looking for lock and file and writing its line takes the same time on any disk. One that answers a
 * sync sooner than it can have written anywhere makes a large share of it: there 0.15 ms more are allowed, which nobody feels.
 */
const limitOver = (bare_ms: number): number => Math.max(goal, 1 + 0.15 / bare_ms);

const events = everyEvent.filter(({ type }) => type !== 'day.closed');
const recordAt = (seq: number): DayRecord => stamped(events[seq % events.length] ?? first, seq);

/** A key into the day file against a bare write of the same bytes and fdatasync, on the disk the project lies on. */
export async function measure(): Promise<Figure[]> {
	const folder = mkdtempSync(join(root, '.bench-'));
	try {
		const day = createDay(join(folder, 'a.day.jsonl'), first);
		const bare = openSync(join(folder, 'bare'), 'a', 0o600);
		const lines = Array.from({ length: pairs }, (_, pair) => encodeLine(recordAt(pair + 2)));
		const found = await inPairs(
			pairs,
			pair =>
				time_ms(() => {
					writeSync(bare, lines[pair] ?? new Uint8Array());
					fdatasyncSync(bare);
				}),
			pair => time_ms(() => day.append([recordAt(pair + 2)])),
		);
		day.close();
		closeSync(bare);
		const against = 'a bare write and fdatasync';
		return [
			{ ...beside('a key into the day file, synced', 'ms', against, found, limitOver(found.bare)), goal },
		];
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
}
