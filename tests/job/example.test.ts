import { join } from 'node:path';
import { expect, test } from 'vitest';
import { errorLine } from '../../src/job/errors.ts';
import type { Job } from '../../src/job/job.ts';
import { loadJob } from '../../src/job/load.ts';

const path = join(import.meta.dirname, '../../checklists/example/coffee-cart.yaml');

async function example(): Promise<Job> {
	const loaded = await loadJob(path);
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return loaded.job;
}

test('the example sheet is two days: two coats of primer, then three of topcoat, on every face', async () => {
	const { faces } = await example();
	expect(faces).toHaveLength(10);
	for (const { coats } of faces)
		expect(coats.map(({ material, kind }) => `${material} ${kind}`)).toEqual([
			'primer medium',
			'primer full',
			'topcoat tack',
			'topcoat medium',
			'topcoat full',
		]);
});

test('the first day of the example wants both settings of the horns, in both coats', async () => {
	const { faces } = await example();
	for (const coat of [0, 1])
		expect(new Set(faces.map(({ coats }) => coats[coat]?.horns))).toEqual(new Set(['level', 'upright']));
});

test('a coat that goes crosswise wants other horns than the one before it', async () => {
	const { faces } = await example();
	const top = faces.find(({ id }) => id === 'counter lid/top');
	expect(top?.coats.map(({ stroke, horns }) => `${stroke} ${horns}`)).toEqual([
		'to-and-fro upright',
		'side-to-side level',
		'to-and-fro upright',
		'side-to-side level',
		'to-and-fro upright',
	]);
});

test('between primer and topcoat stand the cure and the work, before the first coat no wait', async () => {
	const { faces } = await example();
	const coats = faces[0]?.coats ?? [];
	expect(coats.map(({ wait_h }) => wait_h)).toEqual([0, 0, 48, 0, 0]);
	expect(coats[2]?.prep).toEqual([
		{ step: 'sand', grit: 400 },
		{ step: 'wipe', grit: null },
		{ step: 'tack', grit: null },
	]);
	expect(coats[1]?.prep).toEqual([]);
});

test('quantities come out in base units, percent of reducer as parts', async () => {
	const { gun, materials } = await example();
	expect(gun.fanHeight_mm).toBeCloseTo(203.2, 9);
	expect(gun.pressure_kPa).toBeCloseTo(199.95, 2);
	// Common practice, no source: 1:1 reduced 15 % of the mixed volume; 2:1:1 for spraying.
	expect(materials.primer?.reducer_parts).toBeCloseTo(0.3, 12);
	expect(materials.topcoat?.ratio).toEqual({ by: 'volume', base: 2, hardener: 1 });
	expect(materials.topcoat?.reducer_parts).toBe(1);
	expect(materials.topcoat?.isocyanate).toBe(true);
	expect(materials.primer?.flash).toMatchObject({ min_min: 45, max_min: 120 });
});

test('paint for a face is area × dry film ÷ (solids of the reduced mix × transfer × capture)', async () => {
	const { faces } = await example();
	const door = faces.find(({ id }) => id === 'left door/outside');
	const area_m2 = 22 * 34 * 0.0254 ** 2;
	expect(door?.area_m2).toBeCloseTo(area_m2, 9);
	const { volume_mL = 0, capture = 0, spray_s } = door?.coats[0] ?? {};
	expect(volume_mL * capture).toBeCloseTo((area_m2 * 25.4) / ((0.46 / 1.15) * 0.65), 6);
	// Ten lines of 22 in and 50 mm past each end: 61.8 mL at 7 fl oz/min, and nine turns of half a second.
	expect(volume_mL).toBeCloseTo(61.76, 2);
	expect(spray_s).toBeCloseTo(22.4, 2);
});
