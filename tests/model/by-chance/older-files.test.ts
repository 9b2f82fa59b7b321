import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { readDay } from '../../../src/day/file/read.ts';
import { historyAfter } from '../../../src/day/history.ts';
import type { DayRecord } from '../../../src/day/records.ts';
import { rehearse } from '../../../src/day/rehearsal.ts';
import { foldAll } from '../../../src/day/state.ts';
import { painterOf } from '../../../src/painter/painter.ts';
import { type Days, playDay } from './days.ts';
import { sheets, standardLists } from './sheets.ts';

/** Fifty day files of version 1, half of them left open, some with reasons: read, gone on with, followed by a next day. */

const here = import.meta.dirname;
const files: string[] = JSON.parse(gunzipSync(readFileSync(`${here}/files.json.gz`)).toString('utf8'));
const days: Days = { jobs: sheets(), lists: await standardLists() };

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
