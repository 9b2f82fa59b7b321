import { copyFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test, vi } from 'vitest';
import { againCommand } from '../../src/cli/again.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { shortSheet } from '../job/chairs/long-form.ts';
import { asked as askedBy, filledHome } from './asked.ts';
import { example, run } from './run.ts';

afterEach(() => vi.unstubAllEnvs());

const asked = (home: string, answers: readonly string[], how?: { json: boolean }) =>
	askedBy(againCommand, home, join(home, 'chairs.yaml'), answers, how);

/** A home with the chairs' sheet, and a second colour on the shelf. */
function chairsHome(sheet = shortSheet) {
	const home = filledHome();
	copyFileSync(sheet, join(home, 'chairs.yaml'));
	const green = readFileSync(join(home, 'shelf/materials/moss-green.yaml'), 'utf8');
	writeFileSync(join(home, 'shelf/materials/linen.yaml'), green.replaceAll('moss green', 'linen'));
	return home;
}
const sheetIn = (home: string, name: string) => readFileSync(join(home, name), 'utf8');
async function jobIn(home: string, name: string) {
	const loaded = await loadJob(join(home, name), join(home, 'shelf'));
	if (!loaded.ok) throw new Error(loaded.errors.map(({ says }) => says).join('\n'));
	return loaded.job;
}

/** Name, frames, seats, primer, topcoat, first day, WRITE. */
const another = ['Six chairs in linen', '6', '4', '', 'linen satin', '', 'WRITE'];

test('as it was by Enter alone: the same job under the next name, every line and comment as it was written', async () => {
	const home = chairsHome();
	const commented = sheetIn(home, 'chairs.yaml').replace(
		'count: 8',
		'count: 8 # garden: all but the broken one',
	);
	writeFileSync(join(home, 'chairs.yaml'), commented);
	const { status, stderr } = await asked(home, Array(7).fill(''));
	expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
	const written = sheetIn(home, 'eight-garden-chairs-2.yaml');
	const [first, ...lines] = written.split('\n');
	expect(first).toBe('# again: Eight garden chairs');
	expect(lines.filter(line => !line.startsWith('# ')).join('\n')).toBe(
		commented.replace('Eight garden chairs', 'Eight garden chairs 2'),
	);
	expect(await jobIn(home, 'eight-garden-chairs-2.yaml')).toEqual({
		...(await jobIn(home, 'chairs.yaml')),
		name: 'Eight garden chairs 2',
	});
});

test('other counts and another colour: seven answers, and check has nothing against the sheet', async () => {
	const home = chairsHome();
	const { status, stdout } = await asked(home, another);
	expect(status).toBe(0);
	expect(stdout).toMatch(/How many of frame\? \(Enter: 8\)/);
	expect(stdout).toMatch(/In place of moss green satin\? \(Enter: moss green satin\)/);
	expect(stdout).toMatch(/spray linen satin +from .* to /);
	const path = join(home, 'six-chairs-in-linen.yaml');
	const checked = run(['check', path], { home });
	expect({ status: checked.status, stderr: checked.stderr }).toEqual({ status: 0, stderr: '' });
	const job = await jobIn(home, 'six-chairs-in-linen.yaml');
	expect(job.parts.map(({ name }) => name.replace(/ \d+$/, ''))).toEqual([
		...Array(6).fill('frame'),
		...Array(4).fill('seat'),
	]);
	expect(Object.keys(job.materials).toSorted()).toEqual(['grey epoxy', 'linen satin']);
	expect(sheetIn(home, 'chairs.yaml')).toBe(readFileSync(shortSheet, 'utf8'));
});

