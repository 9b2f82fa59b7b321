import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { faceNows, nowAfter, standsAt } from '../../src/day/now.ts';
import { openingRecord } from '../../src/day/open.ts';
import type { FaceHistory } from '../../src/day/records.ts';
import { settingsSchema } from '../../src/day/settings.ts';
import { fold } from '../../src/day/state.ts';
import type { Job } from '../../src/job/job.ts';
import { loadLists } from '../../src/job/lists.ts';
import { parseJob } from '../../src/job/load.ts';
import { altered } from '../job/altered.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

const path = 'checklists/example/coffee-cart.yaml';
const loaded = parseJob(readFileSync(path, 'utf8'), path);
if (!loaded.ok) throw new Error('the example cannot be read');
const { job } = loaded;

const start = Date.parse('2027-03-02T08:00:00Z');
const hour = 3_600_000;
const iso = (hours: number) => new Date(start + hours * hour).toISOString();
const surfaceC = (70 - 32) / 1.8;

const laid = (coats: number, ended_h: number, over: Partial<FaceHistory> = {}): FaceHistory => ({
	coats: Array.from({ length: coats }, (_, at) => ({
		coat: at + 1,
		ended: iso(ended_h - (coats - 1 - at)),
		cup: ['A'],
		surfaceC,
	})),
	prep: [],
	aside: null,
	...over,
});

/** The faces of a job between two days, as the next would open with them. */
const between = (sheet: Job, faces: Record<string, FaceHistory>, at: number) => {
	const opened = openingRecord(
		{
			...{ job: sheet, lists: [], settings: settingsSchema.parse({}), clock: 'moved', program: '0.0.0' },
			...{ before: { faces, letters: 0 }, zone: 'UTC' },
		},
		{ wall: at, mono: 0 },
	);
	return faceNows(standsAt(fold(null, opened), at));
};

const one = (history: FaceHistory, at_h: number) => {
	const faces = between(job, { 'canopy rail/front': history }, start + at_h * hour);
	const face = faces.find(each => each.face === 'canopy rail/front');
	if (!face) throw new Error('the canopy rail is missing');
	return face;
};
const bare: FaceHistory = { coats: [], prep: [], aside: null };
const wiped = ['wipe', 'tack'].map(step => ({ step: step as 'wipe' | 'tack', at: iso(0) }));

test('every face of the sheet is answered for', () => {
	expect(between(job, {}, start).map(face => face.face)).toEqual(job.faces.map(face => face.id));
});

test('a bare face wants its preparation, in order, before its first coat', () => {
	expect(one(bare, 0).next).toMatchObject({ may: 'prep', step: 'wipe', for: 1 });
	expect(one({ ...bare, prep: wiped.slice(0, 1) }, 0).next).toMatchObject({ may: 'prep', step: 'tack' });
	expect(one({ ...bare, prep: wiped }, 0).next).toMatchObject({ may: 'spray', coat: 1, material: 'primer' });
});

test('after the first coat it waits for the flash, may be sprayed, and at last must be sanded', () => {
	const after = laid(1, 0);
	expect(one(after, 0.5)).toMatchObject({
		...{ coats: 1, planned: 5, window: 'wait', until: start + 0.75 * hour },
		next: { may: 'wait', coat: 2, from: start + 0.75 * hour },
	});
	expect(one(after, 1)).toMatchObject({
		window: 'spray',
		next: { may: 'spray', coat: 2, until: start + 8 * hour },
	});
	expect(one(after, 30)).toMatchObject({ window: 'sand', next: { may: 'sand', coat: 2 } });
});

test('common practice, no source: primer is sanded after two days at 65 °F, later when cooler, and never before the sheet’s own wait', () => {
	const cool = laid(2, 0);
	const at = (C: number) => ({ ...cool, coats: cool.coats.map(coat => ({ ...coat, surfaceC: C })) });
	const due = (C: number) => {
		const { next } = one(at(C), 1);
		if (next.may !== 'prep') throw new Error('no preparation is due');
		expect(next.step).toBe('sand');
		return ((next.from ?? 0) - start) / hour;
	};
	expect(due((65 - 32) / 1.8)).toBeCloseTo(48, 6);
	expect(due((80 - 32) / 1.8)).toBeCloseTo(48, 6);
	expect(due((58 - 32) / 1.8)).toBeCloseTo(84, 6);
});

test('a part set aside has its own line: set up hard, sanded, cleaned, resprayed', () => {
	const aside = { why: 'run', at: iso(0), done: [] as string[] };
	expect(one(laid(3, 0, { aside }), 1)).toMatchObject({
		...{ aside: 'run', window: null },
		next: { may: 'rework', step: 'set-up', from: start + 24 * hour },
	});
	const later = one(laid(3, 0, { aside: { ...aside, done: ['set-up', 'sand'] } }), 30);
	expect(later.next).toMatchObject({ may: 'rework', step: 'clean' });
});

