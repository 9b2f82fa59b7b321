import { readdirSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { makeDaysFolder, newDayPath } from '../../src/day/file/folder.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { loadJob } from '../../src/job/load.ts';
import { learn, ratesOf } from '../../src/plan/rates.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { example, folder, run } from './run.ts';

test('a new day begins with what the shop’s own days have shown of its materials', async () => {
	const loaded = await loadJob(example);
	if (!loaded.ok) throw new Error('the example does not load');
	const { job } = loaded;
	const played = rehearsed({ job, settings: { by: 'face' }, at: Date.now() - 2 * 86_400_000 });
	played.toEnd();
	const day = played
		.records()
		.map((one): DayRecord => (one.type === 'day.opened' ? { ...one, clock: 'real' } : one));
	const home = folder();
	const days = makeDaysFolder(join(home, 'days'));
	const earlier = newDayPath(days, { job: job.name, date: (day[0]?.at ?? '').slice(0, 10) });
	writeFileSync(earlier, encodeKey(day, undefined));

	expect(run(['spray', example, '--plain'], { home }).stderr).toBe('');
	const begun = readdirSync(days).find(name => name !== basename(earlier) && name.endsWith('.jsonl')) ?? '';
	const rates = ratesOf(learn([day], job));
	expect(Object.keys(rates).length).toBeGreaterThan(0);
	expect(loadDay(join(days, begun))[0]).toMatchObject({ type: 'day.opened', rates });
});
