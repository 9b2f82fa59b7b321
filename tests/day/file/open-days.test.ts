import { appendFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { newDayPath } from '../../../src/day/file/folder.ts';
import { openDays } from '../../../src/day/file/open-days.ts';
import { createDay } from '../../../src/day/file/store.ts';
import { eventSchema } from '../../../src/day/records.ts';
import { newPlace } from './place.ts';
import { opened, stamped } from './sample.ts';

const dayOf = (folder: string, date: string, fields: object = {}, closed = false) => {
	const path = newDayPath(folder, { job: 'canopy rail', date });
	const day = createDay(path, stamped(eventSchema.parse({ ...opened, clock: 'real', ...fields }), 1));
	if (closed) day.append([stamped({ type: 'day.closed', job: 'canopy rail', why: 'done' }, 2)]);
	day.close();
	return path;
};

test('days on the real clock that were not closed are found by their first line, the newest first', () => {
	const folder = newPlace();
	expect(openDays(join(folder, 'not-there'))).toEqual([]);
	const old = dayOf(folder, '2027-03-01');
	dayOf(folder, '2027-03-02', {}, true);
	dayOf(folder, '2027-03-03', { clock: 'moved' });
	const recent = dayOf(folder, '2027-03-04', { job: 'a "day.closed" cart' });
	expect(openDays(folder).map(({ path }) => path)).toEqual([recent, old]);
	expect(openDays(folder)[0]).toMatchObject({ name: 'a "day.closed" cart', began: '2027-03-02 08:00' });
});

test('what is no day at all is passed over; a damaged day is offered, and its damage said when it is carried on', () => {
	const folder = newPlace();
	writeFileSync(join(folder, '2027-03-01_notes.day.jsonl'), 'not a day\n');
	writeFileSync(join(folder, '2027-03-02_empty.day.jsonl'), '');
	const path = dayOf(folder, '2027-03-03');
	appendFileSync(path, '00000000 {}\n');
	expect(openDays(folder).map(day => day.path)).toEqual([path]);
});
