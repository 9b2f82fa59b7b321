import { expect, test } from 'vitest';
import { loadLists } from '../../src/job/lists.ts';
import { parseJob } from '../../src/job/load.ts';
import { notesOf } from '../../src/job/notes.ts';
import { altered } from '../job/altered.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { rehearsed } from './rehearsed.ts';
import { stoolDay, stools, workSince } from './stools.ts';

/** A part that lies flat and is sprayed on both sides: one side of all parts, the turning, the other side. */

const sheet = 'checklists/example/coffee-cart.yaml';
const part = 'counter lid';
const under = `${part}/underside`;

/** The lid of the example with an underside that lies flat as its top does, and what each says of turning. */
const twoSided = (first = '', second = '') =>
	altered(
		`  - part: ${part}\n    place: 2\n    faces:\n`,
		`  - part: ${part}\n    place: 2\n    faces:\n      - face: underside\n        attitude: flat\n        near edge: hinge edge\n${first}        stroke: to and fro\n        size: 36 in x 24 in\n`,
	).replace('      - face: top\n', `      - face: top\n${second}`);

async function played(text: string) {
	const loaded = parseJob(text, sheet);
	const lists = loaded.ok ? await loadLists(loaded.job, sheet) : loaded;
	if (!loaded.ok || !lists.ok) throw new Error('the altered example does not load');
	const asked: string[] = [];
	const day = rehearsed({ job: loaded.job, lists: lists.lists, watch: line => asked.push(line.state) });
	return { job: loaded.job, day, asked };
}

test('two faces of a part lie flat: one side of all parts has its coats, then the part is turned, then the other', async () => {
	const { job, day } = await played(twoSided());
	day.until(line => line.state.startsWith('prep.turn over'));
	const [first, other] = [job.faces.filter(face => !face.turned), job.faces.filter(face => face.turned)];
	expect(other.map(({ id }) => id)).toEqual([`${part}/edges`, `${part}/top`]);
	const laid = () => day.ofType('face.ended').map(({ face, coat }) => `${face} ${coat}`);
	const both = (faces: readonly { id: string }[]) => faces.flatMap(({ id }) => [`${id} 1`, `${id} 2`]);
	expect(new Set(laid())).toEqual(new Set(both(first)));
	expect(day.line().say).toBe('Counter lid: turn over, top side up.');
	expect(day.line().lines.join(' ')).toMatch(/dry to handle.*data sheet/i);
	day.toEnd();
	expect(new Set(laid())).toEqual(new Set(both(job.faces)));
	expect(
		day
			.ofType('stage.done')
			.filter(({ stage }) => stage === 'turn over')
			.map(({ face }) => face),
	).toEqual(other.map(({ id }) => id));
	expect(day.findings()).toEqual([]);
});

test('while a coat is wet no part is turned over', async () => {
	const { day, asked } = await played(twoSided());
	day.until(line => line.state.startsWith('prep.turn over'));
	const last = day.ofType('face.ended').at(-1);
	const flash_ms = 30 * 60_000;
	expect(Date.parse(day.line().at) - Date.parse(last?.at ?? '')).toBeGreaterThanOrEqual(flash_ms);
	expect(asked.lastIndexOf('spraying')).toBeLessThan(asked.indexOf('wait', asked.lastIndexOf('spraying')));
});

test('what is turned is wiped and tacked after the turning, the first side before it', async () => {
	const { day } = await played(twoSided());
	day.toEnd();
	const did = (face: string) =>
		day
			.ofType('stage.done')
			.filter(one => one.face === face)
			.map(({ stage }) => stage);
	expect(did(under)).toEqual(['wipe', 'tack']);
	expect(did(`${part}/top`)).toEqual(['turn over', 'wipe', 'tack']);
});

test('what is sanded before the stage is sanded on both sides before the first is sprayed', async () => {
	const { day } = await played(
		twoSided().replace('stages:\n  - wipe\n', 'stages:\n  - sand: 240 grit\n  - wipe\n'),
	);
	day.toState('spraying');
	const sanded = day
		.ofType('stage.done')
		.filter(({ stage }) => stage === 'sand')
		.map(({ face }) => face);
	expect(sanded).toContain(`${part}/top`);
});

