import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { FaceHistory } from '../../src/day/records.ts';
import { parseJob } from '../../src/job/load.ts';
import { faceNows } from '../../src/plan/now.ts';
import { planStages } from '../../src/plan/stages.ts';
import { altered } from '../job/altered.ts';

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

const one = (history: FaceHistory, at_h: number) => {
	const faces = faceNows({ job, history: { 'canopy rail/front': history }, at: start + at_h * hour });
	const face = faces.find(each => each.face === 'canopy rail/front');
	if (!face) throw new Error('the canopy rail is missing');
	return face;
};
const bare: FaceHistory = { coats: [], prep: [], aside: null };
const wiped = ['wipe', 'tack'].map(step => ({ step: step as 'wipe' | 'tack', at: iso(0) }));

test('every face of the sheet is answered for', () => {
	expect(faceNows({ job, history: {}, at: start }).map(face => face.face)).toEqual(
		job.faces.map(face => face.id),
	);
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
		return (next.from - start) / hour;
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

test('stages follow one another over days, none before the sheet allows it', () => {
	const stages = planStages({ job, start });
	const primer = stages.find(stage => stage.name === 'spray primer');
	const sand = stages.find(stage => stage.name === 'sand');
	const top = stages.find(stage => stage.name === 'spray topcoat');
	for (const face of job.faces) {
		const ended =
			primer?.verdict?.plan.laid.find(each => each.face === face.id && each.coat === 2)?.to_s ?? 0;
		const sanded = sand?.faces.find(each => each.face === face.id);
		expect(sanded?.earliest_s).toBeGreaterThanOrEqual(ended + 48 * 3600 - 1);
		const coated = top?.faces.find(each => each.face === face.id);
		expect(coated?.planned_s).toBeGreaterThan(sanded?.planned_s ?? 0);
	}
	expect(primer?.verdict?.feasible && top?.verdict?.feasible).toBe(true);
	const letters = [primer, top].flatMap(
		stage => stage?.verdict?.plan.batches.map(batch => batch.letter) ?? [],
	);
	expect(new Set(letters).size).toBe(letters.length);
});

test('what the days before have done is left out, and counts from their clocks', () => {
	const history = Object.fromEntries(job.faces.map(face => [face.id, laid(2, -40)]));
	const stages = planStages({ job, history, start });
	expect(stages.map(stage => stage.name)).toEqual(['wait', 'sand', 'wipe', 'tack', 'spray topcoat']);
	expect(stages[0]?.faces[0]?.earliest_s).toBeCloseTo(8 * 3600, 3);
	const one = {
		...history,
		'canopy rail/front': laid(2, -40, { aside: { why: 'run', at: iso(-40), done: [] } }),
	};
	const without = planStages({ job, history: one, start }).at(-1);
	expect(without?.faces.some(each => each.face === 'canopy rail/front')).toBe(false);
});

test('a step that the sheet leaves a face out of is not asked for on it, after its last coat either', () => {
	const text = altered(
		'    coats: [tack, medium, full]',
		'    coats: [tack, medium, full]\n  - sand: 600 grit\n    leave out: [canopy rail]',
	);
	const read = parseJob(text, path);
	if (!read.ok) throw new Error('the altered example cannot be read');
	const history = Object.fromEntries(read.job.faces.map(face => [face.id, laid(5, 0)]));
	const next = new Map(
		faceNows({ job: read.job, history, at: start + hour }).map(each => [each.face, each.next]),
	);
	expect(next.get('canopy rail/front')).toEqual({ may: 'nothing' });
	expect(next.get('left door/outside')).toMatchObject({ may: 'prep', step: 'sand' });
	const last = planStages({ job: read.job, history, start }).at(-1);
	expect(last?.faces.some(({ face }) => face.startsWith('canopy rail'))).toBe(false);
	expect(last?.faces.some(({ face }) => face === 'left door/outside')).toBe(true);
});
