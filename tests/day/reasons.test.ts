import { expect, test } from 'vitest';
import { historyAfter } from '../../src/day/history.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { wordOf } from '../../src/screen/word.ts';
import { rehearsed, start } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

async function example() {
	const sheet = 'checklists/example/coffee-cart.yaml';
	const loaded = await loadJob(sheet);
	const lists = loaded.ok ? await loadLists(loaded.job, sheet) : loaded;
	if (!loaded.ok || !lists.ok) throw new Error('the example job cannot be loaded');
	return { job: loaded.job, lists: lists.lists };
}

/** What was told of a face, up to the start of its coat. */
const toldOf = (day: ReturnType<typeof rehearsed>, face: string | null) =>
	day.records().flatMap(record => {
		if (record.type === 'stage.done' && record.face === face) return [record.stage];
		if (record.type === 'override.given' && record.face === face) return [`no ${record.step}`];
		return [];
	});

test('a reason to go on in bad air ends with the next air reading: it is asked for again', () => {
	const day = rehearsed();
	const { air } = day.painter.world;
	air.humidity = 0.87;
	day.toState('air.no');
	day.pick('go-on');
	day.pick('test-piece');
	air.humidity = 0.97;
	day.toState('mix.begin');
	day.send('wait 5 h');
	day.until(() => day.ofType('air.read').length === 2);
	expect(day.line().state).toBe('air.no');
	day.pick('go-on');
	day.pick('test-piece');
	day.toAsk('spraying');
	expect(day.ofType('face.started')[0]).toMatchObject({ facts: { air: 'out' }, overrides: ['air'] });
	expect(day.findings()).toEqual([]);
});

test('a reason to go on in bad air is not carried over to good air', () => {
	const day = rehearsed();
	const { air } = day.painter.world;
	air.humidity = 0.87;
	day.toState('air.no');
	day.pick('go-on');
	day.pick('test-piece');
	air.humidity = 0.5;
	day.toState('mix.begin');
	day.send('wait 5 h');
	day.toEnd();
	expect(day.ofType('face.started').flatMap(({ overrides }) => overrides)).toEqual([]);
	expect(day.findings()).toEqual([]);
});

test('a reason not to wait holds for the wait, and not for the sanding that hours later stands in its place', () => {
	const day = rehearsed();
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	const { face } = day.line();
	day.pick('sooner');
	day.pick('data-sheet');
	day.send('hold', 'wait 10 h');
	day.pick('back');
	day.toState('prep.sand');
	day.until(line => line.state === 'spraying' && line.face === face);
	expect(day.ofType('stage.done')).toContainEqual(expect.objectContaining({ face, stage: 'sand' }));
	expect(day.ofType('face.started').at(-1)).toMatchObject({ face, coat: 2, window: 'sand' });
	expect(day.findings()).toEqual([]);
});

test('a step left out with a reason is left out alone: wiping passed over, the tack cloth is still asked for', async () => {
	const day = rehearsed(await example());
	day.toState('prep.wipe');
	day.pick('skip');
	day.pick('owner');
	const face = day.ofType('override.given')[0]?.face ?? '';
	day.toState('prep.tack');
	day.until(line => line.state === 'spraying' && line.face === face);
	expect(toldOf(day, face)).toEqual(['no wipe', 'tack']);
	expect(day.ofType('face.started')[0]?.overrides).toEqual(['prep']);
	expect(day.findings()).toEqual([]);
});

test('a sanding left out with a reason is not asked for again by the recoat window', async () => {
	const given = await example();
	const first = rehearsed(given);
	first.toEnd();
	const before = historyAfter(first.records());
	const second = rehearsed({ ...given, before, at: start + 5 * 86_400_000 });
	second.toState('prep.sand');
	second.pick('skip');
	second.pick('owner');
	const face = second.ofType('override.given')[0]?.face ?? '';
	expect(second.line().state).toBe('prep.wipe');
	second.until(line => line.state === 'spraying' && line.face === face);
	expect(toldOf(second, face)).toEqual(['no sand', 'wipe', 'tack']);
	expect(second.findings()).toEqual([]);
});