test('a sheet says which faces are reached by turning, or that none is', async () => {
	const said = parseJob(twoSided('        turned over: yes\n', '        turned over: no\n'), sheet);
	const none = parseJob(twoSided('        turned over: no\n', '        turned over: no\n'), sheet);
	const unsaid = parseJob(twoSided(), sheet);
	if (!said.ok || !none.ok || !unsaid.ok) throw new Error('a sheet that says it does not load');
	expect(said.job.faces.filter(face => face.turned).map(({ id }) => id)).toEqual([under]);
	const turns = (job: typeof said.job) =>
		job.stages.filter(stage => stage.kind === 'prep' && stage.step === 'turn over').length;
	expect([said, none, unsaid].map(({ job }) => turns(job))).toEqual([3, 0, 3]);
	const notes = (job: typeof said.job) => notesOf(job, 'us').filter(note => /lie flat/.test(note));
	expect(notes(unsaid.job)).toEqual([
		expect.stringContaining('part counter lid: underside and top lie flat'),
	]);
	expect([...notes(said.job), ...notes(none.job)]).toEqual([]);
});

test('a face that is to be sprayed after one on the other side cannot lie on the first', () => {
	const wrong = parseJob(twoSided('        after: [top]\n', '        turned over: yes\n'), sheet);
	expect(wrong.ok ? [] : wrong.errors.map(({ says }) => says)).toEqual([
		expect.stringMatching(/underside, after: counter lid\/top is reached once the part is turned over/),
	]);
});

test('beside coats of today solvent is kept off them, and beside finished parts they are covered: each is named', async () => {
	const given = await stools();
	const first = stoolDay(given, 0);
	const beside = (day: typeof first) => day.line().lines[0];
	first.toState('prep.wipe');
	expect(first.line().lines.join(' ')).not.toMatch(/coated/);
	first.toState('prep.turn over');
	first.toState('prep.wipe');
	expect(beside(first)).toBe('Legs 1, 2 tubes; seat 1, 2 underside: coated, keep solvent off.');
	first.toEnd();
	const second = stoolDay(given, 1, first.records());
	second.toState('prep.tack');
	expect(second.line().lines.join(' ')).not.toMatch(/finished/);
	second.until(({ state }) => state === 'touch.turning');
	second.toState('prep.tack');
	expect(beside(second)).toBe('Legs 1, 2 tubes: finished, cover or move out.');
});

