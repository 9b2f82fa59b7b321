import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { loadLists } from '../../src/job/lists.ts';
import { loadJob } from '../../src/job/load.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { inTerminal } from './pty.ts';

const sheet = 'checklists/example/coffee-cart.yaml';
const program = 'dist/fanwise.js';
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

const pause = (wait_ms: number) => new Promise(done => setTimeout(done, wait_ms));

/** A sentence as far as it does not count anything. */
const uncounted = (say: string) => say.split(/\d/)[0]?.trim() ?? '';

function start(path: string) {
	return inTerminal([process.execPath, program, 'rehearse', sheet, '--day', path], {
		columns: 120,
		rows: 40,
	});
}

/** Answers a question once it stands on the screen and may be answered. */
async function reply(terminal: ReturnType<typeof start>, { say, key }: Asked) {
	await terminal.until(screen => screen.replace(/\s+/g, ' ').includes(uncounted(say)));
	if (key.startsWith('wait')) return pause(Number(key.split(' ')[1]) * 1000);
	await pause(700);
	terminal.type(key.startsWith('number') ? `${key.slice(7)}\r` : (keys[key] ?? ''));
}

beforeAll(() => {
	if (!existsSync(program)) throw new Error(`${program} is not built: npm run build`);
});

test('killed during spraying and started again: in hold; nothing that was acknowledged is missing', async () => {
	const { path, asked } = await aboutToSpray();
	const first = start(path);
	for (const one of asked) await reply(first, one);
	await pause(500);
	const acknowledged = loadDay(path);
	expect(acknowledged.at(-1)?.type).toBe('face.started');

	const second = start(path);
	expect(await second.ended).toBe(1);
	expect(second.screen()).toContain(String(first.pid));
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
