import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { loadJob } from '../../src/job/load.ts';
import { shelf, shortSheet } from '../job/chairs/long-form.ts';
import { folder, run } from './run.ts';

function filledHome() {
	const home = folder();
	cpSync(shelf, join(home, 'shelf'), { recursive: true });
	return home;
}

test('an empty shelf says where its files go, and is no mistake', () => {
	const home = folder();
	for (const args of [['shelf'], ['shelf', 'check']])
		expect(run(args, { home })).toMatchObject({
			status: 0,
			stdout: `The shelf is empty: fanwise shelf add material NAME begins it, in ${join(home, 'shelf')}\n`,
		});
});

test('the shelf is listed, and sheets use it', () => {
	const home = filledHome();
	const { lines } = run(['shelf'], { home });
	expect(lines.map(line => line.replace(/\d{4}-\d{2}-\d{2}/, 'DATE').replaceAll(/ {2,}/g, ' | '))).toEqual([
		'material | grey epoxy | DATE | can be used',
		'material | moss green satin | DATE | can be used',
		'gun | large | DATE | can be used; feather usual, not measured',
		'shop | the Pump Yard workshop | DATE | can be used',
	]);
	expect(run(['shelf', 'check'], { home })).toMatchObject({ status: 0, stderr: '' });
	expect(run(['check', shortSheet], { home }).stdout).toMatch(/Eight garden chairs: 16 parts, 32 faces/);
	expect(run(['check', shortSheet]).stderr).toMatch(/gun: found "large"; the shelf has no gun/);
});

test('what is wrong is counted in the list, said whole by check, and by name', () => {
	const home = filledHome();
	const epoxy = join(home, 'shelf/materials/grey-epoxy.yaml');
	const text = readFileSync(epoxy, 'utf8');
	writeFileSync(epoxy, text.replace('ratio: 1:1 by volume\n', '').replace('solids: 46%', 'solids: lots'));
	writeFileSync(join(home, 'shelf/materials/second.yaml'), text);
	const { lines } = run(['shelf'], { home });
	expect(lines[0]).toMatch(/grey epoxy .* cannot be used: 2 errors, first in line 1$/);
	const checked = run(['shelf', 'check', 'grey epoxy', '--json'], { home });
	expect(checked.status).toBe(2);
	expect(JSON.parse(checked.stdout)).toMatchObject({
		valid: false,
		errors: [
			{ line: 1, says: expect.stringMatching(/ratio is missing/) },
			{ line: 6, says: expect.stringMatching(/solids: found "lots"/) },
			{ line: 1, says: 'another file of the shelf has this name' },
		],
	});
	expect(run(['shelf', 'check', 'large'], { home })).toMatchObject({ status: 0 });
	expect(run(['shelf', 'check', 'grey epoxi'], { home }).stderr).toMatch(/nearest: grey epoxy$/m);
});

test('nothing that lies in the folder stops the list, and no name of it is obeyed by a terminal', () => {
	const home = filledHome();
	mkdirSync(join(home, 'shelf/guns/folder.yaml'));
	writeFileSync(join(home, 'shelf/guns/zero.yaml'), Buffer.from([0, 1, 2]));
	writeFileSync(join(home, 'shelf/guns/nameless.yaml'), 'pressure: 2 bar\n');
	writeFileSync(join(home, 'shelf/guns/wild.yaml'), 'gun: "wild \u001b[2J"\n');
	const { status, stdout, stderr } = run(['shelf'], { home });
	expect(status).toBe(0);
	expect(stdout).toMatch(/gun .*nameless\.yaml .* cannot be used/);
	expect(stderr).toMatch(/folder\.yaml:1:1: is a folder/);
	expect(stderr).toMatch(/zero\.yaml:1:1: is not a text file/);
	expect(stdout + stderr).not.toContain('\u001b');
});

/** As its data sheet has it, an answer a line. */
const answers = {
	'ratio: 1:1 by volume': '1:1 by volume',
	'reducer: 15%': '15%',
	'order: [stir, base, hardener, reducer, stand, strain]': 'stir, base, hardener, reducer, stand, strain',
	'standing: 15 min': '15 min',
	'pot life: 4 h at 20 °C': '4 h at 20 °C',
	'strainer: 190 micron': '190 micron',
	'coats: { full: { film: 30 um } }': 'full: 30 um',
	'sags above: 130 um': '130 um',
	flash: '30 min to 8 h at 20 °C',
	recoat: 'grey epoxy, 15 to 30 °C: wait 0 to 30 min, spray 30 min to 8 h, scuff 8 h to 24 h, sand from 24 h',
	'no more of it': '',
	'sand after: 8 h at 20 °C': '8 h at 20 °C',
	'grit: 320': '320',
	'wet edge: 3 min': '3 min',
	'wet the tip: 20 min': '20 min',
	'flush: 60 min': '60 min',
	'solids: 46%': '46%',
	limits: 'air: 12 to 35 °C, humidity: 80%, over dew point: 3 °C',
	'isocyanate: no': 'no',
	breathing: 'mixing: filter mask with A2-P3, spraying: filter mask with A2-P3, sanding: filter mask with P3',
};
const typed = (lines: readonly string[]) => lines.map(line => `${line}\n`).join('');
const epoxy = ['shelf', 'add', 'material', 'grey epoxy'];

