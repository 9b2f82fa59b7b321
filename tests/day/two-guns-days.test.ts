import { join } from 'node:path';
import { expect, test } from 'vitest';
import { errorLine } from '../../src/job/errors.ts';
import { gunFor } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';
import { readText } from '../../src/job/read-text.ts';
import { readShelf } from '../../src/job/shelf.ts';
import { allDays } from './all-days.ts';

/** Whole jobs of two guns, day after day. */

const home = join(import.meta.dirname, '../..');
function jobOf(path: string, change = (text: string) => text) {
	const read = readText(join(home, path), 'it is there');
	if (!read.ok) throw new Error(path);
	const loaded = parseJob(change(read.text), path, () => readShelf(join(home, 'tests/job/two-guns/shelf')));
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return loaded.job;
}

test.each([
	['the second example', jobOf('checklists/example/two-guns.yaml'), 3],
	[
		'two of the chairs',
		jobOf('tests/job/two-guns/eight-chairs.yaml', text => text.replaceAll('count: 8', 'count: 2')),
		4,
	],
	[
		'two of the kitchen doors',
		jobOf('tests/job/two-guns/six-doors.yaml', text => text.replace('count: 6', 'count: 2')),
		4,
	],
])('%s: every coat is laid with its own gun, and each day passes the checker', async (_, job, most) => {
	const { days, laid, planned, findings, records } = await allDays(job);
	expect(findings).toEqual([]);
	expect(laid).toBe(planned);
	expect(days).toBeLessThanOrEqual(most);
	const cups = records.flatMap(one => (one.type === 'batch.loaded' ? [one.ofGun] : []));
	expect(new Set(cups)).toEqual(new Set(['large', 'small']));
	for (const [nth, record] of records.entries()) {
		if (record.type !== 'face.started') continue;
		const coat = job.faces.find(({ id }) => id === record.face)?.coats[record.coat - 1];
		const filled = records.slice(0, nth).findLast(one => one.type === 'batch.loaded');
		expect(filled).toMatchObject({ ofGun: coat && gunFor(job, coat).called });
	}
});