test('parts left with their second side up are worked on that side, turned back, then worked on the first', async () => {
	const given = await stools();
	const first = stoolDay(given, 0);
	first.toEnd();
	const second = stoolDay(given, 1, first.records());
	const told: string[] = [];
	second.until(({ state, say }) => {
		if (state.startsWith('prep') && !told.includes(say)) told.push(say);
		return state === 'spraying';
	});
	expect(told).toEqual([
		'2 parts: sand with 320 grit, top side up, 4 faces.',
		'2 parts: wipe, top side up, 4 faces.',
		'2 parts: turn over, underside up.',
		'4 parts: sand with 320 grit, underside up, 4 faces.',
		'4 parts: wipe, underside up, 4 faces.',
		'4 parts: tack rag, underside up, 4 faces.',
	]);
	second.until(({ state }) => state === 'prep.turn over');
	expect(second.line().say).toBe('2 parts: turn over, top side up.');
	second.toEnd();
	const did = (face: string) => workSince(second).filter(one => one.endsWith(face));
	expect(did('seat 1/underside')[0]).toBe('turn over seat 1/underside');
	expect(did('seat 1/top')[0]).toBe('sand seat 1/top');
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('before the first coat, too, no step is asked for both sides at once, and each names the side that it is for', async () => {
	const given = await stools(text => text.replace('stages:\n', 'stages:\n  - sand: 240 grit\n'));
	const day = stoolDay(given, 0);
	const told: string[] = [];
	day.until(({ state, say }) => {
		if (state.startsWith('prep')) told.push(say);
		return state === 'list.before-spraying.mask';
	});
	expect(told).toEqual([
		'2 parts: sand with 240 grit, top side up, 4 faces.',
		'2 parts: wipe, top side up, 4 faces.',
		'4 parts: sand with 240 grit, underside up, 4 faces.',
		'4 parts: wipe, underside up, 4 faces.',
	]);
});

test('a part is turned back once its sanding is due, not while it hardens', async () => {
	const given = await stools(text => text.replace('  - wait: 16 h\n', ''));
	const first = stoolDay(given, 0);
	first.toEnd();
	expect(workSince(first)).not.toContain('turn over seat 1/underside');
	const ended = first.ofType('face.ended').at(-1);
	const second = stoolDay(given, 1, first.records());
	second.until(({ state }) => state.startsWith('prep'));
	expect(Date.parse(second.line().at) - Date.parse(ended?.at ?? '')).toBeGreaterThan(12 * 3_600_000);
});

test('a turning that the sheet writes itself is not asked for twice', async () => {
	const given = await stools(text => text.replace('  - wait: 16 h\n', '  - wait: 16 h\n  - turn over\n'));
	const turnings = given.job.stages.filter(stage => stage.kind === 'prep' && stage.step === 'turn over');
	expect(turnings.length).toBe(3);
});

test('where both sides are asked for at once all the same, the turning between them is said', async () => {
	const given = await stools(text => text.replace('  - wait: 16 h\n', '  - wait: 16 h\n  - turn over\n'));
	const first = stoolDay(given, 0);
	first.toEnd();
	const second = stoolDay(given, 1, first.records());
	second.toState('prep.sand');
	expect(second.line().say).toBe('4 parts: sand with 320 grit, both sides, turned between, 8 faces.');
});

/** Until the tab is touched before the last coat of the undersides, a day after their primer. */
async function toLastTab() {
	const given = await stools();
	const first = stoolDay(given, 0);
	first.toEnd();
	const day = stoolDay(given, 1, first.records());
	day.toAsk('touch');
	return { day, first };
}

test('a part is turned over once the tab of its coat is dry: tacky is no handling', async () => {
	const { day, first } = await toLastTab();
	day.until(({ state }) => state === 'touch.turning');
	expect(day.line().lines.join(' ')).toMatch(/turning over/);
	expect(day.line()).toMatchObject({ coat: 3, coats: 3 });
	for (const value of ['strings', 'tacky']) {
		day.pick(value);
		expect(day.line()).toMatchObject({ state: 'wait', say: expect.stringMatching(/not dry to handle/) });
		expect(day.line().timers[0]).toMatchObject({ code: 'touch', left_s: 300 });
		expect(day.line().lines.join(' ')).not.toMatch(/suit up/i);
		day.send('wait 5 min');
		expect(day.line().state).toBe('touch.turning');
	}
	day.pick('dry');
	expect(day.line().state).toBe('prep.turn over');
	day.toEnd();
	expect(checkDayFile(day.bytes(), [first.bytes()])).toEqual([]);
});

test('where no tab is, the turning itself may be waited with', async () => {
	const given = await stools();
	const day = stoolDay(given, 0);
	day.until(({ state }) => state.startsWith('touch') || state === 'prep.turn over');
	expect(day.line().state).toBe('prep.turn over');
	day.pick('not-dry');
	expect(day.line()).toMatchObject({ state: 'wait', say: expect.stringMatching(/not dry to handle/) });
	day.send('wait 5 min');
	expect(day.line().state).toBe('prep.turn over');
	expect(workSince(day).filter(one => one.startsWith('turn'))).toEqual([]);
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a tab that still strings tells when the window closes', async () => {
	const { day, first } = await toLastTab();
	day.painter.world.tab = 'strings';
	const said: string[] = [];
	day.until(line => {
		if (line.ask === 'touch') said.push(...line.lines);
		return line.state === 'touch.turning';
	});
	expect(said.filter(line => /until \d\d:\d\d, then wait/.test(line)).length).toBeGreaterThan(5);
	day.painter.world.tab = 'tacky';
	day.toEnd();
	expect(checkDayFile(day.bytes(), [first.bytes()])).toEqual([]);
});
