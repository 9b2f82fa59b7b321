import { describe, expect, test } from 'vitest';
import { errorLine } from '../../src/job/errors.ts';
import { type Job, withGunOf } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';
import { notesOf } from '../../src/job/notes.ts';
import type { Shelf } from '../../src/job/shelf.ts';
import { planJob } from '../../src/plan/job-plan.ts';
import { longSheet } from './chairs/long-form.ts';

/** The chairs of the Pump Yard workshop, with a large gun for the primer and a small one for the colour; invented. */

const large = 'gun: large\npressure: 2 bar\nfan: 25 cm\nflow: 200 mL/min ± 3%\ncup: 600 mL gravity\n';
const small = `gun: small
tip: 1.3 mm
cup: 300 mL gravity
set-ups:
  - { for: moss green satin, pressure: 1.8 bar, fan: 18 cm at 14 cm, paint: 75 mL in 30 s, measured: 3 March }
`;
const shelfOf = (...texts: string[]): Shelf => ({
	folder: '',
	errors: [],
	files: texts.map((text, nth) => ({
		...{ kind: 'gun' as const, path: `guns/${nth}.yaml`, text },
		name: /^gun: (.*)$/m.exec(text)?.[1] ?? null,
	})),
});
const [, ofSheet = ''] = /\n(gun:\n[\s\S]*?\n)materials:/.exec(longSheet) ?? [];
const named = longSheet
	.replace(ofSheet, '')
	.replace('spray: grey epoxy,', 'spray: grey epoxy, gun: large,')
	.replaceAll('spray: moss green satin,', 'spray: moss green satin, gun: small,');
const loadedOf = (text: string, shelf = shelfOf(large, small)) => parseJob(text, 'own.yaml', () => shelf);
function jobOf(text: string, shelf?: Shelf): Job {
	const loaded = loadedOf(text, shelf);
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return loaded.job;
}
const says = (text: string, shelf?: Shelf): string[] => {
	const loaded = loadedOf(text, shelf);
	return loaded.ok ? [] : loaded.errors.map(({ says: one }) => one);
};
const sprays = (job: Job) =>
	job.stages.flatMap((stage, nth) => (stage.kind === 'coats' ? [{ ...stage, nth }] : []));

describe('a gun for each spray stage', () => {
	test('pressure, fan and flow come with its set-up for the material', () => {
		const job = jobOf(named);
		const guns = sprays(job).map(({ nth }) => withGunOf(job, nth).gun);
		expect(guns[0]).toMatchObject({
			pressure_kPa: 200,
			fanHeight_mm: 250,
			flow_mL_per_min: 200,
			cup_mL: 600,
		});
		expect(guns[2]).toMatchObject({ fanHeight_mm: 180, distance_mm: 140, flow_mL_per_min: 150, cup_mL: 300 });
		expect(guns[2]?.pressure_kPa).toBeCloseTo(180, 9);
		expect(sprays(job).map(({ gun }) => gun)).toEqual(['large', 'large', 'small', 'small', 'small']);
	});

	test('its coats are worked out with that gun: paint, fan and time', () => {
		const top = jobOf(named).faces.find(({ id }) => id === 'seat 1/top');
		expect(top?.fanHeight_mm).toBe(250);
		expect(top?.coats.map(({ fanHeight_mm }) => fanHeight_mm)).toEqual([undefined, undefined, 180, 180, 180]);
		expect(top?.coats[2]?.flow_mL_per_min).not.toBe(top?.coats[0]?.flow_mL_per_min);
	});

	test('one gun by its name is the gun of the sheet', () => {
		const { guns, ...job } = jobOf(named.replaceAll('gun: small', 'gun: large'));
		expect(guns).toBeUndefined();
		expect(job).toEqual(jobOf(`gun: large\n${longSheet.replace(ofSheet, '')}`));
	});

	test('guns may stand in the sheet', () => {
		const own = (text: string) =>
			text
				.replace(/^gun: .*\n/, '')
				.replace(/^/gm, '    ')
				.trimEnd();
		const sheet = `guns:\n  large:\n${own(large)}\n  small:\n${own(small)}\n${named}`;
		expect(jobOf(sheet, shelfOf())).toEqual(jobOf(named));
	});

	test('the plan takes the paint of each stage from its own cup', () => {
		const steps = (shelf: Shelf) =>
			planJob({ job: jobOf(named, shelf), start: 0 }).stages.flatMap(({ verdict }) =>
				verdict ? [verdict.plan.batches.map(({ volume_mL }) => volume_mL)] : [],
			);
		const [wide, narrow] = [small, small.replace('300 mL', '1 L')].map(one => steps(shelfOf(large, one)));
		expect(wide?.slice(0, 2)).toEqual(narrow?.slice(0, 2));
		expect(wide?.slice(2)).not.toEqual(narrow?.slice(2));
	});

	test('a set-up of a kind of coat goes before that of the material', () => {
		const both = `${small}  - { for: moss green satin, coat: full, pressure: 2 bar, fan: 10 cm, paint: 60 mL in 30 s }\n`;
		const job = jobOf(named.replace('coats: [tack, full]', 'coats: [full, full]'), shelfOf(large, both));
		const heights = sprays(job).map(({ nth }) => withGunOf(job, nth).gun.fanHeight_mm);
		expect(heights).toEqual([250, 250, 100, 180, 180]);
	});

	test('a fan that was never measured with a material is said to be so', () => {
		const set = `${small.replace('moss green satin', 'linen satin')}pressure: 2 bar\nfan: 20 cm\nflow: 150 mL/min\n`;
		expect(notesOf(jobOf(named, shelfOf(large, set)), 'metric')).toContain(
			'gun small: this fan was never measured with its material',
		);
	});

	test.each([
		['a stage without one', named.replace(', gun: large', ''), /^gun is missing: write "gun: \{/],
		[
			'one that is not there',
			named.replace('gun: large', 'gun: huge'),
			/gun: found "huge"; the shelf has large, small/,
		],
		[
			'one at a step',
			named.replace('- scuff', '- { scuff: yes, gun: large }'),
			/only a spray stage has one; take it out/,
		],
		[
			'no figures for a material',
			named.replace('gun: large', 'gun: small'),
			/gun, pressure is missing: write/,
		],
	])('%s is refused', (_, text, pattern) => {
		expect(says(text).join('\n')).toMatch(pattern);
	});
});
