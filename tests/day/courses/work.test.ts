import { expect, test } from 'vitest';
import { historyAfter } from '../../../src/day/history.ts';
import { checkDayFile } from '../../model/checker/check.ts';
import { rehearsed, start } from '../rehearsed.ts';
import { coats, dayOf, jobOf, standardLists } from './sheets.ts';

/** Work between two coats: asked for in its place, on the face that wants it. */

type Day = Awaited<ReturnType<typeof dayOf>>;
const hour_ms = 3_600_000;

/** What was done to a face and sprayed on it, in order. */
const courseOf = (day: Day, face: string) =>
	day.records().flatMap(record => {
		if (record.type === 'stage.done' && record.face === face)
			return [record.grit === null ? record.stage : `${record.stage} ${record.grit}`];
		if (record.type === 'face.ended' && record.face === face) return [`coat ${record.coat}`];
		return record.type === 'rework.done' && record.face === face ? [`own ${record.step}`] : [];
	});

/** The job's days one after the other, each a day after the one before, until all its coats are on. */
async function played(stages: string, first?: Day) {
	const given = { job: jobOf({ stages }), lists: await standardLists() };
	const days = [first ?? rehearsed(given)];
	for (let count = 0; count < 4; count++) {
		const last = days.at(-1);
		last?.toEnd();
		const records = last?.records() ?? [];
		const before = historyAfter(records);
		if (given.job.faces.every(({ id, coats }) => (before.faces[id]?.coats.length ?? 0) >= coats.length))
			break;
		days.push(rehearsed({ ...given, before, at: start + (count + 1) * 26 * hour_ms }));
	}
	const earlier = days.map(day => day.bytes());
	for (const [at, day] of days.entries()) expect(checkDayFile(day.bytes(), earlier.slice(0, at))).toEqual([]);
	return days;
}
const courses = (days: readonly Day[], face: string) => days.flatMap(day => courseOf(day, face));

test('wiped, sanded, wiped and tacked: the second wipe takes the dust off before either coat', async () => {
	const before = '  - wipe\n  - sand: 320 grit\n  - wipe\n  - tack\n';
	const between = before.replace('320', '400');
	const days = await played(
		`${before}${coats(1)}  - wait: 20 h\n${between}  - { spray: topcoat, coats: [medium] }\n`,
	);
	for (const { id } of jobOf({ stages: coats(1) }).faces)
		expect(courses(days, id)).toEqual([
			...['wipe', 'sand 320', 'wipe', 'tack', 'coat 1'],
			...['wipe', 'sand 400', 'wipe', 'tack', 'coat 2'],
		]);
});

test('filler is sanded with the second grit before it is wiped and sprayed over', async () => {
	const days = await played(
		`${coats(1)}  - wait: 20 h\n  - sand: 320 grit\n  - fill\n  - sand: 600 grit\n  - wipe\n  - { spray: topcoat, coats: [medium] }\n`,
	);
	for (const { id } of jobOf({ stages: coats(1) }).faces)
		expect(courses(days, id)).toEqual(['coat 1', 'sand 320', 'fill', 'sand 600', 'wipe', 'coat 2']);
});

test('the hours after filling begin with the filling, not with the coat', async () => {
	const days = await played(
		`${coats(1)}  - wait: 20 h\n  - sand: 320 grit\n  - fill\n  - wait: 6 h\n  - wipe\n  - { spray: topcoat, coats: [medium] }\n`,
	);
	const records = days.flatMap(day => day.records());
	const at = (stage: string) => {
		const done = records.find(record => record.type === 'stage.done' && record.stage === stage);
		return Date.parse(done?.at ?? '');
	};
	const laid = records.find(record => record.type === 'face.ended');
	expect(at('sand') - Date.parse(laid?.at ?? '')).toBeGreaterThanOrEqual(20 * hour_ms);
	expect(at('wipe') - at('fill')).toBeGreaterThanOrEqual(6 * hour_ms);
});

test('what was masked is unmasked after its last coat, an hour on', async () => {
	const day = await dayOf({ stages: `  - mask\n${coats(1)}  - wait: 1 h\n  - unmask\n` });
	const left = () => Object.values(day.toState('finish.close').corners).some(({ code }) => code === 'stay');
	while (left()) day.pick('stay');
	day.toEnd();
	const ended = Date.parse(day.ofType('face.ended')[0]?.at ?? '');
	const bared = day.ofType('stage.done').filter(({ stage }) => stage === 'unmask');
	expect(bared.map(({ face }) => face)).toEqual(day.job.faces.map(({ id }) => id));
	for (const { at } of bared) expect(Date.parse(at) - ended).toBeGreaterThanOrEqual(hour_ms);
	expect(day.findings()).toEqual([]);
});

/** A run is seen on the first face of the hatch once all are sprayed, and the part is set aside. */
async function runOnOutside(stages: string) {
	const day = rehearsed({ job: jobOf({ stages }), lists: await standardLists() });
	day.until(({ state, face }) => state === 'spraying' && face === 'shelf/front');
	day.send('wait 4 s');
	for (const code of ['trouble', 'wet-fault', 'all', 'run', 'hatch/outside', 'set-part-aside', 'back'])
		day.pick(code);
	return day;
}

test('a run sanded flat on one face prepares no other: the sound one is sanded, filled and wiped as planned', async () => {
	const stages = `  - wipe\n${coats(1)}  - wait: 20 h\n  - sand: 400 grit\n  - fill\n  - wipe\n  - { spray: topcoat, coats: [medium, medium] }\n`;
	const days = await played(stages, await runOnOutside(stages));
	expect(courses(days, 'hatch/edges')).toEqual([
		...['wipe', 'coat 1', 'sand 400', 'fill', 'wipe', 'coat 2', 'coat 3'],
	]);
	expect(courses(days, 'hatch/outside')).toContain('own sand');
	expect(days.flatMap(day => day.ofType('override.given'))).toEqual([]);
});

test('with all coats on, one coat more is asked for on the face with the run alone, and takes a reason', async () => {
	const day = await runOnOutside(coats(1));
	day.toState('finish');
	day.pick('stay');
	day.toState('rework.one-more');
	expect(day.line().face).toBe('hatch/outside');
	expect(day.ofType('override.given')).toEqual([]);
	day.pick('one-more');
	day.pick('owner');
	day.toEnd();
	expect(courseOf(day, 'hatch/outside').filter(one => one.startsWith('coat'))).toEqual(['coat 1', 'coat 2']);
	expect(courseOf(day, 'hatch/edges')).toEqual(['coat 1']);
	expect(day.ofType('override.given').map(({ rule, face }) => [rule, face])).toEqual([
		['coats', 'hatch/outside'],
	]);
	expect(day.findings()).toEqual([]);
});
