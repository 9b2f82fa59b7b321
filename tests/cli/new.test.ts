import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test, vi } from 'vitest';
import { newCommand } from '../../src/cli/new.ts';
import { makeDaysFolder } from '../../src/day/file/folder.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { stoolJob } from '../day/stools.ts';
import { chairs } from '../job/asking/answered.ts';
import { asked as askedBy, filledHome, typed } from './asked.ts';
import { folder, run } from './run.ts';

afterEach(() => vi.unstubAllEnvs());

const asked = (home: string, answers: readonly string[], how?: { json: boolean }) =>
	askedBy(newCommand, home, join(home, 'chairs.yaml'), answers, how);
const sheetIn = (home: string) => readFileSync(join(home, 'chairs.yaml'), 'utf8');

test('a line an answer: the plan, what is usual, the sheet, and check has nothing against it', async () => {
	const home = filledHome();
	const { status, stdout, stderr } = await asked(home, chairs);
	expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
	expect(stdout).toMatch(/spray grey epoxy +from .* to /);
	expect(stdout).toMatch(/gun: feather usual, not measured/);
	expect(stdout).toMatch(/chairs\.yaml: written\. Next: fanwise spray /);
	const checked = run(['check', join(home, 'chairs.yaml')], { home });
	expect({ status: checked.status, stderr: checked.stderr }).toEqual({ status: 0, stderr: '' });
	expect(sheetIn(home)).toContain('# gun: feather usual, not measured\n');
});

test('as data: one object a question, and the file at the end', async () => {
	const home = filledHome();
	const { stdout } = await asked(home, chairs, { json: true });
	const said = stdout
		.split('\n')
		.filter(Boolean)
		.map(line => JSON.parse(line));
	expect(said).toHaveLength(chairs.length + 1);
	expect(said[2]).toMatchObject({
		question: 'shape',
		at: 3,
		choices: expect.arrayContaining(['tube frame']),
	});
	expect(said[19]).toMatchObject({ question: 'left over', offered: 'yes', at: 20 });
	expect(said.at(-2)).toMatchObject({ question: 'write', at: 25, of: 25 });
	expect(said.at(-1)).toEqual({ written: join(home, 'chairs.yaml'), shelf: [] });
});

test('left after any answer and gone on with, the sheet is the same', async () => {
	const whole = filledHome();
	await asked(whole, chairs);
	for (let upTo = 1; upTo < chairs.length; upTo++) {
		const home = filledHome();
		const left = await asked(home, [...chairs.slice(0, upTo), ...(upTo % 2 ? ['leave'] : [])]);
		expect([left.status, existsSync(join(home, 'chairs.yaml'))]).toEqual([1, false]);
		expect((await asked(home, ['', ...chairs.slice(upTo)])).status).toBe(0);
		expect(sheetIn(home)).toBe(sheetIn(whole));
		expect(existsSync(join(home, 'new-sheet.json'))).toBe(false);
	}
}, 120_000);

test('back from any question, and by its number from the last, the sheet is the same', async () => {
	const whole = filledHome();
	await asked(whole, chairs);
	const home = filledHome();
	const there = chairs.slice(1).flatMap((answer, nth) => ['back', chairs[nth] ?? '', answer]);
	const again = [...there.slice(0, -1), 'CHANGE', '12', ...chairs.slice(11)];
	const { status } = await asked(home, [chairs[0] ?? '', ...again]);
	expect(status).toBe(0);
	expect(sheetIn(home)).toBe(sheetIn(whole));
});

test('begun anew, what was left is forgotten; a kept file that is damaged stops nothing', async () => {
	const home = filledHome();
	await asked(home, ['Four stools', '4 x stool']);
	const { stdout } = await asked(home, ['begin anew', 'Eight garden chairs', 'leave']);
	expect(stdout).toMatch(/^1 of 1 {2}Four stools: go on with it\?/);
	expect(stdout).toMatch(/^1 of \d+ {2}What is the job called\?/m);
	writeFileSync(join(home, 'new-sheet.json'), '{"answers": [');
	expect((await asked(home, ['leave'])).stdout).toMatch(
		/\?: explains\.\n1 of \d+ {2}What is the job called\?/,
	);
});

