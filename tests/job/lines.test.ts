import { describe, expect, test } from 'vitest';
import { errorLine } from '../../src/job/errors.ts';
import type { Job } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';
import { notesOf } from '../../src/job/notes.ts';
import { altered, complaintsOf, exampleText } from './altered.ts';

function jobOf(text: string): Job {
	const loaded = parseJob(text, 'own.yaml');
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return loaded.job;
}
const cup =
	'cup:\n    holds: 20 fl oz\n    kind: gravity # gravity, suction or pressure\n    tilted: pours # pours, drips or starves\n';
const flash = 'flash: { from: 45 min, to: 2 h, at: 70 °F, touch: [tacky, dry] }';
const example = jobOf(exampleText);

describe('what takes several keys may stand in a line', () => {
	test.each([
		['a cup', cup, 'cup: 20 fl oz gravity\n'],
		['the film of a coat', 'medium: { film: 1.0 mil }', 'medium: 1.0 mil'],
		['… between two', 'full: { film: 1.3 mil }', 'full: 1.2 to 1.4 mil'],
		['a flash', flash, 'flash: 45 min to 2 h at 70 °F'],
	])('%s', (what, keys, line) => {
		const job = jobOf(altered(keys, line));
		const range = what === '… between two';
		if (!range) expect(job).toEqual(example);
		else
			expect(job.materials.primer?.coats.full?.dryRange_um).toEqual(
				[30.48, 35.56].map(um => expect.closeTo(um, 6)),
			);
	});

	test('a flash without an end, and with one unit for both', () => {
		expect(jobOf(altered(flash, 'flash: 45 min at 70 °F')).materials.primer?.flash).toMatchObject({
			...{ min_min: 45, max_min: null },
		});
		expect(jobOf(altered(flash, 'flash: 45 to 90 min at 70 °F')).materials.primer?.flash).toMatchObject({
			...{ min_min: 45, max_min: 90 },
		});
	});

	test.each([
		[
			cup,
			'cup: 20 fl oz\n',
			/gun, cup: found "20 fl oz"; what it holds and its kind are wanted, as in "600 mL gravity"$/,
		],
		[cup, 'cup: lots gravity\n', /gun, cup: found "lots gravity"; a volume begins with a number/],
		[
			flash,
			'flash: 45 min',
			/flash: found "45 min"; a time at a temperature is wanted, as in "30 min at 20 °C"$/,
		],
		[flash, 'flash: 45 min at noon', /flash: found "45 min at noon"; a temperature begins with a number/],
		[
			'medium: { film: 1.0 mil }',
			'medium: thin',
			/coats, medium, film: found "thin"; a film begins with a number/,
		],
	])('%s for %s is refused', (keys, line, says) => {
		expect(complaintsOf(altered(keys, line))).toContainEqual(expect.stringMatching(says));
	});
});

describe('as it is measured or bought', () => {
	test('a flow is what a cup caught, and in what time', () => {
		const { gun } = jobOf(altered('flow: 7 fl oz/min', 'flow: 100 mL in 30 s'));
		expect(gun).toMatchObject({ flow_mL_per_min: 200, flow_tolerance: example.gun.flow_tolerance });
		const { gun: close } = jobOf(altered('flow: 7 fl oz/min', 'flow: 3 1/2 fl oz in 1/2 min ± 3%'));
		expect(close.flow_mL_per_min).toBeCloseTo(example.gun.flow_mL_per_min, 6);
		expect(close.flow_tolerance).toBe(0.03);
	});

	test.each([
		['100 mL in 0 s', /gun, flow: found "100 mL in 0 s"; allowed: more than 0, up to 20 L\/min$/],
		['100 mL in a while', /gun, flow: .*; a time begins with a number/],
		['much in 30 s', /gun, flow: .*; a volume begins with a number/],
	])('%s is refused', (flow, says) => {
		expect(complaintsOf(altered('flow: 7 fl oz/min', `flow: ${flow}`))).toEqual([
			expect.stringMatching(says),
		]);
	});

	test('paper is called by its letter too', () => {
		expect(jobOf(altered('- sand: 400 grit', '- sand: P400'))).toEqual(example);
		expect(jobOf(altered('    grit: 600', '    grit: P600'))).toEqual(example);
		expect(complaintsOf(altered('- sand: 400 grit', '- sand: Pfine'))).toHaveLength(1);
	});
});

test('overlap and distance may be left out, and are said to be usual, not measured', () => {
	const text = altered('  overlap: 50%\n', '').replace('  distance: 6 in\n', '');
	const { gun } = jobOf(text);
	expect(gun).toMatchObject({ overlap: 0.5, distance_mm: 150 });
	expect(notesOf(jobOf(text), 'us')).toContainEqual('gun: overlap, distance, feather usual, not measured');
	expect(notesOf(example, 'us')).toContainEqual('gun: feather usual, not measured');
});
