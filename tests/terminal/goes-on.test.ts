import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { makeDaysFolder } from '../../src/day/file/folder.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { shelf, shortSheet } from '../job/chairs/long-form.ts';
import { inTerminal } from './pty.ts';

const program = 'dist/fanwise.js';
const pause = (wait_ms: number) => new Promise(done => setTimeout(done, wait_ms));

beforeAll(() => {
	if (!existsSync(program)) throw new Error(`${program} is not built: npm run build`);
});

test('the next morning the job is offered by its name, its sheet in another folder, and its second day begins', async () => {
	const loaded = await loadJob(shortSheet, shelf);
	if (!loaded.ok) throw new Error(loaded.errors[0]?.says);
	const day = rehearsed({ job: loaded.job, at: Date.now() - 20 * 3_600_000 });
	day.send('hold');
	day.pick('close');
	day.pick('close');
	const records = day
		.records()
		.map((one): DayRecord => (one.type === 'day.opened' ? { ...one, clock: 'real' } : one));
	const home = mkdtempSync(join(tmpdir(), 'fanwise-goes-on-'));
	const folder = makeDaysFolder(join(home, 'days'));
	const first = join(folder, `${records[0]?.at.slice(0, 10)}_eight-garden-chairs.day.jsonl`);
	writeFileSync(first, encodeKey(records, undefined));

	const terminal = inTerminal([process.execPath, program], { env: { FANWISE_HOME: home } });
	await terminal.until('Job to go on with: choose it, or a sheet.');
	await terminal.until('Eight garden chairs, day 2: wipe now.');
	await pause(1000);
	terminal.type('e');
	await terminal.until('Compressor: filters and alarm');
	const later = 'x';
	for (let tries = 0; tries < 5 && terminal.screen().includes('Compressor'); tries++) {
		await pause(1000);
		terminal.type(later);
	}
	await terminal.until('wipe');
	terminal.type('\u0003');
	expect(await terminal.ended).toBe(0);

	const second = readdirSync(folder)
		.map(name => join(folder, name))
		.find(path => path !== first && path.endsWith('.day.jsonl'));
	const [opened] = loadDay(second ?? '');
	expect(opened).toMatchObject({ type: 'day.opened', job: 'Eight garden chairs', sheet: loaded.job });
	expect(opened?.type === 'day.opened' && opened.after).toHaveLength(1);
}, 60_000);

const startedIn = (here: string) =>
	inTerminal(['sh', '-c', `cd ${here} && exec ${process.execPath} ${resolve(program)}`], {
		env: { FANWISE_HOME: here },
	});

test('a sheet of this folder goes by the name of its job, with that of its file where two share it', async () => {
	const here = mkdtempSync(join(tmpdir(), 'fanwise-here-'));
	cpSync(shelf, join(here, 'shelf'), { recursive: true });
	const text = readFileSync(shortSheet, 'utf8').replace('Eight garden chairs', 'Four stools');
	const chosen = async (says: string) => {
		const terminal = startedIn(here);
		await terminal.until('Job sheet: choose one.');
		for (let tries = 0; tries < 5 && !terminal.screen().includes('rehearse it?'); tries++) {
			await pause(1000);
			terminal.type('e');
		}
		await terminal.until(says);
		terminal.type('\u0003');
		await terminal.ended;
	};
	writeFileSync(join(here, 'c2.yaml'), text);
	await chosen('Four stools: spray it, or rehearse it?');
	writeFileSync(join(here, 'c3.yaml'), text);
	await chosen('Four stools, c2.yaml: spray it, or rehearse it?');
}, 60_000);

test('beside a sheet that cannot be used stands NEW, and no example; chosen, the sheet shows its errors, NEW asks', async () => {
	const here = mkdtempSync(join(tmpdir(), 'fanwise-here-'));
	const text = readFileSync(shortSheet, 'utf8').replace('gun: large', 'gnu: large');
	writeFileSync(join(here, 'chairs1.yaml'), text);
	writeFileSync(join(here, 'other.yaml'), 'services: {}\n');
	const first = startedIn(here);
	await first.until(screen => /chairs1\.yaml: cannot be used, \d+ errors, first in line \d+\./.test(screen));
	await pause(1000);
	first.type('e');
	await first.until('chairs1.yaml:2:1: key: found "gnu"');
	expect(await first.ended).toBe(2);
	const second = startedIn(here);
	await second.until('Job sheet: choose one.');
	await pause(1000);
	second.type('i');
	await second.until('What is the job called?');
	second.type('leave\r');
	expect(await second.ended).toBe(1);
}, 60_000);
