import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { foldAll } from '../../src/day/state.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { built } from '../built.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { chanceOf } from '../model/keys/chance.ts';
import { inTerminal } from './pty.ts';

const sheet = 'checklists/example/coffee-cart.yaml';
const program = built();
const keys: Record<string, string> = {
	'top-left': 'e',
	'top-right': 'i',
	'bottom-left': 'x',
	'bottom-right': ',',
};

type Asked = { say: string; face: string | null; key: string };

/** A day that is about to be sprayed, in a file; and what will be asked, and answered, from there to the spraying. */
async function aboutToSpray(): Promise<{ path: string; asked: Asked[] }> {
	const loaded = await loadJob(sheet);
	if (!loaded.ok) throw new Error('the example sheet does not load');
	const listed = await loadLists(loaded.job, sheet);
	if (!listed.ok) throw new Error('the lists do not load');
	const day = rehearsed({ job: loaded.job, lists: listed.lists });
	day.toAsk('go');
	const path = join(mkdtempSync(join(tmpdir(), 'fanwise-killed-')), 'day.jsonl');
	writeFileSync(path, day.bytes());
	day.send('kill');
	const asked: Asked[] = [];
	while (day.line().ask !== 'spraying') {
		const { say, face } = day.line();
		const key = day.painter.answer(day.line()) ?? '';
		asked.push({ say, face, key });
		day.send(key);
	}
	return { path, asked };
}

/** How often the program is killed at a moment of chance; `KILLS=30` for more. */
const kills = Number(process.env.KILLS ?? 3);

const pause = (wait_ms: number) => new Promise(done => setTimeout(done, wait_ms));

/** A sentence as far as it does not count anything. */
const uncounted = (say: string) => say.split(/\d/)[0]?.trim() ?? '';

function start(path: string) {
	return inTerminal([process.execPath, program, 'rehearse', sheet, '--day', path], {
		columns: 120,
		rows: 40,
	});
}

type Started = { terminal: ReturnType<typeof start>; path: string };

const stands = ({ say }: Asked, screen: string) => screen.replace(/\s+/g, ' ').includes(uncounted(say));

/** Strikes the answer to a question once it stands on the screen and may be answered. */
async function strike({ terminal }: Started, one: Asked) {
	await terminal.until(screen => stands(one, screen));
	const { key } = one;
	if (key.startsWith('wait')) return pause(Number(key.split(' ')[1]) * 1000);
	await pause(700);
	terminal.type(key.startsWith('number') ? `${key.slice(7)}\r` : (keys[key] ?? ''));
}

/** Strikes an answer until it is taken: on a machine that stalls, a key is dropped and struck again. */
async function reply(started: Started, one: Asked) {
	const { terminal, path } = started;
	await terminal.until(screen => stands(one, screen));
	const before = loadDay(path).length;
	for (let tries = 0; tries < 4; tries++) {
		await strike(started, one);
		const isTaken = (screen: string) => loadDay(path).length > before || !stands(one, screen);
		try {
			return await terminal.until(isTaken, 4000);
		} catch {}
	}
}

beforeAll(() => {});

test('killed during spraying and started again: in hold; nothing that was acknowledged is missing', async () => {
	const { path, asked } = await aboutToSpray();
	const first = start(path);
	for (const one of asked) await reply({ terminal: first, path }, one);
	await pause(500);
	const acknowledged = loadDay(path);
	expect(acknowledged.at(-1)?.type).toBe('face.started');

	const second = start(path);
	expect(await second.ended).toBe(1);
	await second.until(String(first.pid));
	expect(second.bytes()).not.toContain('\u001b[?1049h');

	process.kill(first.pid, 'SIGKILL');
	await first.ended;
	expect(loadDay(path)).toEqual(acknowledged);
	const again = start(path);
	await again.until('was being sprayed');
	const since = loadDay(path).slice(acknowledged.length);
	expect(since.map(({ type }) => type)).toEqual(['break.began', 'gun.unknown']);
	again.type('\u0003');
	await again.ended;
	expect(checkDayFile(readFileSync(path))).toEqual([]);
});

const standsIn = (path: string) => String(foldAll(loadDay(path)).machine.value);

test(`killed at ${kills} moments of chance and started again: no acknowledged record is lost, and the day is in hold`, async () => {
	const { path: begun, asked } = await aboutToSpray();
	const chance = chanceOf(11);
	for (let kill = 0; kill < kills; kill++) {
		const path = join(mkdtempSync(join(tmpdir(), 'fanwise-killed-')), 'day.jsonl');
		writeFileSync(path, readFileSync(begun));
		const first = start(path);
		const answers = chance.below(asked.length + 1);
		let acknowledged = loadDay(path);
		for (const [index, one] of asked.slice(0, answers).entries()) {
			await first.until(screen => stands(one, screen));
			/** The question stands on the screen: what led to it is on the disk. */
			acknowledged = loadDay(path);
			const isLast = index === answers - 1;
			await (isLast ? strike : reply)({ terminal: first, path }, one);
		}
		await pause(chance.below(80));
		process.kill(first.pid, 'SIGKILL');
		await first.ended;
		const left = loadDay(path);
		expect(left.slice(0, acknowledged.length), `kill ${kill}`).toEqual(acknowledged);

		const again = start(path);
		await again.until(() => loadDay(path).length > left.length);
		await again.until(screen => screen.trim() !== '');
		expect(standsIn(path), `kill ${kill}`).toBe('hold');
		const since = loadDay(path).slice(left.length);
		expect(since[0], `kill ${kill}`).toMatchObject({ type: 'break.began', kind: 'restart' });
		process.kill(again.pid, 'SIGKILL');
		await again.ended;
		expect(checkDayFile(readFileSync(path)), `kill ${kill}`).toEqual([]);
	}
}, 600_000);

test('stopped during spraying and continued: a break, without being told', async () => {
	const { path, asked } = await aboutToSpray();
	const terminal = start(path);
	for (const one of asked) await reply({ terminal, path }, one);
	await pause(500);
	const before = loadDay(path);
	expect(before.at(-1)?.type).toBe('face.started');
	process.kill(terminal.pid, 'SIGSTOP');
	await pause(1000);
	expect(loadDay(path)).toEqual(before);
	process.kill(terminal.pid, 'SIGCONT');
	await terminal.until('was being sprayed');
	expect(loadDay(path)[before.length]).toMatchObject({ type: 'break.began', by: 'program' });
	expect(standsIn(path)).toBe('hold');
	process.kill(terminal.pid, 'SIGKILL');
	await terminal.ended;
});
