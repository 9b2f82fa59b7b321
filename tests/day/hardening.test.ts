import { describe, expect, test } from 'vitest';
import { historyAfter } from '../../src/day/history.ts';
import { hardensAt_h } from '../../src/job/process-clocks.ts';
import { planJob } from '../../src/plan/job-plan.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** How long a coat hardens before it is sanded: a beginning, so the coldest counts and warmth never shortens the table. */

const points = [
	{ at_C: 15, hours: 4 },
	{ at_C: 21, hours: 2 },
];

/** The small job, each face sanded before its second coat, whenever the window lets it. */
function sandedJob() {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	const windows = [{ does: 'spray' as const, from_h: 0.75, until_h: null }];
	const recoat = [{ under: 'topcoat', rows: [{ from_C: 5, to_C: 40, windows: [wait(0.75), ...windows] }] }];
	const faces = job.faces.map(face => ({
		...face,
		coats: face.coats.map((coat, at) =>
			at === 1 ? { ...coat, prep: [{ step: 'sand' as const, grit: 400 }] } : coat,
		),
	}));
	return { ...job, faces, materials: { topcoat: { ...topcoat, recoat, sandAfter: points } } };
}
const wait = (until_h: number) => ({ does: 'wait' as const, from_h: 0, until_h });

type Day = ReturnType<typeof rehearsed>;
const edges = 'left door/edges';
const laid = (day: Day) => Date.parse(day.ofType('face.ended').find(({ face }) => face === edges)?.at ?? '');
const due_h = (day: Day) => {
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	return (Date.parse(day.ofType('wait.began').at(-1)?.due ?? '') - laid(day)) / 3_600_000;
};
function at(C: number) {
	const day = rehearsed({ job: sandedJob(), settings: { by: 'face' } });
	Object.assign(day.painter.world.air, { C, surface_C: C });
	return day;
}
function readAir(day: Day, minutes: number, C: number) {
	day.send('hold', `wait ${minutes} min`);
	Object.assign(day.painter.world.air, { C, surface_C: C });
	const read = day.ofType('air.read').length;
	for (const code of ['put-right', 'read-air']) day.pick(code);
	day.until(() => day.ofType('air.read').length > read);
	day.pick('back');
}

describe('a coat hardens before it is sanded', () => {
	test.each([
		['as long as the sheet says at one of its points', 21, 2],
		['between two of them', 18, Math.sqrt(8)],
		['no shorter by warmth than at its warmest point', 31, 2],
	])('%s', (_, C, hours) => {
		expect(due_h(at(C))).toBeCloseTo(hours, 1);
	});

	test('longer by the rule of thumb in the cold, and not at all where the sheet cannot say', () => {
		const [topcoat] = Object.values(sandedJob().materials);
		expect(topcoat && hardensAt_h(topcoat, 11)).toBeCloseTo(4 * 2 ** 0.4, 9);
		expect(() => topcoat && hardensAt_h(topcoat, -6)).toThrow('from −5 °C');
	});

	test('by the coldest that was read since: a warm morning makes up for no cold evening', () => {
		const day = at(21);
		day.until(({ state, coat }) => state === 'wait' && coat === 2);
		readAir(day, 20, 15);
		readAir(day, 20, 25);
		expect(due_h(day)).toBeCloseTo(4, 1);
		day.toEnd();
		expect(day.findings()).toEqual([]);
	});

	test('… on an earlier day too', () => {
		const first = at(21);
		first.until(({ state, coat }) => state === 'wait' && coat === 2);
		readAir(first, 20, 15);
		readAir(first, 20, 21);
		first.send('hold');
		for (const code of ['close', 'close']) first.pick(code);
		const before = historyAfter(first.records());
		expect(before.faces[edges]?.coats.at(-1)).toMatchObject({ surfaceC: 21, leastC: 15 });
		const second = rehearsed({ job: sandedJob(), before, at: laid(first) + 3 * 3_600_000 });
		second.toState('prep.sand');
		const sanded_h = (Date.parse(second.line().at) - laid(first)) / 3_600_000;
		expect(sanded_h).toBeGreaterThan(3.98);
		second.toEnd();
		expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
	});

	test('the plan counts the same', () => {
		const job = { ...sandedJob(), shop: { ...sandedJob().shop, air_C: 31 } };
		const [topcoat] = Object.values(job.materials);
		expect(topcoat && hardensAt_h(topcoat, 31)).toBe(2);
		const stages = [...job.stages, { kind: 'prep' as const, name: 'sand', step: 'sand' as const, grit: 400 }];
		const faces = smallJob().faces;
		const planned = planJob({ job: { ...job, stages, faces }, start: 0 }).stages;
		const sprayed_s = Math.max(...(planned[0]?.faces.map(({ planned_s }) => planned_s) ?? []));
		const sanded_s = Math.max(...(planned[1]?.faces.map(({ earliest_s }) => earliest_s) ?? []));
		expect((sanded_s - sprayed_s) / 3600).toBeGreaterThan(1.9);
	});
});
