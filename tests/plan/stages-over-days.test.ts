import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { FaceHistory } from '../../src/day/records.ts';
import { parseJob } from '../../src/job/load.ts';
import { planStages } from '../../src/plan/stages.ts';
import { stoolJob } from '../day/stools.ts';
import { altered } from '../job/altered.ts';

/** The stages of the example over its days. */

const path = 'checklists/example/coffee-cart.yaml';
const read = (text: string) => {
	const loaded = parseJob(text, path);
	if (!loaded.ok) throw new Error('the example cannot be read');
	return loaded.job;
};
const job = read(readFileSync(path, 'utf8'));

const start = Date.parse('2027-03-02T08:00:00Z');
const iso = (hours: number) => new Date(start + hours * 3_600_000).toISOString();

/** A face whose last coat was laid so many hours after the start, the others an hour apart before it. */
const laid = (coats: number, ended_h: number, aside: FaceHistory['aside'] = null): FaceHistory => ({
	coats: Array.from({ length: coats }, (_, at) => ({
		coat: at + 1,
		ended: iso(ended_h - (coats - 1 - at)),
		cup: ['A'],
		surfaceC: (70 - 32) / 1.8,
	})),
	prep: [],
	aside,
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

test('a part is turned over once what was sprayed is past its flash, and its other side sprayed after that', () => {
	const stools = stoolJob();
	const sides = planStages({ job: stools, start }).flatMap(({ name, verdict }) =>
		verdict ? [{ name, laid: verdict.plan.laid }] : [],
	);
	expect(sides.map(({ name }) => name)).toEqual([
		...['spray primer', 'spray primer'],
		...['spray topcoat', 'spray topcoat'],
	]);
	for (const [first, second] of [sides.slice(0, 2), sides.slice(2)]) {
		const ended_s = Math.max(...(first?.laid ?? []).map(({ to_s }) => to_s));
		const { min_min } = stools.materials[first?.name === 'spray primer' ? 'primer' : 'topcoat']?.flash ?? {};
		expect(second?.laid[0]?.from_s).toBeGreaterThan(ended_s + (min_min ?? Number.NaN) * 60);
	}
});

test('what the days before have done is left out, and counts from their clocks', () => {
	const history = Object.fromEntries(job.faces.map(face => [face.id, laid(2, -40)]));
	const stages = planStages({ job, history, start });
	expect(stages.map(stage => stage.name)).toEqual(['wait', 'sand', 'wipe', 'tack', 'spray topcoat']);
	expect(stages[0]?.faces[0]?.earliest_s).toBeCloseTo(8 * 3600, 3);
	const one = {
		...history,
		'canopy rail/front': laid(2, -40, { why: 'run', at: iso(-40), done: [] }),
	};
	const without = planStages({ job, history: one, start }).at(-1);
	expect(without?.faces.some(each => each.face === 'canopy rail/front')).toBe(false);
});

test('a step that the sheet leaves a face out of is no stage of it, after its last coat either', () => {
	const sheet = read(
		altered(
			'    coats: [tack, medium, full]',
			'    coats: [tack, medium, full]\n  - sand: 600 grit\n    leave out: [canopy rail]',
		),
	);
	const history = Object.fromEntries(sheet.faces.map(face => [face.id, laid(5, 0)]));
	const last = planStages({ job: sheet, history, start }).at(-1);
	expect(last?.faces.some(({ face }) => face.startsWith('canopy rail'))).toBe(false);
	expect(last?.faces.some(({ face }) => face === 'left door/outside')).toBe(true);
});