test('answers that no longer answer, the shelf being another, are asked for again', async () => {
	const home = filledHome();
	await asked(home, chairs.slice(0, 20));
	const path = join(home, 'shelf/materials/moss-green.yaml');
	writeFileSync(path, readFileSync(path, 'utf8').replace('over: grey epoxy', 'over: linen satin'));
	const { stdout } = await asked(home, ['', 'leave']);
	expect(stdout).toMatch(/16 of \d+ {2}moss green satin: on which faces\?/);
});

test('nothing that is there is written over, and what the shelf lacks is written with the sheet alone', async () => {
	const home = folder();
	const shop = ['the Pump Yard workshop', 'metric', '20 °C', '50%', '9 h'];
	await asked(home, [...chairs.slice(0, 10), ...shop, 'leave']);
	expect(existsSync(join(home, 'shelf'))).toBe(false);
	writeFileSync(join(home, 'chairs.yaml'), 'mine\n');
	const { status, stderr } = await asked(home, []);
	expect([status, stderr]).toEqual([2, expect.stringMatching(/chairs\.yaml is there already/)]);
	expect(sheetIn(home)).toBe('mine\n');
	const filled = filledHome();
	const named = typed(chairs);
	for (const name of ['eight-garden-chairs.yaml', 'eight-garden-chairs-2.yaml']) {
		const { lines } = run(['new'], { home: filled, input: named, cwd: filled });
		expect(lines.at(-1)).toBe(`${name}: written. Next: fanwise spray ${name}`);
	}
	expect(readdirSync(filled).filter(name => name.endsWith('.yaml'))).toHaveLength(2);
});

test('a shop that cannot be used is said at once, before anybody has answered', async () => {
	const home = filledHome();
	writeFileSync(join(home, 'shelf/shop.yaml'), 'shop: ours\nunits: feet\n');
	const { status, stdout, stderr } = await asked(home, chairs);
	expect([status, stdout]).toEqual([2, '']);
	expect(stderr).toMatch(/shop\.yaml:2:8: shop, units: found "feet"/);
});

test('where no sheet or no answer can be written, that is said before anything is asked, and no fault of the program', async () => {
	const file = join(folder(), 'home');
	writeFileSync(file, 'a file, no folder');
	const home = filledHome();
	const said = [
		await askedBy(newCommand, join(file, 'inside'), join(home, 'chairs.yaml'), chairs),
		await askedBy(newCommand, file, join(home, 'chairs.yaml'), chairs),
		await askedBy(newCommand, home, join(home, 'nowhere/chairs.yaml'), chairs),
		await askedBy(newCommand, home, join(file, 'chairs.yaml'), chairs),
	];
	expect(said.map(({ status, stdout }) => [status, stdout])).toEqual(Array(4).fill([2, '']));
	expect(said.map(({ stderr }) => stderr.replaceAll(/\/\S*\//g, ''))).toEqual([
		'fanwise new: inside: nothing can be written there; a part of its path is no folder: correct the path\n',
		'fanwise new: home is no folder\n',
		expect.stringMatching(
			/^fanwise new: nowhere: nothing can be written there; the file or its folder is not there/,
		),
		'fanwise new: home is no folder\n',
	]);
	expect(existsSync(join(home, 'nowhere'))).toBe(false);
	const adding = run(['shelf', 'add', 'gun', 'large'], { home: file });
	expect([adding.status, adding.stdout]).toEqual([2, '']);
});

test('a name under which days were sprayed is refused in one line, and another one taken', async () => {
	const home = filledHome();
	const store = makeDaysFolder(join(home, 'days'));
	const job = stoolJob(text => text.replace('name: Two stools', `name: ${chairs[0]}`));
	const made = rehearsed({ job }).records();
	const real = made.map((one): DayRecord => (one.type === 'day.opened' ? { ...one, clock: 'real' } : one));
	writeFileSync(join(store, '2026-03-02_eight-garden-chairs.day.jsonl'), encodeKey(real, undefined));
	const { stdout } = await asked(home, [chairs[0] ?? '', 'Eight more chairs', 'leave'], { json: true });
	const said = stdout
		.split('\n')
		.filter(Boolean)
		.map(line => JSON.parse(line));
	expect(said[1]).toMatchObject({
		question: 'name',
		wrong: `${chairs[0]} has days already: go on with it by its own sheet, or give another name`,
	});
	expect(said[2]?.question).not.toBe('name');
});
