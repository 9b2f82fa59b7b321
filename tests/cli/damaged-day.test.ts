import { readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { listDays, makeDaysFolder, newDayPath } from '../../src/day/file/folder.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import { historyAfter } from '../../src/day/history.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { example, folder, run } from './run.ts';

let job = '';
let primed: Uint8Array;

/** The first day of the example, sprayed to its end; the next day has the topcoat. */
beforeAll(async () => {
	const loaded = await loadJob(example);
	if (!loaded.ok) throw new Error('the example does not load');
	job = loaded.job.name;
	const day = rehearsed({ job: loaded.job, at: Date.now() - 2 * 86_400_000 });
	day.toEnd();
	const records = day
		.records()
		.map((one): DayRecord => (one.type === 'day.opened' ? { ...one, clock: 'real' } : one));
	primed = encodeKey(records, undefined);
});

/** A home in which that day was looked at in the morning, and its last line is damaged. */
function damagedHome() {
	const home = folder();
	const days = makeDaysFolder(join(home, 'days'));
	const path = newDayPath(days, { job, date: '2027-03-02' });
	writeFileSync(path, primed);
	expect(run(['inspect'], { home, input: 'next\nfault run\ndone\n' }).status).toBe(0);
	const bytes = readFileSync(path);
	const at = bytes.length - 9;
	bytes[at] = (bytes[at] ?? 0) ^ 1;
	writeFileSync(path, bytes);
	return { home, days, path };
}

test('no day is begun, and no rest planned, past the newest day of the job while that is damaged', () => {
	const { home, days, path } = damagedHome();
	for (const words of [['spray', example, '--plain'], ['plan', example, '--rest'], ['now']]) {
		const { status, stdout, stderr } = run(words, { home });
		expect(stderr, words[0]).toContain(`${path}:`);
		expect(stderr, words[0]).toMatch(/damaged: its checksum does not fit; .*--salvage/);
		expect({ status, stdout }, words[0]).toEqual({ status: 1, stdout: '' });
		expect(readdirSync(days)).toEqual([path.slice(days.length + 1)]);
	}
});

test('settled as it says, the coats of the damaged day are counted', () => {
	const { home, days, path } = damagedHome();
	const said = run(['spray', example, '--plain'], { home }).stderr;
	const [, day = '', saved = ''] = /`fanwise log (\S+) --salvage (\S+)`/.exec(said) ?? [];
	expect(day).toBe(path);
	expect(run(['log', day, '--salvage', saved], { home }).status).toBe(1);
	renameSync(day, join(home, 'kept'));
	expect(run(['spray', example, '--plain'], { home })).toMatchObject({ status: 0, stderr: '' });
	const begun = listDays(days).find(one => one.path !== saved)?.path ?? '';
	expect(loadDay(begun)[0]).toMatchObject({ type: 'day.opened', before: historyAfter(loadDay(saved)) });
});