test('a face with all its coats is done', () => {
	expect(one(laid(5, 0), 1).next).toEqual({ may: 'nothing' });
});

test('a step that the sheet leaves a face out of is not asked for on it, after its last coat either', () => {
	const text = altered(
		'    coats: [tack, medium, full]',
		'    coats: [tack, medium, full]\n  - sand: 600 grit\n    leave out: [canopy rail]',
	);
	const read = parseJob(text, path);
	if (!read.ok) throw new Error('the altered example cannot be read');
	const history = Object.fromEntries(read.job.faces.map(face => [face.id, laid(5, 0)]));
	const next = new Map(between(read.job, history, start + hour).map(each => [each.face, each.next]));
	expect(next.get('canopy rail/front')).toEqual({ may: 'nothing' });
	expect(next.get('left door/outside')).toMatchObject({ may: 'prep', step: 'sand' });
});

/** What may be done next to a face, by the records of a day as it stands, or so many ms later. */
const nextOn = (day: ReturnType<typeof rehearsed>, face: string | null, later_ms = 0) =>
	nowAfter(day.records(), Date.parse(day.line().at) + later_ms).find(one => one.face === face)?.next;

describe('a day that is open is told by its own list of stops', () => {
	test('a step left out with a reason is not asked for: the one after it is', async () => {
		const lists = await loadLists(job, path);
		if (!lists.ok) throw new Error('the lists of the example do not load');
		const day = rehearsed({ job, lists: lists.lists });
		day.toState('prep.wipe');
		const face = job.faces[0]?.id ?? '';
		expect(nextOn(day, face)).toMatchObject({ may: 'prep', step: 'wipe' });
		day.pick('skip');
		day.pick('owner');
		day.toState('prep.tack');
		expect(nextOn(day, face)).toMatchObject({ may: 'prep', step: 'tack' });
	});

	test('a wait cut short with a reason is no wait: until the window shuts that it waited for', () => {
		const day = rehearsed();
		const { face } = day.until(({ state, coat }) => state === 'wait' && coat === 2);
		const [opens] = day.line().timers;
		expect(nextOn(day, face)).toMatchObject({ may: 'wait', from: Date.parse(opens?.due ?? '') });
		day.pick('sooner');
		day.pick('data-sheet');
		const set = day.ofType('window.set').find(one => one.face === face);
		const shuts = set?.windows.find(({ does }) => does === 'spray')?.until;
		expect(nextOn(day, face)).toMatchObject({ may: 'spray', coat: 2, until: Date.parse(shuts ?? '') });
	});

	test('a pass under way or broken off is told as that; partly on, it is gone on with while its edge is wet, and then flashes', () => {
		const day = rehearsed();
		const { face } = day.toAsk('spraying');
		expect(nextOn(day, face)).toEqual({ may: 'begun', coat: 1 });
		day.send('wait 20 s', 'hold');
		expect(nextOn(day, face)).toEqual({ may: 'begun', coat: 1 });
		for (const code of ['back', 'part', 'cannot-tell']) day.pick(code);
		const held = Date.parse(day.ofType('break.began').at(-1)?.at ?? '');
		expect(nextOn(day, face)).toMatchObject({ may: 'spray', coat: 1, until: held + 120_000 });
		const later = nextOn(day, face, 5 * 60_000);
		expect(later).toEqual({ may: 'wait', coat: 1, from: held + 45 * 60_000, until: null });
	});

	test('a coat beyond the plan is told once its reason is given', () => {
		const small = smallJob();
		const faces = small.faces.map(({ coats, ...face }) => ({ ...face, coats: coats.slice(0, 1) }));
		const day = rehearsed({ job: { ...small, faces } });
		day.toState('finish');
		day.send('hold');
		for (const code of ['trouble', 'wet-fault', 'run', 'left door/flat', 'set-part-aside', 'back'])
			day.pick(code);
		expect(nextOn(day, 'left door/flat')).toMatchObject({ may: 'rework', step: 'set-up' });
		day.toState('finish');
		day.pick('stay');
		day.toState('rework.clean');
		expect(nextOn(day, 'left door/flat')).toMatchObject({ may: 'rework', step: 'clean' });
		day.pick('done');
		expect(nextOn(day, 'left door/flat')).toEqual({ may: 'nothing' });
		for (const code of ['one-more', 'owner']) day.pick(code);
		expect(nextOn(day, 'left door/flat')).toMatchObject({ may: 'spray', coat: 2, material: 'topcoat' });
	});
});

test('too cold for the sheet, no window opens by waiting, and nothing is thrown', () => {
	const cold = laid(3, 0);
	const coats = cold.coats.map(coat => ({ ...coat, surfaceC: -20 }));
	expect(one({ ...cold, coats }, 30).next).toEqual({ may: 'sand', coat: 4, step: 'sand', from: null });
});
