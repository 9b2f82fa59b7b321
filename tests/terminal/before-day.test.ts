import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { makeDaysFolder } from '../../src/day/file/folder.ts';
import { encodeKey } from '../../src/day/file/keep.ts';
import type { DayRecord } from '../../src/day/records.ts';
import { loadJob } from '../../src/job/load.ts';
import { run } from '../cli/run.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { inTerminal } from './pty.ts';

const program = 'dist/fanwise.js';
const sheet = 'checklists/example/coffee-cart.yaml';
const pause = (wait_ms: number) => new Promise(done => setTimeout(done, wait_ms));

beforeAll(() => {
	if (!existsSync(program)) throw new Error(`${program} is not built: npm run build`);
});

const newHome = () => mkdtempSync(join(tmpdir(), 'fanwise-locked-'));
const start = (home: string) =>
	inTerminal([process.execPath, program, 'spray', sheet], { env: { FANWISE_HOME: home } });
const dayIn = (home: string) => {
	const folder = join(home, 'days');
	return join(folder, readdirSync(folder).find(name => name.endsWith('.day.jsonl')) ?? '');
};
/** Longer than a new screen stays deaf. */
const strike = async (terminal: ReturnType<typeof start>, key: string) => {
	await pause(700);
	terminal.type(key);
};

/** A day left open in spraying's list, its lock that of a machine start before this one, as after a power cut. */
async function afterPowerCut() {
	const home = newHome();
	const first = start(home);
	await first.until('parts: wipe');
	process.kill(first.pid, 'SIGKILL');
	await first.ended;
	const lock = `${dayIn(home)}.lock`;
	const text = JSON.stringify({ ...JSON.parse(readFileSync(lock, 'utf8')), boot: 'before the power cut' });
	rmSync(lock);
	writeFileSync(lock, text);
	return { home, lock, text };
}

test('after a power cut the painter is asked on the screen; said to be dead, the day goes on in hold', async () => {
	const { home, lock, text } = await afterPowerCut();
	const records = loadDay(dayIn(home)).length;
	const script = run(['spray', sheet, '--plain'], { home, input: 'e\n' });
	expect(script.status).toBe(1);
	expect(script.stderr).toMatch(/this day is open already, .* delete .*\.lock\n$/);
	expect(readFileSync(lock, 'utf8')).toBe(text);

	const left = start(home);
	await left.until('Is that dead?');
	await strike(left, 'x');
	expect(await left.ended).toBe(1);
	expect(readFileSync(lock, 'utf8')).toBe(text);
	expect(loadDay(dayIn(home))).toHaveLength(records);

	const again = start(home);
	await again.until('Nobody here can tell');
	await strike(again, 'i');
	await again.until('The program was started again.');
	expect(loadDay(dayIn(home)).at(-1)).toMatchObject({ type: 'break.began', kind: 'restart' });
	again.type('\u0003');
	expect(await again.ended).toBe(0);
	expect(existsSync(lock)).toBe(false);
}, 60_000);

test('a day that is open can be looked on at, as it changes, and not answered', async () => {
	const home = newHome();
	const first = start(home);
	await first.until('parts: wipe');
	const second = start(home);
	await second.until('it is open already');
	expect(second.screen()).not.toContain('dead');
	await strike(second, 'e');
	await second.until('Shown only: open in process');
	await second.until('parts: wipe');
	const before = loadDay(dayIn(home)).length;
	await strike(second, 'e');
	await second.until('nothing in that corner');
	expect(loadDay(dayIn(home))).toHaveLength(before);
	first.type(' ');
	await second.until('Held. Away');
	await strike(second, ',');
	expect(await second.ended).toBe(0);
	first.type('\u0003');
	expect(await first.ended).toBe(0);
}, 60_000);

test('a clock that stands before the end of the last day is asked about; said to be right, the day begins', async () => {
	const loaded = await loadJob(sheet);
	if (!loaded.ok) throw new Error('the example does not load');
	const ahead = rehearsed({ job: loaded.job, at: Date.now() + 400 * 86_400_000 });
	ahead.send('hold');
	ahead.pick('close');
	ahead.pick('close');
	const records = ahead
		.records()
		.map((one): DayRecord => (one.type === 'day.opened' ? { ...one, clock: 'real' } : one));
	const home = newHome();
	const folder = makeDaysFolder(join(home, 'days'));
	const path = join(folder, `${records[0]?.at.slice(0, 10)}_market-coffee-cart.day.jsonl`);
	writeFileSync(path, encodeKey(records, undefined));

	const left = start(home);
	await left.until('Clock: it stands before the last day. Is it right now?');
	await strike(left, 'i');
	expect(await left.ended).toBe(1);
	expect(left.screen()).toContain('the last day of this job ended at');
	expect(readdirSync(folder)).toHaveLength(1);

	const right = start(home);
	await right.until('The last day ended at');
	await strike(right, 'e');
	await right.until('parts: wipe');
	right.type('\u0003');
	expect(await right.ended).toBe(0);
	expect(readdirSync(folder).filter(name => name.endsWith('.day.jsonl'))).toHaveLength(2);
}, 60_000);
