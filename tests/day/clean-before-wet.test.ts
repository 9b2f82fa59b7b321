import { expect, test } from 'vitest';
import { historyAfter } from '../../src/day/history.ts';
import type { Line } from '../../src/day/rehearsal.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed, start } from './rehearsed.ts';
import { smallJob } from './small-job.ts';
import { stoolDay, stools } from './stools.ts';

/** Dusty and wet work comes before list, air and paint; nothing is tacked before all of it is done. */

const path = 'checklists/example/coffee-cart.yaml';

async function secondDay() {
	const loaded = await loadJob(path);
	const lists = loaded.ok ? await loadLists(loaded.job, path) : loaded;
	if (!loaded.ok || !lists.ok) throw new Error('the example does not load');
	const given = { job: loaded.job, lists: lists.lists };
	const first = rehearsed(given);
	first.toEnd();
	return { given, first, before: historyAfter(first.records()), at: start + 3 * 86_400_000 };
}

/** What is asked, each kind of question once for as often as it stands in a row. */
const courseOf = (states: readonly string[]) =>
	states.map(state => state.split('.')[0] ?? '').filter((kind, at, all) => kind !== all[at - 1]);

test('all parts are sanded, then all wiped, before list, air and pot; they are tacked before the gun is checked', async () => {
	const { given, before, at } = await secondDay();
	const states: string[] = [];
	const day = rehearsed({ ...given, before, at, watch: line => states.push(line.state) });
	states.push(day.line().state);
	day.until(({ state }) => state === 'spraying');
	const asked = ['prep.sand', 'prep.wipe', 'list', 'air', 'mix', 'prep.tack', 'gunCheck'];
	const first = (name: string) => states.findIndex(state => state.startsWith(name));
	expect(asked.map(first)).toEqual(asked.map(first).toSorted((one, other) => one - other));
	expect(asked.map(first)).not.toContain(-1);
	const last = (name: string) => states.findLastIndex(state => state.startsWith(name));
	expect(last('prep.sand')).toBeLessThan(first('prep.wipe'));
	expect(last('prep.wipe')).toBeLessThan(first('list'));
	expect(last('mix')).toBeLessThan(first('gunCheck'));
	expect(courseOf(states.slice(0, first('list')))).toEqual(['prep']);
	const faces = new Set(given.job.faces.map(({ id }) => id));
	expect(new Set(day.ofType('stage.done').map(({ face }) => face))).toEqual(faces);
});

test('nothing is tacked before the pot has stood, is strained and filled in: dust settles while it stands', async () => {
	const given = await stools();
	const states: string[] = [];
	const day = stoolDay(given, 0, undefined, line => states.push(line.state));
	day.until(({ state }) => state.startsWith('gunCheck'));
	const order = ['wait', 'mix.stood', 'load', 'prep.tack'];
	expect(courseOf(states).slice(-5)).toEqual(['wait', 'mix', 'load', 'prep', 'gunCheck']);
	expect(states.filter(state => order.includes(state))).toEqual(order);
	expect(states.at(-2)).toBe('prep.tack');
});

test('what is done on all parts is one answer, and by part a step of each', async () => {
	const { given, before, at } = await secondDay();
	const all = rehearsed({ ...given, before, at });
	all.toState('prep.sand');
	all.pick('done');
	expect(all.ofType('stage.done').length).toBe(given.job.faces.length);
	expect(all.line().state).toBe('prep.wipe');

	const one = rehearsed({ ...given, before, at });
	one.toState('prep.sand');
	const [part = ''] = given.job.faces.map(face => face.part);
	for (const code of ['part-by-part', part, 'done']) one.pick(code);
	const its = given.job.faces.filter(face => face.part === part).map(({ id }) => id);
	expect(one.ofType('stage.done').map(({ face }) => face)).toEqual(its);
	expect(one.line().state).toBe('prep.sand');
	expect(one.line().lines.join(' ')).not.toMatch(new RegExp(`\\b${part}\\b`, 'i'));
	one.until(({ state }) => state === 'spraying');
	expect(one.findings()).toEqual([]);
});

