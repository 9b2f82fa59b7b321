import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { makeDaysFolder } from '../../src/day/file/folder.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import { historyAfter } from '../../src/day/history.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { example, folder, run } from './run.ts';

const day_ms = 86_400_000;
const now = Date.now();
let primer: DayRecord[];
let topcoat: DayRecord[];

const asReal = (day: ReturnType<typeof rehearsed>) =>
	day.records().map((one): DayRecord => (one.type === 'day.opened' ? { ...one, clock: 'real' } : one));

/** The example's two days: the primer on a clock a year ahead, the topcoat after it was put right. */
beforeAll(async () => {
	const loaded = await loadJob(example);
	if (!loaded.ok) throw new Error('the example does not load');
	const { job } = loaded;
	const first = rehearsed({ job, at: now + 365 * day_ms });
	first.toEnd();
	primer = asReal(first);
	const second = rehearsed({ job, at: now - 2 * day_ms, before: historyAfter(primer) });
	second.send('hold');
	second.pick('close');
	second.pick('close');
	topcoat = asReal(second);
});

function homeWith(...days: DayRecord[][]) {
	const home = folder();
	const store = makeDaysFolder(join(home, 'days'));
	const paths = days.map(day => {
		const path = join(store, `${day[0]?.at.slice(0, 10)}_market-coffee-cart.day.jsonl`);
		writeFileSync(path, encodeKey(day, undefined));
		return path;
	});
	return { home, store, paths };
}
const opened = (path: string) => {
	const [first] = loadDay(path);
	if (first?.type !== 'day.opened') throw new Error('no day');
	return first;
};

test('a day stamped by a clock that was ahead does not hide the one sprayed after it', () => {
	const { home, store, paths } = homeWith(primer, topcoat);
	expect(run(['log'], { home }).lines[0]).toContain('day.opened');
	expect(run(['log', '--json'], { home }).lines.map(line => JSON.parse(line))).toEqual(
		loadDay(paths[1] ?? ''),
	);
	expect(run(['spray', example, '--plain'], { home })).toMatchObject({ status: 0, stderr: '' });
	const begun = readdirSync(store)
		.map(name => join(store, name))
		.find(path => !paths.includes(path) && path.endsWith('.jsonl'));
	expect(opened(begun ?? '').before).toEqual(historyAfter(topcoat));
	const rest = JSON.parse(run(['plan', example, '--rest', '--json'], { home }).stdout);
	expect(rest.orders[0].coats[0].coat).toBeGreaterThan(1);
});

test('a script begins no day before the end of the last one of its job', () => {
	const { home, store } = homeWith(primer);
	const before = readdirSync(store);
	const { status, stderr } = run(['spray', example, '--plain'], { home });
	expect(status).toBe(1);
	expect(stderr).toMatch(
		/^[^\n]*_market-coffee-cart\.day\.jsonl: the last day of this job ended at \S+Z, and the clock stands at \S+Z: set it right, or say at a terminal that it is\n$/,
	);
	expect(readdirSync(store)).toEqual(before);
});