test('a material asked for line by line is the one that was written by hand', async () => {
	const home = filledHome();
	const file = join(home, 'shelf/materials/grey-epoxy.yaml');
	const before = await loadJob(shortSheet, join(home, 'shelf'));
	rmSync(file);
	const { status, stderr, lines } = run(epoxy, { home, input: typed(Object.values(answers)) });
	expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
	expect(lines.at(-1)).toMatch(/grey-epoxy\.yaml: written\. Sheets can name it\.$/);
	expect(run(['shelf', 'check', 'grey epoxy'], { home })).toMatchObject({ status: 0, stderr: '' });
	expect(before.ok).toBe(true);
	expect(await loadJob(shortSheet, join(home, 'shelf'))).toEqual(before);
});

test('an answer that cannot be used is asked again with what is wrong; the others are kept', () => {
	const home = folder();
	const input = typed([
		'two bar',
		'2 bar',
		...['25 cm', '200 mL/min', '600 mL', '600 mL gravity', '', '', ''],
	]);
	const { status, stdout } = run(['shelf', 'add', 'gun', 'large', '--json'], { home, input });
	const said = stdout
		.split('\n')
		.filter(Boolean)
		.map(line => JSON.parse(line));
	expect(status).toBe(0);
	expect(said.slice(0, 2)).toMatchObject([
		{ question: 'pressure', at: 1, of: 7, like: '2 bar' },
		{ question: 'pressure', at: 1, wrong: expect.stringMatching(/pressure: found "two bar"/) },
	]);
	expect(said.findLast(({ question }) => question === 'cup')).toMatchObject({
		wrong: expect.stringMatching(/as in "600 mL gravity"/),
	});
	expect(said.at(-1)).toEqual({ written: join(home, 'shelf/guns/large.yaml'), errors: [] });
	expect(readFileSync(join(home, 'shelf/guns/large.yaml'), 'utf8')).toBe(
		'gun: large\npressure: 2 bar\nfan: 25 cm\nflow: 200 mL/min\ncup: 600 mL gravity\n',
	);
});

test('what is not on the data sheet stays to be seen, and no sheet can use it', () => {
	const home = folder();
	const lines = Object.entries(answers).map(([line, answer]) => (line.startsWith('pot life') ? '-' : answer));
	const { status, stderr } = run(epoxy, { home, input: typed(lines) });
	expect(status).toBe(0);
	expect(stderr).toMatch(
		/grey-epoxy\.yaml:1:1: material, pot life is missing: write "pot life: 2 h at 20 °C"/,
	);
	expect(readFileSync(join(home, 'shelf/materials/grey-epoxy.yaml'), 'utf8')).toContain(
		'# not on the sheet: pot life\n',
	);
	expect(run(['shelf'], { home }).lines[0]).toMatch(/cannot be used: 1 error/);
});

test('answers that end write nothing, and nothing that is there is written over', () => {
	const home = filledHome();
	const input = typed(['1:1 by volume', '15%']);
	expect(run(['shelf', 'add', 'material', 'linen satin'], { home, input })).toMatchObject({ status: 1 });
	expect(existsSync(join(home, 'shelf/materials/linen-satin.yaml'))).toBe(false);
	expect(run(epoxy, { home, input: typed(Object.values(answers)) })).toMatchObject({ status: 2 });
	expect(run(['shelf', 'add', 'shop', 'ours'], { home })).toMatchObject({ status: 2 });
	expect(run(['shelf', 'add', 'material', 'a/b'], { home }).stderr).toMatch(/a name has no "\/"/);
	expect(run(['shelf', 'add', 'paint', 'grey'], { home }).stderr).toMatch(
		/allowed: material, gun, shape, shop/,
	);
	expect(run(['shelf', 'add'], { home })).toMatchObject({ status: 2 });
	expect(run(['shelf', 'check', 'grey', 'epoxy'], { home }).stderr).toMatch(/"epoxy" is a word too many/);
});
