import { expect, test } from 'vitest';
import { historyAfter } from '../../src/day/history.ts';
import { nowAfter } from '../../src/day/now.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { foldAll } from '../../src/day/state.ts';
import { loadLists } from '../../src/job/lists.ts';
import { parseJob } from '../../src/job/load.ts';
import { planStages } from '../../src/plan/stages.ts';
import { tablesOf } from '../../src/report/tables/tables.ts';
import { trace } from '../../src/trace/trace.ts';
import { altered } from '../job/altered.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { builtIn } from '../trace/built-in.ts';
import { rehearsed, start } from './rehearsed.ts';

/** Work that the sheet asks for twice between two coats, and once more between the next two. */

const path = 'checklists/example/coffee-cart.yaml';
const face = 'canopy rail/front';

async function repeated(stages: string) {
	const loaded = parseJob(altered('  - sand: 400 grit\n  - wipe\n  - tack\n', stages), path);
	const lists = loaded.ok ? await loadLists(loaded.job, path) : loaded;
	if (!loaded.ok || !lists.ok) throw new Error('the altered example does not load');
	return { job: loaded.job, lists: lists.lists };
}
const twoGrits = () =>
	repeated('  - wipe\n  - sand: 400 grit\n  - fill\n  - sand: 600 grit\n  - wipe\n  - tack\n');

type Given = Awaited<ReturnType<typeof repeated>>;

/** The first day done, the second begun three days on. */
function onTheSecond(given: Given) {
	const first = rehearsed(given);
	first.toEnd();
	const before = historyAfter(first.records());
	return { first, second: rehearsed({ ...given, before, at: start + 3 * 86_400_000 }) };
}

/** What was recorded on a face, in order. */
const workOn = (day: ReturnType<typeof rehearsed>) =>
	day.records().flatMap(record => {
		if (record.type === 'stage.done' && record.face === face)
			return [record.grit === null ? record.stage : `${record.stage} ${record.grit}`];
		if (record.type === 'override.given' && record.face === face) return [`no ${record.step}`];
		return [];
	});

const whole = ['wipe', 'sand 400', 'fill', 'sand 600', 'wipe', 'tack'];

