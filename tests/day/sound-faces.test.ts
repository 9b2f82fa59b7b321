import { expect, test } from 'vitest';
import { historyAfter } from '../../src/day/history.ts';
import { nowAfter } from '../../src/day/now.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { foldAll } from '../../src/day/state.ts';
import { loadLists } from '../../src/job/lists.ts';
import { parseJob } from '../../src/job/load.ts';
import { tablesOf } from '../../src/report/tables/tables.ts';
import { altered, exampleText } from '../job/altered.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { rehearsed, start } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** A part set aside for the fault of one face: what is done to that face changes nothing on the sound ones. */

type Played = ReturnType<typeof rehearsed>;

const sheet = 'checklists/example/coffee-cart.yaml';
async function example(text: string) {
	const loaded = parseJob(text, sheet);
	const lists = loaded.ok ? await loadLists(loaded.job, sheet) : loaded;
	if (!loaded.ok || !lists.ok) throw new Error('the example does not load');
	return { job: loaded.job, lists: lists.lists };
}

const [faulty, sound] = ['left door/outside', 'left door/edges'];

/** The last coat of primer runs on one face; its part is set aside, and the day ends. */
async function primed(text = exampleText) {
	const given = await example(text);
	const first = rehearsed(given);
	first.until(({ state, face, coat }) => state === 'spraying' && face === faulty && coat === 2);
	first.send('wait 15 s');
	for (const code of ['trouble', 'wet-fault', 'all', 'run', faulty, 'set-part-aside', 'back'])
		first.pick(code);
	first.toEnd();
	return { given, first };
}

/** What was recorded of a face that is no coat, in order. */
const workOn = (day: Played, face: string) =>
	day.records().flatMap(record => {
		if (record.type === 'stage.done' && record.face === face) return [record.stage];
		return record.type === 'rework.done' && record.face === face ? [`own ${record.step}`] : [];
	});

