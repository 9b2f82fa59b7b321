import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { parseJob } from '../../src/job/load.ts';
import { readShelf } from '../../src/job/shelf.ts';
import { allDays } from './all-days.ts';

const folder = join(import.meta.dirname, '../job/two-guns');
const doors = readFileSync(join(folder, 'six-doors.yaml'), 'utf8');
const shelf = readShelf(join(folder, 'shelf'));
/** With one gun, as a day has it, and two doors. */
const one = doors
	.replaceAll('gun: small', 'gun: large')
	.replace('count: 6', 'count: 2')
	.replace('units: metric', 'units: metric\nrisk: 5%');

test('the first colour is masked before the second is sprayed, and bared once that is dry to handle', async () => {
	const loaded = parseJob(one, 'doors.yaml', () => shelf);
	if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
	const { laid, planned, findings, records } = await allDays(loaded.job, 8);
	const at = (wanted: (record: (typeof records)[number]) => boolean) => records.findIndex(wanted);
	const masked = records.findLastIndex(one => one.type === 'stage.done' && one.stage === 'mask');
	const slate = at(one => one.type === 'batch.started' && one.material === 'slate satin');
	expect(masked).toBeGreaterThan(0);
	expect(slate).toBeGreaterThan(masked);
	const wet = records.findLast(one => one.type === 'face.ended');
	const bared = records.filter(one => one.type === 'stage.done' && one.stage === 'unmask');
	const dry_ms = 4 * 3_600_000;
	for (const { at: then } of bared)
		expect(Date.parse(then) - Date.parse(wet?.at ?? '')).toBeGreaterThanOrEqual(dry_ms);
	expect([laid, findings]).toEqual([planned, []]);
});