test('each step between two coats is asked for in its place, as often as it stands there', async () => {
	const { first, second } = onTheSecond(await twoGrits());
	second.until(line => line.state === 'spraying' && line.face === face);
	expect(workOn(second)).toEqual(whole);
	second.toEnd();
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('left out with a reason is one step in its one place: the same work later on is still asked for', async () => {
	const { first, second } = onTheSecond(await twoGrits());
	for (const state of ['prep.wipe', 'prep.sand']) {
		second.toState(state);
		for (const code of ['part-by-part', 'canopy rail', 'skip', 'owner']) second.pick(code);
	}
	second.until(line => line.state === 'spraying' && line.face === face);
	expect(workOn(second)).toEqual(['no wipe', 'no sand', ...whole.slice(2)]);
	second.toEnd();
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('a day goes on where the day before stopped in the list; now, the plan and the calendar say so too', async () => {
	const given = await twoGrits();
	const { first, second } = onTheSecond(given);
	second.until(line => line.state === 'prep.sand' && workOn(second).length === 3);
	second.send('hold');
	for (const code of ['close', 'close']) second.pick(code);
	const before = historyAfter(second.records());
	const now = nowAfter(second.records(), start + 4 * 86_400_000);
	expect(now.find(each => each.face === face)?.next).toMatchObject({ may: 'prep', step: 'sand', for: 3 });
	const left = planStages({ job: given.job, history: before.faces, start: start + 4 * 86_400_000 })
		.filter(stage => stage.kind === 'prep' && stage.faces.some(each => each.face === face))
		.map(stage => stage.name);
	expect(left).toEqual(['sand', 'wipe', 'tack']);
	const due = tablesOf(second.records()).due.filter(each => each.face === face);
	expect(due.map(({ what }) => what)).toEqual(['sand', 'stage']);
	const third = rehearsed({ ...given, before, at: start + 4 * 86_400_000 });
	third.until(line => line.state === 'spraying' && line.face === face);
	expect(workOn(third)).toEqual(whole.slice(3));
	third.toEnd();
	expect(checkDayFile(third.bytes(), [first.bytes(), second.bytes()])).toEqual([]);
});

test('faces of a part that stand at two sandings are asked for each by its own grit', async () => {
	const given = await twoGrits();
	const { second } = onTheSecond(given);
	second.toState('prep.sand');
	second.send('hold');
	for (const code of ['close', 'close']) second.pick(code);
	const before = historyAfter(second.records());
	const { 'counter lid/edges': edges, 'counter lid/top': top } = before.faces;
	if (!edges || !top) throw new Error('the counter lid is missing');
	const at = new Date(start + 4 * 86_400_000 - 3_600_000).toISOString();
	const until = (steps: number) =>
		(['wipe', 'sand', 'fill'] as const).slice(0, steps).map((step, place) => ({ step, place, at }));
	const faces = {
		...before.faces,
		'counter lid/edges': { ...edges, prep: until(1) },
		'counter lid/top': { ...top, prep: until(3) },
	};
	const third = rehearsed({ ...given, before: { ...before, faces }, at: start + 4 * 86_400_000 });
	third.until(line => line.state === 'spraying');
	const lid = (name: string) =>
		third
			.ofType('stage.done')
			.filter(record => record.face === `counter lid/${name}` && record.stage === 'sand')
			.map(({ grit }) => grit);
	expect(lid('edges')).toEqual([400, 600]);
	expect(lid('top')).toEqual([600]);
	third.toEnd();
	expect(third.findings()).toEqual([]);
});

test('a trace names the step that was not recorded in its place, where one of its name was', async () => {
	const { first, second } = onTheSecond(await twoGrits());
	second.toEnd();
	const wiped = second
		.ofType('stage.done')
		.findLast(record => record.face === face && record.stage === 'wipe');
	const days = [first.records(), second.records().filter(({ seq }) => seq !== wiped?.seq)];
	const reasonsIn = (given: readonly (readonly DayRecord[])[]) =>
		trace({ days: given, fault: 'peeling', face, coat: 3 }, builtIn)
			.candidates.find(({ code }) => code === 'surface')
			?.reasons.join('; ');
	expect(reasonsIn(days)).toContain('not recorded: wipe');
	expect(reasonsIn([first.records(), second.records()])).not.toContain('not recorded: wipe');
});

/** The records as an older program wrote them: without places, a step that stands twice done once. */
function older(records: readonly DayRecord[]): DayRecord[] {
	const seen = new Set<string>();
	return records.flatMap((record): DayRecord[] => {
		if (record.type !== 'stage.done') return [record];
		const key = `${record.face} ${record.stage}`;
		if (seen.has(key)) return [];
		seen.add(key);
		const { place: _, ...rest } = record;
		return [rest];
	});
}

test('a day of an older program, which did such a step once, is still read', async () => {
	const { second } = onTheSecond(await twoGrits());
	second.toEnd();
	const read = foldAll(older(second.records()));
	expect(read.machine.value).toBe('closed');
	expect(read.book.faces.get(face)?.laid.length).toBe(5);
});

test('a wait that stands between two steps counts from the step before it, not from the coat', async () => {
	const given = await repeated('  - sand: 400 grit\n  - fill\n  - wait: 3 h\n  - wipe\n  - tack\n');
	const { first, second } = onTheSecond(given);
	const ended: Record<string, string> = {};
	second.until(line => line.state === 'spraying' && line.face === face);
	for (const done of second.ofType('stage.done')) if (done.face === face) ended[done.stage] = done.at;
	const between_h = (one: string, other: string) =>
		(Date.parse(ended[other] ?? '') - Date.parse(ended[one] ?? '')) / 3_600_000;
	expect(between_h('sand', 'fill')).toBeLessThan(0.5);
	expect(between_h('fill', 'wipe')).toBeGreaterThanOrEqual(3);
	expect(between_h('fill', 'wipe')).toBeLessThan(3.5);
	second.toEnd();
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('filler put on in the evening is waited for on the next day too, from when it was put on', async () => {
	const given = await repeated('  - sand: 400 grit\n  - fill\n  - wait: 20 h\n  - wipe\n  - tack\n');
	const { first, second } = onTheSecond(given);
	second.until(() => second.ofType('stage.done').some(({ stage }) => stage === 'fill'));
	second.until(({ state }) => state.startsWith('finish'));
	second.toEnd();
	const filled = Date.parse(second.ofType('stage.done').find(({ stage }) => stage === 'fill')?.at ?? '');
	const morning = filled + 17 * 3_600_000;
	const before = historyAfter(second.records());
	const third = rehearsed({ ...given, before, at: morning });
	third.toState('prep.wipe');
	expect((Date.parse(third.line().at) - filled) / 3_600_000).toBeGreaterThanOrEqual(20);
	third.toEnd();
	expect(checkDayFile(third.bytes(), [first.bytes(), second.bytes()])).toEqual([]);
});

async function unmasked(wait: string) {
	const loaded = parseJob(
		altered('    coats: [tack, medium, full]\n', `    coats: [tack, medium, full]\n${wait}  - unmask\n`),
		path,
	);
	const lists = loaded.ok ? await loadLists(loaded.job, path) : loaded;
	if (!loaded.ok || !lists.ok) throw new Error('the altered example does not load');
	return { job: loaded.job, lists: lists.lists };
}

test('work after the last coat is asked for once the gun is clean, on every face, and once', async () => {
	const given = await unmasked('');
	const { first, second } = onTheSecond(given);
	second.toState('prep.unmask');
	expect(second.ofType('check.began').some(({ list }) => list === 'clean-up')).toBe(true);
	second.pick('done');
	expect(second.line().state).toBe('finish.close');
	const faces = second.ofType('stage.done').filter(({ stage }) => stage === 'unmask');
	expect(faces.map(one => one.face).toSorted()).toEqual(given.job.faces.map(({ id }) => id).toSorted());
	second.toEnd();
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('work after the last coat that has to wait is offered when it is due, and on the next day if the day ends before', async () => {
	const given = await unmasked('  - wait: 2 h\n');
	const { first, second } = onTheSecond(given);
	second.toState('finish.close');
	expect(second.ofType('stage.done').some(({ stage }) => stage === 'unmask')).toBe(false);
	expect(second.line().lines.join(' ')).toMatch(/in 1 h|in 11\d min/);
	second.pick('stay');
	second.toState('prep.unmask');
	const closing = onTheSecond(given).second;
	closing.toState('finish.close');
	closing.pick('close');
	const before = historyAfter(closing.records());
	const now = nowAfter(closing.records(), start + 4 * 86_400_000);
	expect(now.find(one => one.face === face)?.next).toMatchObject({ may: 'prep', step: 'unmask' });
	const third = rehearsed({ ...given, before, at: start + 4 * 86_400_000 });
	expect(third.line().state).toBe('prep.unmask');
	third.toEnd();
	expect(first.findings()).toEqual([]);
});
