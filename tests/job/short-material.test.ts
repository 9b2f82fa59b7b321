import { describe, expect, test } from 'vitest';
import { errorLine } from '../../src/job/errors.ts';
import type { Job } from '../../src/job/job.ts';
import { parseJob } from '../../src/job/load.ts';
import { notesOf } from '../../src/job/notes.ts';
import { complaintsOf } from './altered.ts';

/** A material of the Pump Yard workshop, line by line; invented. */
const long = {
	breathing: '{ mixing: supplied air, spraying: supplied air, sanding: supplied air }',
	order: '[stir, base, hardener, stir, reducer, strain, cup]',
	strainer: '190 micron',
	coats:
		'{ tack: { film: 15 um, flash: 8 min at 20 °C }, full: { film: 30 um, flash: { from: 15 min, at: 20 °C } } }',
	flash: '{ from: 15 min, at: 20 °C }',
	'wet edge': '2 min',
	'wet the tip': '10 min',
	flush: '30 min',
	recoat:
		'[{ over: moss, surface: 19 to 20 °C, windows: [wait: 0 to 15 min, spray: 15 min to 2 h, wait: 2 h to 16 h, sand: from 16 h] }]',
	'sand after': '16 h at 20 °C',
	cup: '{ kind: din4, runs: 17 to 20 s, at: 20 °C }',
	limits: '{ air: 12 to 32 °C, surface: 12 to 30 °C, humidity: 75%, over dew point: 3 °C }',
};
type Lines = Partial<Record<keyof typeof long | 'flow cup' | 'dry to', string | null>>;
const sheetOf = (lines: Lines = {}) => `name: Bench
units: metric
shop: { air: 20 °C, humidity: 50%, day: 9 h }
gun: { pressure: 2 bar, fan: 20 cm, flow: 200 mL/min, cup: 600 mL gravity }
materials:
  moss:
    isocyanate: yes
    ratio: 2:1 by volume
    reducer: 10%
    solids: 50%
    sags above: 100 um
    pot life: 2 h at 20 °C
    standing: none
${Object.entries({ ...long, ...lines })
	.flatMap(([key, value]) => (value === null ? [] : [`    ${key}: ${value}\n`]))
	.join('')}stages: [{ spray: moss, coats: [tack, full] }]
parts: [{ part: seat, shape: "panel, 40 x 38 x 3 cm", held: hanging }]
`;
function jobOf(text: string): Job {
	const loaded = parseJob(text, 'own.yaml');
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return loaded.job;
}
const moss = (lines: Lines = {}) => jobOf(sheetOf(lines)).materials.moss;
const says = (lines: Lines) => complaintsOf(sheetOf(lines)).join('\n');

describe('a material in the short lines of its data sheet', () => {
	test('comes to the same as one that writes all of it out', () => {
		const short = moss({
			breathing: 'supplied air',
			coats: '{ tack: 15 µm, full: 30 µm }',
			flash: '{ tack: 8 min at 20 °C, full: 15 min at 20 °C }',
			...{ cup: null, 'flow cup': 'din4, 17 to 20 s at 20 °C' },
			...{ 'sand after': null, 'dry to': '{ sand: 16 h at 20 °C }' },
		});
		expect(short).toEqual(moss());
	});

	test('its recoat windows in a line hold at its temperature, and what lies between them is a wait', () => {
		const [row] = moss({ recoat: '15 min to 2 h at 20 °C or sanded from 16 h' })?.recoat[0]?.rows ?? [];
		const [table] = moss()?.recoat[0]?.rows ?? [];
		expect(row).toEqual({ ...table, from_C: 20 });
		const recoat =
			'{ itself: 10 min to 5 d at 20 °C, epoxy: scuffed 4 h to 8 h at 15 °C or sanded from 8 h }';
		expect(says({ recoat })).toMatch(/recoat, over: found "epoxy"; allowed: moss/);
	});

	test('what lies under may be called by its name', () => {
		const under = `  primer:${sheetOf({ recoat: null }).split('  moss:')[1]?.split('stages:')[0]}`;
		const text = (name: string) =>
			sheetOf({ recoat: '{ epoxy primer: sanded from 12 h at 20 °C }' })
				.replace('stages:', `${under}    name: ${name}\nstages:`)
				.replace('[{ spray: moss,', '[{ spray: primer, coats: [full] }, wait: 12 h, sand, { spray: moss,');
		expect(jobOf(text('epoxy primer')).materials.moss?.recoat[0]?.under).toBe('primer');
		expect(complaintsOf(text('grey primer')).join()).toMatch(
			/no recoat windows are given for moss over primer/,
		);
	});

	test('dry to handle and to tape are kept', () => {
		const dry = '{ handle: 4 h at 20 °C, tape: [20 h at 15 °C, 16 h at 20 °C], sand: 16 h at 20 °C }';
		expect(moss({ 'sand after': null, 'dry to': dry })).toMatchObject({
			sandAfter: [{ at_C: 20, hours: 16 }],
			dryTo: {
				handle: [{ at_C: 20, hours: 4 }],
				tape: [
					{ at_C: 15, hours: 20 },
					{ at_C: 20, hours: 16 },
				],
			},
		});
	});

	test('what is usual may be left out, stands as usual, and is said not to be measured', () => {
		const out = { order: null, strainer: null, 'wet edge': null, 'wet the tip': null, flush: null };
		const limits = '{ air: 12 to 32 °C, surface: 12 to 30 °C, humidity: 75% }';
		const assumed = ['order', 'strainer', 'wet edge', 'wet the tip', 'flush', 'over dew point'];
		expect(moss({ ...out, limits })).toEqual({ ...moss(), assumed });
		const job = jobOf(sheetOf({ ...out, limits }));
		expect(notesOf(job, 'metric')).toContain(`material moss: ${assumed.join(', ')} usual, not measured`);
	});

	test('what is never taken for granted is asked for', () => {
		const needed = { flash: null, limits: null };
		expect(says(needed)).toMatch(/flash is missing[\s\S]*limits is missing/);
	});

	test.each<[Lines, RegExp]>([
		[
			{ coats: '{ tack: 15 µm, full: 30 µm }', flash: '{ full: 15 min at 20 °C }' },
			/moss, flash, tack is missing: write "tack: 15 min at 20 °C"/,
		],
		[{ 'flow cup': 'din4, 17 to 20 s' }, /flow cup: "cup" says it already; take one out/],
		[{ cup: null, 'flow cup': 'din4' }, /flow cup: found "din4"; as in "din4, 17 to 20 s at 20 °C"/],
		[{ 'dry to': '{ sand: 16 h at 20 °C }' }, /dry to, sand: "sand after" says it already/],
		[{ 'dry to': '{ tape: [2 h at 20 °C, 3 h at 20 °C] }' }, /tape: two times at one temperature/],
		[{ recoat: '15 min to 2 h' }, /recoat: found "15 min to 2 h"; a temperature is wanted, as in "15 min/],
		[{ recoat: '2 h to 15 min at 20 °C' }, /it ends before it begins/],
		[{ recoat: '1 h to 3 h at 20 °C or sanded from 2 h' }, /"sanded from 2 h" begins before the one before/],
		[{ recoat: '1 h to 3 h at 20 °C or sanded from 4 h at 25 °C' }, /two temperatures/],
		[{ breathing: 'filter mask with A2' }, /found a filter mask; with isocyanate only supplied air/],
	])('%j is refused', (lines, pattern) => {
		expect(says(lines)).toMatch(pattern);
	});
});
