import { beforeAll, expect, test } from 'vitest';
import type { Checklist } from '../../src/job/checklist.ts';
import type { Job } from '../../src/job/job.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed } from './rehearsed.ts';

const sheet = 'checklists/example/coffee-cart.yaml';
let job: Job;
let lists: Checklist[];

beforeAll(async () => {
	const loaded = await loadJob(sheet);
	if (!loaded.ok) throw new Error(loaded.errors.map(({ says }) => says).join('\n'));
	const listed = await loadLists(loaded.job, sheet);
	if (!listed.ok) throw new Error(listed.errors.map(({ says }) => says).join('\n'));
	job = loaded.job;
	lists = listed.lists;
});

test('the example day is sprayed from opening to close, with a visitor, a fan left turned, and a run', () => {
	const day = rehearsed({ job, lists });
	day.until(({ state, face }) => state === 'spraying' && face === 'left door/outside');
	day.send('wait 15 s');
	for (const code of ['trouble', 'wet-fault', 'all', 'run', 'left door/outside', 'set-part-aside', 'back'])
		day.pick(code);
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	day.send('hold', 'wait 12 min');
	day.pick('back');
	day.painter.world.horns = day.painter.world.horns === 'level' ? 'upright' : 'level';
	const asked = day.toState('gunCheck.pattern');
	expect(asked.coat).toBe(2);
	expect(day.ofType('face.started').filter(({ coat }) => coat === 2)).toEqual([]);
	const wanted = day.painter.world.horns === 'level' ? 'wide' : 'tall';
	day.send(day.painter.answer(asked) ?? '');
	expect(day.line()).toMatchObject({ ask: 'do', do: [{ code: 'set-horns' }] });
	expect(day.line().lines[0]).toContain(`Wanted ${wanted.toUpperCase()}`);
	day.toEnd();
	const readings = day
		.ofType('reading.taken')
		.filter(({ feature, coat }) => feature === 'pattern' && coat === 2);
	expect(readings.slice(0, 2).map(({ matched, attempt }) => [matched, attempt])).toEqual([
		[false, 1],
		[true, 2],
	]);
	const second = day.ofType('face.started').filter(({ coat }) => coat === 2);
	expect(second.length).toBe(8);
	expect(second.some(({ face }) => face.startsWith('left door'))).toBe(false);
	expect(day.findings()).toEqual([]);
});

test('killed at every record of the day, it stands in hold, asks what was done to the face, then checks the gun', () => {
	const whole = rehearsed({ job, lists });
	let stops = 0;
	for (; whole.line().ask !== 'closed'; stops++) {
		const wasSpraying = whole.line().state === 'spraying';
		const sprayed = whole.ofType('face.started').length;
		const day = rehearsed({ job, lists, left: whole.left() });
		expect(day.line().ask).toBe('hold');
		day.pick('back');
		if (wasSpraying) {
			expect(day.line().ask).toBe('last-face');
			day.pick('all');
		}
		day.until(({ ask }) => ask === 'go' || ask === 'closed');
		expect(day.ofType('face.started').length).toBe(sprayed);
		const broke = day.records().findLastIndex(({ type }) => type === 'break.began');
		const after = day
			.records()
			.slice(broke)
			.map(({ type }) => type);
		if (day.line().ask === 'go') expect(after).toContain('gun.checked');
		expect(day.findings()).toEqual([]);
		const reached = whole.keys.length;
		whole.until(({ ask }) => whole.keys.length > reached || ask === 'closed');
	}
	expect(stops).toBeGreaterThan(100);
});