/** Two doors: one bare, one with a coat that is sanded before its next. */
function beside(step: 'sand' | 'tack') {
	const job = smallJob();
	const faces = job.faces.map(face => ({
		...face,
		coats: face.coats.map((coat, at) => ({
			...coat,
			stage: at,
			ofStage: [1, 1] as [number, number],
			prep: at === 1 ? [{ step, grit: step === 'sand' ? 600 : null }] : [],
		})),
	}));
	const stage = { kind: 'coats' as const, name: 'topcoat', material: 'topcoat', coats: ['full' as const] };
	const prep = { kind: 'prep' as const, name: step, step, grit: step === 'sand' ? 600 : null };
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('no topcoat');
	return {
		...job,
		materials: { topcoat: { ...topcoat, sandAfter: [] } },
		stages: [stage, prep, stage],
		faces: faces.map(face => ({
			...face,
			coats: face.coats.map(coat => ({ ...coat, stage: coat.stage * 2 })),
		})),
	};
}

/** The right door was coated two days ago, the left one gets its first coat now. */
function leftDoorFirst(step: 'sand' | 'tack') {
	const job = beside(step);
	const ended = new Date(start - 2 * 86_400_000).toISOString();
	const right = { coats: [{ coat: 1, ended, cup: ['A'], surfaceC: 21 }], prep: [], aside: null };
	const states: Line[] = [];
	const before = { faces: { 'right door/flat': right }, letters: 1 };
	const day = rehearsed({ job, before, watch: line => states.push(line) });
	return { day, states };
}

test.each(['sand', 'tack'] as const)('%s beside a coat that is still wet: dust waits for its flash', step => {
	const { day, states } = leftDoorFirst(step);
	day.until(({ state }) => state === `prep.${step}`);
	const [done] = states.filter(({ state }) => state === `prep.${step}`);
	const ended = day.ofType('face.ended').filter(({ face }) => face.startsWith('left'));
	expect(ended.length).toBeGreaterThan(0);
	const gone_min = (Date.parse(done?.at ?? '') - Date.parse(ended.at(-1)?.at ?? '')) / 60_000;
	if (step === 'sand') expect(gone_min).toBeGreaterThanOrEqual(45);
	else expect(gone_min).toBeLessThanOrEqual(45);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('while a checked gun waits, nothing is sanded: what needs no work is sprayed first', () => {
	const { day } = leftDoorFirst('sand');
	day.until(({ state }) => state === 'ready');
	const began = day.records().length;
	day.until(() => day.ofType('face.ended').length === 2);
	const made = day.records().slice(began);
	expect(made.filter(({ type }) => type === 'stage.done')).toEqual([]);
	const lost = made.flatMap(one => (one.type === 'gun.unknown' ? [one.why] : []));
	expect(lost.filter(why => why === 'break')).toEqual([]);
});

test('a part set aside is sanded and cleaned before the gun is filled, and not beside a wet coat', async () => {
	const { given, first, at } = await secondDay();
	const aside = rehearsed(given);
	aside.until(line => line.state === 'ready' && aside.ofType('face.ended').length > 3);
	const [face] = aside.ofType('face.ended').map(ended => ended.face);
	for (const code of ['trouble', 'wet-fault', 'run', face ?? '', 'set-part-aside']) aside.pick(code);
	aside.toEnd();
	expect(first.ofType('part.setAside')).toEqual([]);
	const states: string[] = [];
	const second = rehearsed({
		...given,
		before: historyAfter(aside.records()),
		at,
		watch: line => states.push(line.state),
	});
	second.until(({ state }) => state === 'spraying');
	const at1 = (name: string) => states.findIndex(state => state.startsWith(name));
	expect(at1('rework.sand')).toBeGreaterThanOrEqual(0);
	expect(at1('rework.clean')).toBeLessThan(at1('mix'));
	expect(second.findings()).toEqual([]);
});
