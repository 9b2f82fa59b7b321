import { expect, test } from 'vitest';
import type { DayRecord } from '../../src/day/records.ts';
import { takes } from '../../src/day/takes.ts';
import type { Job } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';
import { planDay } from '../../src/plan/day-plan.ts';
import { orderFor } from '../../src/plan/order.ts';
import { taughtBy } from '../../src/plan/rates.ts';
import { passesOf } from '../../src/records/passes.ts';
import { tablesOf } from '../../src/report/tables/tables.ts';
import { exampleText } from '../job/altered.ts';
import { sheets } from '../model/by-chance/sheets.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** Plan, day, cup, report and what is learned: the paint and the time of a face are one figure in all of them. */

function example(): Job {
	const loaded = parseJob(exampleText, 'cart.yaml');
	if (!loaded.ok) throw new Error('the example does not load');
	return loaded.job;
}

const real = (records: readonly DayRecord[]) =>
	records.map(one => (one.type === 'day.opened' ? { ...one, clock: 'real' as const } : one));

const jobs: [string, () => Job][] = [
	['the example', example],
	...sheets().map((job, index): [string, () => Job] => [`sheet ${index + 1}`, () => job]),
];

test.each(jobs)('%s: plan = day = cup = report = learned, to the last bit', (_, jobOf) => {
	const job = jobOf();
	const day = rehearsed({ job, settings: { by: 'face' } });
	day.toEnd();
	const records = day.records();
	const film = tablesOf(records).film;
	const coatOf = (face: string, coat: number) => {
		const found = job.faces.find(({ id }) => id === face)?.coats[coat - 1];
		if (!found) throw new Error(`no coat ${coat} of ${face}`);
		return found;
	};
	const { opened } = day.state().book;
	for (const row of film) {
		const coat = coatOf(row.face, row.coat);
		expect(row.wants_mL).toBe(coat.volume_mL);
		expect(takes(opened, coat)).toEqual({ volume_mL: coat.volume_mL, spray_s: coat.spray_s });
	}
	for (const { start } of passesOf(records))
		if (start.from === 'start') expect(start.spray_s).toBe(coatOf(start.face, start.coat).spray_s);
	const stage = job.stages.findIndex(({ kind }) => kind === 'coats');
	const plan = planDay(job, orderFor(job, stage));
	const laid = new Map(plan.laid.map(one => [`${one.face} ${one.coat}`, one.to_s - one.from_s]));
	for (const batch of plan.batches) {
		const coats = batch.serves.map(({ face, coat }) => coatOf(face, coat));
		expect(batch.needed_mL).toBe(coats.reduce((sum, { volume_mL }) => sum + volume_mL, 0));
	}
	for (const [name, took_s] of laid) {
		const [, face = '', coat = '0'] = /^(.*) (\d+)$/.exec(name) ?? [];
		expect(took_s).toBeCloseTo(coatOf(face, Number(coat)).spray_s, 6);
	}
	const learned = taughtBy(real(records)).flatMap(({ cups }) => cups);
	const emitted = film.reduce((sum, { wants_mL }) => sum + wants_mL, 0);
	expect(learned.reduce((sum, cup) => sum + cup.emitted_mL, 0)).toBeLessThanOrEqual(emitted + 1e-6);
	expect(day.findings()).toEqual([]);
});

test('the count of the cup is what was filled in, less what each face wants and each burst took', () => {
	const job = example();
	const day = rehearsed({ job, settings: { by: 'face' } });
	day.until(line => line.state === 'spraying' && (day.ofType('face.ended').length ?? 0) === 4);
	const { book } = day.state();
	const sprayed = day
		.ofType('face.ended')
		.reduce(
			(sum, { face, coat }) =>
				sum + (job.faces.find(({ id }) => id === face)?.coats[coat - 1]?.volume_mL ?? Number.NaN),
			0,
		);
	const loaded = day.ofType('batch.loaded').reduce((sum, { volume_mL }) => sum + volume_mL, 0);
	const bursts = day
		.ofType('reading.taken')
		.filter(({ feature }) => ['pattern', 'card', 'pattern-height', 'flooded'].includes(feature)).length;
	expect(bursts).toBeGreaterThan(0);
	const flow = job.gun.flow_mL_per_min / 60;
	expect(book.cup_mL).toBeCloseTo(loaded - sprayed - bursts * flow, 6);
	expect(book.cupSince.uses.sum_mL).toBeCloseTo(sprayed, 9);
});

test('a face broken off and finished takes its paint once', () => {
	const day = rehearsed({ settings: { by: 'face' } });
	day.until(({ state, face }) => state === 'spraying' && face === 'left door/flat');
	day.send('wait 20 s', 'hold', 'wait 15 s');
	day.pick('back');
	day.pick('part');
	day.send('number 3');
	day.until(() =>
		day.ofType('face.ended').some(({ face, extent }) => face === 'left door/flat' && extent === 'all'),
	);
	const whole = day.ofType('face.ended').filter(({ extent }) => extent === 'all').length;
	expect(day.state().book.cupSince.uses.sum_mL).toBeCloseTo(whole * 90, 9);
});

test('the fluid knob is set for a kind of coat that wants it, and back for the next; the gun is checked after it', () => {
	const flowsOf = (job: Job) => job.faces.flatMap(({ coats }) => coats.map(coat => coat.flow_mL_per_min));
	const job = sheets().find(one => new Set(flowsOf(one)).size > 1);
	if (!job) throw new Error('no sheet wants its knob turned');
	const day = rehearsed({ job, settings: { by: 'face' } });
	day.toEnd();
	const records = day.records();
	const set = records.flatMap((one, at) =>
		one.type === 'gun.set' && one.fluid !== null ? [{ ...one, at }] : [],
	);
	expect(set.length).toBeGreaterThan(0);
	let fluid = `${job.gun.flow_mL_per_min.toFixed(1)} mL/min`;
	for (const one of records) {
		if (one.type === 'gun.set') fluid = one.fluid ?? fluid;
		if (one.type !== 'face.started') continue;
		const coat = job.faces.find(({ id }) => id === one.face)?.coats[one.coat - 1];
		expect(fluid).toBe(`${(coat?.flow_mL_per_min ?? 0).toFixed(1)} mL/min`);
	}
	for (const { at } of set) {
		const checked = records.findIndex((one, later) => later > at && one.type === 'gun.checked');
		const started = records.findIndex((one, later) => later > at && one.type === 'face.started');
		expect(checked).toBeGreaterThan(at);
		expect(checked).toBeLessThan(started);
	}
	expect(day.findings()).toEqual([]);
});

test('what the shop has learned is one figure for plan and day, more than a cup holds too; each is sprayed from full cups', () => {
	const job = smallJob();
	const rates = { topcoat: { time: null, paint: 13 } };
	const learned_mL = 13 * 90;
	expect(learned_mL).toBeGreaterThan(job.gun.cup_mL);
	const plan = planDay(job, orderFor(job, 0), { rates });
	for (const batch of plan.batches) expect(batch.needed_mL).toBe(batch.serves.length * learned_mL);
	const day = rehearsed({ job, rates });
	const [coat] = job.faces[0]?.coats ?? [];
	expect(coat && takes(day.state().book.opened, coat).volume_mL).toBe(learned_mL);
	day.toEnd();
	expect(tablesOf(day.records()).film.map(({ wants_mL }) => wants_mL)).toEqual(Array(6).fill(learned_mL));
	expect(new Set(day.ofType('batch.loaded').map(({ volume_mL }) => volume_mL))).toEqual(
		new Set([job.gun.cup_mL]),
	);
	expect(day.findings()).toEqual([]);
});
