import { expect, test } from 'vitest';
import { historyAfter } from '../../src/day/history.ts';
import { nowAfter } from '../../src/day/now.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { beginInspection, hear } from '../../src/trace/inspect.ts';
import { timeAt_h } from '../../src/trade/time.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { rehearsed, start } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

const sheet = 'checklists/example/coffee-cart.yaml';

async function example() {
	const loaded = await loadJob(sheet);
	const lists = loaded.ok ? await loadLists(loaded.job, sheet) : loaded;
	if (!loaded.ok || !lists.ok) throw new Error('the example does not load');
	return { job: loaded.job, lists: lists.lists };
}

/** The example with materials that may be laid on a surface of 14.5 °C. */
async function coolExample() {
	const { job, lists } = await example();
	const materials = Object.fromEntries(
		Object.entries(job.materials).map(([id, material]) => [
			id,
			{ ...material, limits: { ...material.limits, surface_C: [10, 35] satisfies [number, number] } },
		]),
	);
	return { job: { ...job, materials }, lists };
}

test('the second day begins where the first ended: sanded, wiped, tacked, then the topcoats, under new letters', async () => {
	const given = await example();
	const first = rehearsed(given);
	first.toEnd();
	const second = rehearsed({
		...given,
		before: historyAfter(first.records()),
		at: start + 3 * 86_400_000,
	});
	second.toEnd();
	expect([...new Set(second.ofType('stage.done').map(({ stage }) => stage))]).toEqual([
		'sand',
		'wipe',
		'tack',
	]);
	expect([...new Set(second.ofType('face.started').map(({ coat }) => coat))]).toEqual([3, 4, 5]);
	const letters = (day: typeof first) => day.ofType('batch.started').map(({ batch }) => batch);
	expect(letters(first).some(letter => letters(second).includes(letter))).toBe(false);
	expect(
		second
			.ofType('reading.taken')
			.filter(({ feature, value }) => feature === 'breathing' && value !== 'supplied-air'),
	).toEqual([]);
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('a part set aside on the first day is on its own line on the second', async () => {
	const given = await example();
	const first = rehearsed(given);
	first.until(({ state, face }) => state === 'spraying' && face === 'left door/outside');
	first.send('wait 15 s');
	for (const code of ['trouble', 'wet-fault', 'all', 'run', 'left door/outside', 'set-part-aside', 'back'])
		first.pick(code);
	first.toEnd();
	const second = rehearsed({ ...given, before: historyAfter(first.records()), at: start + 3 * 86_400_000 });
	second.toEnd();
	const steps = second.ofType('rework.done').filter(({ face }) => face === 'left door/outside');
	expect(steps.map(({ step }) => step).slice(0, 3)).toEqual(['set-up', 'sand', 'clean']);
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('a face broken off when the day was closed is not gone over from its start: it is sanded flat first', () => {
	const first = rehearsed();
	first.until(({ state, face }) => state === 'spraying' && face === 'left door/flat');
	first.send('wait 15 s', 'hold');
	for (const code of ['close', 'part', 'cannot-tell']) first.pick(code);
	expect(first.line().lines.join(' ')).toContain('Left door flat: broken off, it is set aside.');
	first.pick('close');
	expect(first.line().ask).toBe('closed');
	expect(first.findings()).toEqual([]);
	const second = rehearsed({ before: historyAfter(first.records()), at: start + 49 * 3_600_000 });
	second.toEnd();
	const of = (type: 'rework.done' | 'face.started') =>
		second.ofType(type).filter(({ face }) => face === 'left door/flat');
	const sanded = of('rework.done').map(({ seq }) => seq);
	expect(sanded.length).toBeGreaterThanOrEqual(3);
	expect(of('face.started')[0]?.seq).toBeGreaterThan(sanded[2] ?? Number.POSITIVE_INFINITY);
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('a face sanded flat after its last coat, and not sprayed again that day, gets its coat on the next', () => {
	const first = rehearsed();
	first.toState('finish');
	first.send('hold');
	for (const code of ['trouble', 'wet-fault', 'run', 'left door/flat', 'set-face-aside', 'back'])
		first.pick(code);
	first.toState('finish');
	first.pick('stay');
	first.toState('rework.clean');
	first.pick('done');
	first.send('hold');
	for (const code of ['close', 'close']) first.pick(code);
	expect(first.findings()).toEqual([]);
	const before = historyAfter(first.records());
	const second = rehearsed({ before, at: start + 5 * 86_400_000 });
	second.toEnd();
	expect(second.ofType('rework.done').map(({ step }) => step)).toEqual(['clean', 'respray']);
	expect(second.ofType('face.ended').map(({ face, extent }) => [face, extent])).toEqual([
		['left door/flat', 'all'],
	]);
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('topcoating on the day after the primer waits for the cure that the sheet asks for', async () => {
	const given = await example();
	const first = rehearsed(given);
	first.toEnd();
	const second = rehearsed({ ...given, before: historyAfter(first.records()), at: start + 20 * 3_600_000 });
	second.until(({ state }) => state.startsWith('finish'));
	expect(second.ofType('face.started')).toEqual([]);
	expect(second.line().lines.join(' ')).toMatch(/in 2\d h/);
});

/** The small job with a recoat table that a warm surface shortens; invented. */
function warmJob() {
	const job = smallJob();
	const row = (from_C: number, to_C: number, opens_h: number, closes_h: number) => ({
		from_C,
		to_C,
		windows: [
			{ does: 'wait' as const, from_h: 0, until_h: opens_h },
			{ does: 'spray' as const, from_h: opens_h, until_h: closes_h },
			{ does: 'sand' as const, from_h: closes_h, until_h: null },
		],
	});
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has no topcoat');
	const warm = {
		...topcoat,
		recoat: [{ under: 'topcoat', rows: [row(15, 24, 0.75, 30), row(24.01, 40, 0.5, 12)] }],
	};
	return { ...job, materials: { topcoat: warm } };
}

test('the highest surface temperature of yesterday still rules the windows of a coat laid then', () => {
	const job = warmJob();
	const first = rehearsed({ job });
	first.painter.world.air.surface_C = 32;
	first.until(({ state, coat }) => state === 'wait' && coat === 2);
	first.send('hold');
	for (const code of ['close', 'close']) first.pick(code);
	const second = rehearsed({ job, before: historyAfter(first.records()), at: start + 20 * 3_600_000 });
	second.painter.world.air.surface_C = 20;
	second.until(({ state }) => state === 'spraying' || state === 'prep.sand');
	expect(second.ofType('window.set')[0]?.surfaceC).toBe(32);
	expect(second.line().state).toBe('prep.sand');
	second.toEnd();
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('a day on which the air is never read hands on the surface temperature that it was given', () => {
	const job = warmJob();
	const first = rehearsed({ job });
	first.painter.world.air.surface_C = 32;
	first.until(({ state, coat }) => state === 'wait' && coat === 2);
	first.send('hold');
	for (const code of ['close', 'close']) first.pick(code);
	const second = rehearsed({ job, before: historyAfter(first.records()), at: start + 20 * 3_600_000 });
	second.send('hold');
	for (const code of ['close', 'close']) second.pick(code);
	const handedOn = Object.values(historyAfter(second.records()).faces);
	expect(handedOn.flatMap(({ coats }) => coats.map(({ surfaceC }) => surfaceC))).toEqual([32, 32, 32]);
});

test('a primer that is still too soft by the sheet is not sanded: the sanding waits', async () => {
	const given = await coolExample();
	const first = rehearsed(given);
	Object.assign(first.painter.world.air, { C: 15, surface_C: 14.5 });
	first.toEnd();
	const primed = Date.parse(first.ofType('face.ended').at(-1)?.at ?? '');
	const before = historyAfter(first.records());
	const second = rehearsed({ ...given, before, at: start + 3 * 86_400_000 });
	Object.assign(second.painter.world.air, { C: 16, surface_C: 14.5 });
	second.until(({ state }) => state.startsWith('finish') || state.startsWith('prep'));
	expect(second.line().state).toBe('finish');
	second.pick('stay');
	second.toState('prep.sand');
	const { sandAfter, factorPer10C } = given.job.materials.primer ?? { sandAfter: [], factorPer10C: 2 };
	const hardened_h = timeAt_h(sandAfter, 14.5, factorPer10C);
	expect(hardened_h).toBeGreaterThan(80);
	const hours = (Date.parse(second.ofType('wait.ended').at(-1)?.at ?? '') - primed) / 3_600_000;
	expect(Math.abs(hours - hardened_h)).toBeLessThan(1);
	second.toEnd();
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('a sanding that cannot wait is asked for with a reason, and done', async () => {
	const given = await coolExample();
	const first = rehearsed(given);
	Object.assign(first.painter.world.air, { C: 15, surface_C: 14.5 });
	first.toEnd();
	const before = historyAfter(first.records());
	const second = rehearsed({ ...given, before, at: start + 3 * 86_400_000 + 10 * 3_600_000 });
	Object.assign(second.painter.world.air, { C: 16, surface_C: 14.5 });
	second.toState('wait');
	expect(second.line().say).toMatch(/^Wait .*: the coat hardens\.$/);
	for (const code of ['sooner', 'test-piece']) second.pick(code);
	second.toState('prep.sand');
	second.toEnd();
	expect(second.ofType('override.given')[0]?.rule).toBe('window');
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('a coat broken off and set aside sets up by its own material, not by the one under it', async () => {
	const given = await example();
	const first = rehearsed(given);
	first.toEnd();
	const before = historyAfter(first.records());
	const second = rehearsed({ ...given, before, at: start + 3 * 86_400_000 });
	second.until(({ state, face }) => state === 'spraying' && face === 'left door/outside');
	second.send('wait 10 s');
	for (const code of [
		'trouble',
		'wet-fault',
		'part',
		'cannot-tell',
		'run',
		'left door/outside',
		'set-part-aside',
		'back',
	])
		second.pick(code);
	second.toEnd();
	const since = Date.parse(second.ofType('part.setAside')[0]?.at ?? '');
	const { topcoat } = given.job.materials;
	const surfaceC = second.ofType('air.read')[0]?.surfaceC ?? 0;
	const hours = timeAt_h(topcoat?.sandAfter ?? [], surfaceC, topcoat?.factorPer10C ?? 2);
	const after = historyAfter(second.records()).faces;
	expect(after['left door/outside']?.aside?.coat).toBe(3);
	const end = Date.parse(second.records().at(-1)?.at ?? '');
	const next = nowAfter(second.records(), end).find(({ face }) => face === 'left door/outside')?.next;
	expect(next).toMatchObject({ may: 'rework', step: 'set-up' });
	expect((((next?.may === 'rework' ? next.from : null) ?? 0) - since) / 3_600_000).toBeCloseTo(hours, 1);
	const third = rehearsed({
		...given,
		before: historyAfter(second.records()),
		at: since + hours * 3_600_000 + 60_000,
	});
	third.toState('rework.set-up');
	expect(Date.parse(third.line().at) - since - hours * 3_600_000).toBeLessThan(3_600_000);
	third.toEnd();
	expect(checkDayFile(third.bytes(), [first.bytes(), second.bytes()])).toEqual([]);
});

test('a face judged to need rework in the inspection gets no coat on the next day before its line is done', () => {
	const first = rehearsed();
	first.until(({ state, coat }) => state === 'wait' && coat === 2);
	first.send('hold');
	for (const code of ['close', 'close']) first.pick(code);
	let inspection = beginInspection(first.records());
	const events = [
		'face left door/flat',
		'rework a run under the rail',
		'face left door/flat',
		'rework seen again',
	].flatMap(said => {
		const heard = hear(inspection, said, { faults: {}, causes: {} });
		inspection = heard.inspection;
		return heard.events;
	});
	expect(events.filter(({ type }) => type === 'part.setAside')).toEqual([
		{
			...{ type: 'part.setAside', part: 'left door', faces: ['left door/flat'] },
			...{ faulty: ['left door/flat'], why: 'a run under the rail' },
		},
	]);
	const last = first.records().at(-1);
	const judged = events.map(
		(event, nth): DayRecord => ({
			...{
				seq: (last?.seq ?? 0) + 1 + nth,
				run: 2,
				at: new Date(start + 12 * 3_600_000).toISOString(),
				mono: 0,
			},
			...event,
		}),
	);
	const before = historyAfter([...first.records(), ...judged]);
	const second = rehearsed({ before, at: start + 3 * 86_400_000 });
	second.toEnd();
	const steps = second.ofType('rework.done').filter(({ face }) => face === 'left door/flat');
	expect(steps.map(({ step }) => step).slice(0, 3)).toEqual(['set-up', 'sand', 'clean']);
	const started = second.ofType('face.started').find(({ face }) => face === 'left door/flat');
	expect(started?.seq).toBeGreaterThan(steps[2]?.seq ?? Number.POSITIVE_INFINITY);
	expect(second.findings()).toEqual([]);
});
