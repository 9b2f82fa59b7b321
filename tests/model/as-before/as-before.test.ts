import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { readDay } from '../../../src/day/file/read.ts';
import { historyAfter } from '../../../src/day/history.ts';
import type { DayRecord } from '../../../src/day/records.ts';
import { rehearse } from '../../../src/day/rehearsal.ts';
import { foldAll } from '../../../src/day/state.ts';
import { painterOf } from '../../../src/painter/painter.ts';
import { chanceOf } from '../keys/chance.ts';
import { cured } from './cured.ts';
import { type Days, playDay, playJob } from './days.ts';
import { hashesOf } from './hashes.ts';
import { sheets, standardLists } from './sheets.ts';

/**
 * Days as the program played them before its rules were written once: what was shown and what was written, by their
 * sums; and day files that it wrote, read, gone on with and followed by a next day. `AS_BEFORE=2000` plays them all.
 */

const here = import.meta.dirname;
const rows = readFileSync(`${here}/hashes.txt`, 'utf8').trim().split('\n');
const files: string[] = JSON.parse(gunzipSync(readFileSync(`${here}/files.json.gz`)).toString('utf8'));
const days: Days = { jobs: sheets(), lists: standardLists() };
const { AS_BEFORE = '60' } = process.env;

test('what a day shows and writes is as it was, but for the days that a named cure has changed', () => {
	const chance = chanceOf(7);
	const all = Array.from({ length: rows.length }, (_, seed) => seed);
	const few = Number(AS_BEFORE) < rows.length;
	const seeds = few ? Array.from({ length: Number(AS_BEFORE) }, () => chance.pick(all)) : all;
	const differ = seeds.filter(
		seed =>
			rows[seed] !== 'endless' && !cured.has(seed) && rows[seed] !== hashesOf(playJob(days, seed)).join(' '),
	);
	expect(differ).toEqual([]);
}, 900_000);

test('a day that had no end, once its clock was set back, has one', () => {
	const endless = rows.flatMap((row, seed) => (row === 'endless' ? [seed] : []));
	expect(endless.length).toBeGreaterThan(10);
	for (const seed of endless.slice(0, Number(AS_BEFORE) / 10))
		expect(playJob(days, seed)[0]?.records.length).toBeGreaterThan(10);
}, 300_000);

test.each(files.map((text, index) => [index, text] as const))(
	'a day file of version 1 is read, gone on with, and followed by a next day (%i)',
	(index, text) => {
		const read = readDay(Buffer.from(text));
		expect(read.damage).toBeNull();
		expect(read.records[0]).toMatchObject({ type: 'day.opened', v: 1 });
		const records: DayRecord[] = [...read.records];
		const state = foldAll(records);
		const job = state.book.opened.sheet;
		const open = () => ({
			records,
			append: (made: readonly DayRecord[]) => void records.push(...made),
			close() {},
		});
		if (state.machine.value !== 'closed') {
			const rehearsal = rehearse(open, state.book.now.wall + 60_000);
			const painter = painterOf(job, () => rehearsal.session().state());
			let line = rehearsal.first();
			expect(line.ask).toBe('hold');
			for (let count = 0; count < 300 && line.ask !== 'closed'; count++) {
				const next = painter.answer(line);
				if (next === null) break;
				line = rehearsal.take(next);
				expect(line.accepted).toBe(true);
			}
		}
		if (foldAll(records).machine.value !== 'closed') return;
		const at = Date.parse(records.at(-1)?.at ?? '') + 14 * 3_600_000;
		const next = playDay(days, 3 * 4 * index + days.jobs.findIndex(({ name }) => name === job.name), 60, {
			before: historyAfter(records),
			at,
		});
		expect(next.lines.length).toBeGreaterThan(1);
	},
	60_000,
);