test('a sheet made again is made again: what was said of the first job is not said of the third', async () => {
	const home = chairsHome();
	await asked(home, another);
	const second = join(home, 'six-chairs-in-linen.yaml');
	const { status } = await askedBy(againCommand, home, second, ['', '5', '', '', '', '-', '']);
	expect(status).toBe(0);
	const written = sheetIn(home, 'six-chairs-in-linen-2.yaml');
	const heads = written.match(/^# .*$/gm);
	expect(heads).toEqual([
		'# again: Six chairs in linen',
		'# gun: feather usual, not measured',
		'# material grey epoxy: dry to handle usual, not measured',
		'# material linen satin: dry to handle usual, not measured',
		'# to do: first day and hour',
	]);
	expect(written.match(/^ +count: .*$/gm)).toEqual(['    count: 5', '    count: 4']);
});

test('a single part becomes several of them; materials of the sheet itself may be chosen', async () => {
	const home = chairsHome(example);
	const flow = sheetIn(home, 'chairs.yaml').replace(
		/ {2}- part: corner box\n[\s\S]*?(?=\n {2}- part|$)/,
		part => {
			expect(part).toContain('place:');
			return part.replace(/ {2}- part: corner box[^\n]*/, '  - part: corner box # of ash');
		},
	);
	writeFileSync(join(home, 'chairs.yaml'), flow);
	const names = (await jobIn(home, 'chairs.yaml')).parts.map(({ name }) => name);
	const counts = names.map(name => (name === 'corner box' ? '3' : ''));
	const { status, stdout } = await asked(home, ['Cart with three boxes', ...counts, '', '', '', '']);
	expect(status).toBe(0);
	expect(stdout).toMatch(/In place of primer\? \(Enter: primer\)\n {2}1 {2}primer\n {2}2 {2}topcoat\n/);
	expect(sheetIn(home, 'cart-with-three-boxes.yaml')).toContain(
		'  - part: corner box # of ash\n    count: 3\n',
	);
	const { parts } = await jobIn(home, 'cart-with-three-boxes.yaml');
	expect(parts.map(({ name }) => name)).toEqual(expect.arrayContaining(['corner box 1', 'corner box 3']));
});

test('a name that another job has is not taken: its coats would count as this one’s', async () => {
	const home = chairsHome();
	const day = rehearsed({ settings: { by: 'face' } });
	const records = day
		.records()
		.map(
			(one): DayRecord =>
				one.type === 'day.opened' ? { ...one, clock: 'real', job: 'Eight garden chairs 2' } : one,
		);
	mkdirSync(join(home, 'days'));
	const file = '2027-03-02_eight-garden-chairs-2.day.jsonl';
	writeFileSync(join(home, 'days', file), encodeKey(records, undefined));
	const { stdout } = await asked(home, ['eight garden chairs', 'Eight garden chairs 2', 'leave']);
	expect(stdout).toContain('(Enter: Eight garden chairs 3)');
	expect(stdout.match(/ is a job already, and its coats would count: choose another name/g)).toHaveLength(2);
});

test('what cannot be used is said where it is answered', async () => {
	const home = chairsHome();
	const small = sheetIn(home, 'chairs.yaml').replace('frame, seat underside]', 'frame 8, seat underside]');
	writeFileSync(join(home, 'chairs.yaml'), small.replace('[seat edges', '[frame, seat edges'));
	const path = join(home, 'shelf/materials/linen.yaml');
	const linen = readFileSync(path, 'utf8');
	writeFileSync(path, linen.replace('over: grey epoxy', 'over: another epoxy'));
	const { stdout } = await asked(home, ['', '0', '7', '8', '', '', 'moss', 'linen satin', 'leave']);
	expect(stdout).toContain('allowed: 1 to 1000 of them');
	expect(stdout).toMatch(/found "frame 8"/);
	expect(stdout).toContain('nearest: moss green satin');
	expect(stdout).toContain('no recoat windows are given for linen satin over grey epoxy');
});

test('left after any answer and gone on with, the sheet is the same; of another sheet nothing goes on', async () => {
	const whole = chairsHome();
	await asked(whole, another);
	for (let upTo = 1; upTo < another.length; upTo++) {
		const home = chairsHome();
		const left = await asked(home, [...another.slice(0, upTo), ...(upTo % 2 ? ['leave'] : [])]);
		expect(left).toMatchObject({ status: 1, stderr: 'fanwise again: left; fanwise again goes on with it\n' });
		copyFileSync(shortSheet, join(home, 'other.yaml'));
		const other = await askedBy(againCommand, home, join(home, 'other.yaml'), []);
		expect(other.stdout).toMatch(/^ {2}As Eight garden chairs\./);
		expect((await asked(home, ['', ...another.slice(upTo)])).status).toBe(0);
		expect(sheetIn(home, 'six-chairs-in-linen.yaml')).toBe(sheetIn(whole, 'six-chairs-in-linen.yaml'));
		expect(readdirSync(home)).not.toContain('again-sheet.json');
	}
}, 120_000);

test('back, and by its number from the last question, the sheet is the same', async () => {
	const [whole, home] = [chairsHome(), chairsHome()];
	await asked(whole, another);
	const there = ['Six chairs in linen', '5', 'back', '6', '4', '', 'linen satin', '', 'CHANGE', '3', '4'];
	await asked(home, [...there, '', 'linen satin', '', 'WRITE']);
	expect(sheetIn(home, 'six-chairs-in-linen.yaml')).toBe(sheetIn(whole, 'six-chairs-in-linen.yaml'));
});

test('as data: one object a question, and the file at the end', async () => {
	const home = chairsHome();
	const { stdout } = await asked(home, another, { json: true });
	const said = stdout
		.split('\n')
		.filter(Boolean)
		.map(line => JSON.parse(line));
	expect(said.map(({ question, at, of }) => [question, at, of]).slice(0, -1)).toEqual(
		['name', 'count', 'count', 'material', 'material', 'start', 'write'].map((one, nth) => [one, nth + 1, 7]),
	);
	expect(said[1]).toMatchObject({ offered: '8' });
	expect(said.at(-1)).toEqual({ written: join(home, 'six-chairs-in-linen.yaml'), shelf: [] });
});

test('a file that is there is never written over, and a sheet with errors, or none, is asked nothing', async () => {
	const home = chairsHome();
	writeFileSync(join(home, 'six-chairs-in-linen.yaml'), 'mine\n');
	const { stdout } = await asked(home, another);
	expect(stdout).toMatch(/six-chairs-in-linen-2\.yaml: written\./);
	expect(sheetIn(home, 'six-chairs-in-linen.yaml')).toBe('mine\n');
	writeFileSync(join(home, 'chairs.yaml'), 'name: Chairs\npaints: large\n');
	expect(await asked(home, another)).toMatchObject({
		status: 2,
		stdout: '',
		stderr: expect.stringMatching(/chairs\.yaml:2:1: key: found "paints"/),
	});
	expect(run(['again'], { home })).toMatchObject({
		status: 2,
		stderr: 'fanwise again: name a job sheet: fanwise again JOB.yaml\n',
	});
});

test('a colour that the shelf lacks is asked for on the way, and goes onto the shelf that the sheet names', async () => {
	const home = chairsHome();
	const sheet = sheetIn(home, 'chairs.yaml').replace('gun: large', 'shelf: ours\ngun: large');
	mkdirSync(join(home, 'here'));
	writeFileSync(join(home, 'here/chairs.yaml'), sheet.replace('ours', '../shelf'));
	const epoxy = [
		...['NEW', 'slate satin', '2:1 by volume', '10%', 'stir, base, hardener, reducer, strain', 'none'],
		...['2 h at 20 °C', '125 micron', 'tack: 12 um, full: 28 um', '95 um', '15 min to 2 h at 20 °C'],
		'slate satin, 12 to 30 °C: wait 0 to 15 min, spray 15 min to 2 h, wait 2 h to 16 h, sand from 16 h',
		'grey epoxy, 12 to 30 °C: wait 0 to 4 h, spray 4 h to 8 h, sand from 8 h',
		...['', '16 h at 20 °C', '', '', '2 min', '10 min', '30 min', '50%'],
		...['air: 12 to 32 °C, humidity: 75%, over dew point: 3 °C', 'no', 'mixing: supplied air'],
	];
	const path = join(home, 'here/chairs.yaml');
	const { status, stdout } = await askedBy(againCommand, home, path, ['', '', '', '', ...epoxy, '', '']);
	expect([status, stdout.split('\n').slice(-3)]).toEqual([
		0,
		[
			expect.stringMatching(/shelf\/materials\/slate-satin\.yaml: written\./),
			expect.stringMatching(/here\/eight-garden-chairs-2\.yaml: written\./),
			'',
		],
	]);
	expect(run(['check', join(home, 'here/eight-garden-chairs-2.yaml')], { home }).status).toBe(0);
});