test('of a part set aside the face with the fault has a line of its own; the sound one keeps its planned preparation', async () => {
	const { given, first } = await primed();
	expect(first.ofType('part.setAside')[0]).toMatchObject({ faces: [sound, faulty], faulty: [faulty] });
	const second = rehearsed({ ...given, before: historyAfter(first.records()), at: start + 3 * 86_400_000 });
	second.toEnd();
	expect(workOn(second, faulty).slice(0, 3)).toEqual(['own set-up', 'own sand', 'own clean']);
	expect(workOn(second, sound)).toEqual(['sand', 'wipe', 'tack']);
	const sanded = second.ofType('stage.done').find(({ face, stage }) => face === sound && stage === 'sand');
	const cleaned = second.ofType('rework.done').find(({ step }) => step === 'clean');
	expect(sanded?.seq).toBeGreaterThan(cleaned?.seq ?? Number.POSITIVE_INFINITY);
	const on = (face: string) => second.ofType('face.ended').filter(one => one.face === face).length;
	expect([on(sound), on(faulty)]).toEqual([3, 3]);
	expect(second.ofType('override.given')).toEqual([]);
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('sanded flat, the face with the fault is sanded for its next coat where that comes first; all after it is asked for', async () => {
	const { given, first } = await primed(
		altered('  - sand: 400 grit\n', '  - sand: 400 grit\n  - fill\n  - sand: 600 grit\n'),
	);
	const second = rehearsed({ ...given, before: historyAfter(first.records()), at: start + 3 * 86_400_000 });
	second.toState('rework.clean');
	second.pick('done');
	const due = tablesOf(second.records()).due.filter(({ face }) => face === faulty);
	expect(due.map(({ what }) => what)).toEqual(['fill', 'sand', 'stage']);
	second.toEnd();
	expect(workOn(second, faulty).slice(3, 7)).toEqual(['fill', 'sand', 'wipe', 'tack']);
	expect(workOn(second, sound)).toEqual(['sand', 'fill', 'sand', 'wipe', 'tack']);
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test.each([
	['the face with the fault, whose line had begun', faulty],
	['the sound one beside it', sound],
] as const)('a stray pull of the trigger on %s begins its own line, from the start', async (_, face) => {
	const { given, first } = await primed();
	const second = rehearsed({ ...given, before: historyAfter(first.records()), at: start + 3 * 86_400_000 });
	second.toState('rework.clean');
	second.send('trigger on', 'wait 4 s', 'trigger off', 'screen');
	second.until(({ state }) => state === 'stray');
	second.pick('elsewhere');
	second.pick(face);
	expect(second.ofType('part.setAside').at(-1)?.faulty).toEqual([face]);
	expect(historyAfter(second.records()).faces[face]?.aside).toMatchObject({ done: [] });
	second.toEnd();
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

test('until it is back in line a sound face is told to be set aside with its part', async () => {
	const { first } = await primed();
	const now = nowAfter(first.records(), start + 86_400_000);
	expect(now.find(({ face }) => face === sound)).toMatchObject({ aside: 'run', next: { may: 'beside' } });
	expect(now.find(({ face }) => face === faulty)).toMatchObject({
		aside: 'run',
		next: { may: 'rework', step: 'set-up' },
	});
	expect(first.line().lines.join(' ')).toMatch(/Left door edges: set aside with its part\./);
});

test('the screen names the face with the fault, and has it sanded wet, not while it is wet', async () => {
	const { given, first } = await primed();
	const second = rehearsed({ ...given, before: historyAfter(first.records()), at: start + 3 * 86_400_000 });
	const said: string[] = [];
	second.until(line => {
		if (line.state.startsWith('rework.')) {
			expect(line.face).toBe(faulty);
			if (line.say !== said.at(-1)) said.push(line.say);
		}
		return line.ask === 'closed';
	});
	expect(said).toEqual([
		'Left door outside: hard enough to sand? Try a gloved nail.',
		'Left door outside: wet-sand the run flat, then all of it.',
		'Left door outside: wash and dry it.',
	]);
});

/** Two doors, one coat each; the flat of the left one runs once all is on, is sanded flat and clean. */
function oneCoat(): Played {
	const job = smallJob();
	const faces = job.faces.map(({ coats, ...face }) => ({
		...face,
		coats: coats.slice(0, 1).map(coat => ({ ...coat, ofStage: [1, 1] as [number, number] })),
	}));
	const day = rehearsed({ job: { ...job, faces } });
	day.toState('finish');
	day.send('hold');
	for (const code of ['trouble', 'wet-fault', 'run', 'left door/flat', 'set-part-aside', 'back'])
		day.pick(code);
	day.toState('finish');
	day.pick('stay');
	day.toState('rework.clean');
	day.pick('done');
	return day;
}

test('a coat beyond the plan is asked of the face that had the fault, and of no other; NO MORE is the end of it', () => {
	const day = oneCoat();
	expect(day.line()).toMatchObject({ state: 'rework.one-more', face: 'left door/flat', coat: 1, coats: 1 });
	expect(day.line().say).toBe('Left door flat: one coat more on this face?');
	day.pick('no-more');
	day.toEnd();
	expect(day.ofType('override.given')).toEqual([]);
	expect(day.ofType('face.started').length).toBe(3);
	expect(day.ofType('day.closed')[0]?.why).toBe('done');
	expect(day.findings()).toEqual([]);
	const after = historyAfter(day.records()).faces;
	expect(Object.values(after).map(({ aside }) => aside)).toEqual([null, null, null]);
});

test('one coat more is the painter’s own answer, with a reason, and marks that face alone', () => {
	const day = oneCoat();
	expect(day.ofType('override.given')).toEqual([]);
	day.pick('one-more');
	expect(day.line().state).toBe('override.coats');
	expect(day.ofType('override.given')).toEqual([]);
	day.pick('owner');
	day.toEnd();
	expect(day.ofType('override.given')).toMatchObject([
		{ rule: 'coats', reason: 'the owner accepts it', face: 'left door/flat', coat: 2 },
	]);
	expect(day.keys.filter(made => made.some(({ type }) => type === 'rework.done')).flat()).not.toContainEqual(
		expect.objectContaining({ type: 'override.given' }),
	);
	expect(day.ofType('face.started').map(({ face, coat }) => `${face} ${coat}`)).toEqual([
		'left door/edges 1',
		'left door/flat 1',
		'right door/flat 1',
		'left door/flat 2',
	]);
	expect(day.ofType('rework.done').map(({ face, step }) => `${face} ${step}`)).toEqual(
		['set-up', 'sand', 'clean', 'respray'].map(step => `left door/flat ${step}`),
	);
	expect(day.findings()).toEqual([]);
});

test('not answered before the day ends, it is cleaned and asked again on the next', () => {
	const first = oneCoat();
	first.send('hold');
	for (const code of ['close', 'close']) first.pick(code);
	const before = historyAfter(first.records());
	const second = rehearsed({ job: first.job, before, at: start + 5 * 86_400_000 });
	second.toState('rework.clean');
	second.pick('done');
	expect(second.line()).toMatchObject({ state: 'rework.one-more', face: 'left door/flat' });
	second.pick('no-more');
	second.toEnd();
	expect(second.ofType('face.started')).toEqual([]);
	expect(checkDayFile(second.bytes(), [first.bytes()])).toEqual([]);
});

/** The left door has a back too. */
function threeFaces() {
	const job = smallJob();
	const back = job.faces.filter(({ id }) => id === 'left door/flat');
	return {
		...job,
		faces: [...job.faces, ...back.map(face => ({ ...face, id: 'left door/back', name: 'back' }))],
	};
}

const seen = (day: Played, fault: string, face: string, then: string) => {
	for (const code of ['trouble', 'wet-fault', fault, face, then]) day.pick(code);
};

test('a fault seen later on a sound face gives that one a line of its own too; the third waits for both', () => {
	const day = rehearsed({ job: threeFaces() });
	day.toState('wait');
	seen(day, 'run', 'left door/flat', 'set-part-aside');
	seen(day, 'dry-spray', 'left door/back', 'set-face-aside');
	day.pick('back');
	day.toState('finish');
	day.pick('stay');
	const said: string[] = [];
	const sanded: string[][] = [];
	day.until(line => {
		if (line.state.startsWith('rework.') && line.say !== said.at(-1)) {
			said.push(line.say);
			if (line.state === 'rework.sand') sanded.push(line.lines);
		}
		return line.state.startsWith('prep.');
	});
	expect(sanded.at(-1)?.[0]).toBe('The whole face: 400 grit.');
	expect(said.filter(say => say.includes('wet-sand'))).toEqual([
		'Left door flat: wet-sand the run flat, then all of it.',
		'Left door back: wet-sand the dry spray flat, then all of it.',
	]);
	const cleaned = day.ofType('rework.done').findLast(({ step }) => step === 'clean');
	day.toEnd();
	const later = day.ofType('face.started').find(({ face, coat }) => face === 'left door/edges' && coat === 2);
	expect(cleaned?.face).toBe('left door/back');
	expect(later?.seq).toBeGreaterThan(cleaned?.seq ?? Number.POSITIVE_INFINITY);
	expect(workOn(day, 'left door/edges')).toEqual(['sand']);
	expect(day.findings()).toEqual([]);
});

test('a face with half a coat on is no sound one: it is sanded flat with the one that has the fault', () => {
	const day = rehearsed({ job: threeFaces() });
	day.until(({ state, face, coat }) => state === 'spraying' && face === 'left door/back' && coat === 2);
	day.send('wait 20 s');
	for (const code of [
		'trouble',
		'wet-fault',
		'part',
		'cannot-tell',
		'run',
		'left door/flat',
		'set-part-aside',
	])
		day.pick(code);
	expect(day.ofType('part.setAside')).toMatchObject([
		{ faces: ['left door/edges', 'left door/flat'], faulty: ['left door/flat'], why: 'run' },
		{ faces: ['left door/back'], faulty: ['left door/back'], why: 'broken off' },
	]);
	day.pick('back');
	day.toEnd();
	expect(day.findings()).toEqual([]);
});

test('a day of an older program does not say which face had the fault: there each has its line, and may be sprayed again', () => {
	const day = oneCoat();
	const reason = 'respray after sanding flat';
	const older = day.records().flatMap((record): DayRecord[] => {
		if (record.type === 'day.opened') return [{ ...record, v: 1 }];
		const { seq, run, at, mono } = record;
		const stamp = { seq, run, at, mono };
		if (record.type === 'part.setAside') {
			const { part, faces, why } = record;
			return [{ ...stamp, type: 'part.setAside', part, faces, why }];
		}
		if (record.type !== 'rework.done') return [record];
		const { step } = record;
		return ['left door/flat', 'left door/edges'].flatMap((face): DayRecord[] => [
			{ ...stamp, type: 'rework.done', face, step },
			...(step === 'clean'
				? [{ ...stamp, type: 'override.given' as const, rule: 'coats', reason, face, coat: 2 }]
				: []),
		]);
	});
	const { context } = foldAll(older).machine;
	for (const face of context.faces.filter(({ context: { rules } }) => rules.part === 'left door')) {
		expect(face.value).toBe('open');
		expect(face.context).toMatchObject({ laid: 1, overrides: ['coats'], done: ['sand', 'wipe', 'tack'] });
	}
});