test('once cleaned up, no reason is asked for a coat that nothing could spray any more', () => {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	const windows = [
		{ does: 'wait' as const, from_h: 0, until_h: 0.75 },
		{ does: 'spray' as const, from_h: 0.75, until_h: 3 },
		{ does: 'wait' as const, from_h: 3, until_h: null },
	];
	const recoat = [{ under: 'topcoat', rows: [{ from_C: 15, to_C: 30, windows }] }];
	const day = rehearsed({ job: { ...job, materials: { topcoat: { ...topcoat, recoat } } } });
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	day.send('hold', 'wait 4 h');
	day.pick('back');
	const offers = (state: string) =>
		Object.values(day.toState(state).corners).some(({ code }) => code === 'sooner');
	expect(offers('finish')).toBe(true);
	expect(offers('finish.close')).toBe(false);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a reason not to wait for the flash does not cover a later time in which nothing may be sprayed', () => {
	const day = rehearsed();
	day.toState('wait');
	day.pick('sooner');
	day.pick('owner');
	// The sheet: nothing may be sprayed from hour 3 to hour 8.
	day.send('hold', 'wait 4 h');
	day.pick('back');
	const asked = day.until(({ state, ask }) => state === 'wait' || ask === 'spraying');
	expect(asked.state).toBe('wait');
	expect(day.ofType('face.started').filter(({ coat }) => coat === 2)).toEqual([]);
});

const keeping = (day: ReturnType<typeof rehearsed>) =>
	Object.values(day.line().corners).find(({ code }) => code === 'not')?.text;

test('the answer that keeps a rule says in its own words what is done then', () => {
	const day = rehearsed();
	const { air } = day.painter.world;
	air.humidity = 0.87;
	day.toState('air.no');
	day.pick('go-on');
	expect(keeping(day)).toBe('DO NOT SPRAY');
	day.pick('not');
	air.humidity = 0.5;
	day.pick('read-again');
	day.toState('mix.cup.seconds');
	day.send('number 30', 'number 21');
	day.pick('use-as-is');
	expect(keeping(day)).toBe('DO NOT USE IT');
	day.pick('not');
	day.toState('wait');
	day.pick('sooner');
	expect(keeping(day)).toBe('WAIT AFTER ALL');
	day.pick('own-words');
	expect(keeping(day)).toBe('WAIT AFTER ALL');
	day.pick('not');
	expect(day.line().state).toBe('wait');
	expect(day.ofType('override.given')).toEqual([]);
});

test('under the question why a part is not wiped stands to wipe it', async () => {
	const day = rehearsed(await example());
	day.toState('prep.wipe');
	day.pick('skip');
	expect(keeping(day)).toBe('WIPE IT');
});

test('an item that is not done is called so, in large letters and in the sentence below', () => {
	const day = rehearsed();
	day.toState('list.before-spraying.extractor');
	day.pick('stopped');
	expect(day.line()).toMatchObject({
		state: 'list.open.extractor',
		say: 'Extractor: not done. The list stays here.',
	});
	expect(wordOf({ ...day.line(), rehearsal: true }, '')).toBe('NOT DONE');
	day.pick('own-words');
	expect(keeping(day)).toBe('ASK AGAIN');
});

test('a reason to sand one face sooner takes no other of its part along whose coat still hardens', () => {
	const job = smallJob();
	const { topcoat } = job.materials;
	if (!topcoat) throw new Error('the small job has one material');
	const faces = job.faces.map(face => ({
		...face,
		coats: face.coats.map((coat, at) =>
			at === 1 ? { ...coat, prep: [{ step: 'sand' as const, grit: 400 }] } : coat,
		),
	}));
	const materials = { topcoat: { ...topcoat, sandAfter: [{ at_C: 21, hours: 2 }] } };
	const day = rehearsed({ job: { ...job, materials, faces }, settings: { by: 'face' } });
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	expect(day.line().face).toBe('left door/edges');
	for (const code of ['sooner', 'test-piece']) day.pick(code);
	day.until(({ state }) => state === 'prep.sand');
	day.pick('done');
	expect(day.ofType('stage.done').map(({ face }) => face)).toEqual(['left door/edges']);
	day.toEnd();
	const flat = day.ofType('stage.done').find(({ face }) => face === 'left door/flat');
	const laid = day.ofType('face.ended').find(({ face }) => face === 'left door/flat');
	expect(Date.parse(flat?.at ?? '') - Date.parse(laid?.at ?? '')).toBeGreaterThanOrEqual(2 * 3_600_000);
	expect(day.findings()).toEqual([]);
});
