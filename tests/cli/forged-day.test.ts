import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { makeDaysFolder } from '../../src/day/file/folder.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { example, folder, run } from './run.ts';

let whole: DayRecord[];

beforeAll(async () => {
	const loaded = await loadJob(example);
	if (!loaded.ok) throw new Error('the example does not load');
	const day = rehearsed({ job: loaded.job, at: Date.now() - 2 * 86_400_000 });
	day.toEnd();
	whole = day.records();
});

type Forger = (records: DayRecord[]) => DayRecord[];
const opened =
	(change: (first: DayRecord & { type: 'day.opened' }) => object): Forger =>
	([first, ...rest]) =>
		first?.type === 'day.opened' ? [{ ...first, ...change(first) }, ...rest] : rest;

/** Days whose every line is as this program writes it, and which it never wrote. */
const forgers: [string, Forger, closes: boolean][] = [
	['records that cannot follow each other', records => records.filter((_, at) => at < 20 || at > 40), true],
	[
		'a face that its sheet does not have',
		opened(({ sheet }) => ({ sheet: { ...sheet, faces: sheet.faces.slice(1) } })),
		true,
	],
	['a zone that is none', opened(() => ({ zone: 'Pump/Yard' })), false],
];

function homeWith(forge: Forger, closes: boolean, clock: 'real' | 'moved' = 'real') {
	const home = folder();
	const days = makeDaysFolder(join(home, 'days'));
	const kept = closes ? whole : whole.slice(0, 15);
	const records = forge(kept).map(
		(one, at): DayRecord => ({ ...one, seq: at + 1, ...(one.type === 'day.opened' && { clock }) }),
	);
	const path = join(days, `${records[0]?.at.slice(0, 10)}_market-coffee-cart.day.jsonl`);
	writeFileSync(path, encodeKey(records, undefined));
	return { home, days, path };
}

test.each(forgers)(
	'a day with %s is refused in one line, without a trace of the program, and no lock is left',
	(_of, forge, closes) => {
		const { home, days, path } = homeWith(forge, closes);
		const asks = [['spray', example, '--plain'], ['now'], ...(closes ? [['plan', example, '--rest']] : [])];
		for (const words of asks) {
			const { status, stdout, stderr } = run(words, { home });
			const where = `${words[0]}: ${stderr}${stdout}`;
			expect(stderr, where).not.toMatch(/^\s+at /m);
			expect(stderr, where).not.toContain('fault of the program');
			if (words[0] === 'now' && status === 0) continue;
			expect(status, where).toBe(1);
			expect(stderr, where).toMatch(
				/^[^\n]*market-coffee-cart\.day\.jsonl: its lines are whole, but make no day \([^\n]+\): use a copy of it\n$/,
			);
		}
		expect(readdirSync(days)).toEqual([path.slice(days.length + 1)]);
	},
);

test.each(forgers)('a rehearsed day with %s is refused in one line too', (_of, forge) => {
	const { home, path } = homeWith(forge, false, 'moved');
	const before = readFileSync(path);
	const { status, stderr } = run(['rehearse', example, '--json', '--day', path], { home });
	if (status === 0) return expect(stderr).toBe('');
	expect({ status, lines: stderr.split('\n').length }).toEqual({ status: 1, lines: 2 });
	expect(stderr).toContain('make no day');
	expect(readFileSync(path).subarray(0, before.length)).toEqual(before);
});
