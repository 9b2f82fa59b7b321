import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { loadJob } from '../../src/job/load.ts';
import { built } from '../built.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { eyePainter } from './by-eye.ts';
import { playAtTerminal } from './day-at-terminal.ts';
import { inTerminal } from './pty.ts';

const program = built();

/** The example with one face and one coat of the material that need not stand: what a real clock has time for. */
function oneCoat(folder: string): string {
	const whole = readFileSync('checklists/example/coffee-cart.yaml', 'utf8');
	const [before = '', after = ''] = whole.split(/^stages:\n/m);
	const [, parts = ''] = after.split(/^parts:\n/m);
	const [first = ''] = parts.split(/(?=^ {2}- part: counter lid)/m);
	const sheet = `${before}stages:\n  - spray: topcoat\n    coats: [full]\n\nparts:\n${first}`;
	const path = join(folder, 'one-coat.yaml');
	writeFileSync(path, sheet.replace('name: Market coffee cart', 'name: Canopy rail'));
	return path;
}

beforeAll(() => {});

const dayIn = (home: string): string => {
	const folder = join(home, 'days');
	const [name] = readdirSync(folder).filter(file => file.endsWith('.jsonl'));
	return join(folder, name ?? '');
};

test('sprayed on the real clock, killed in mid-pass and begun again: held, and nothing shown was lost', async () => {
	const home = mkdtempSync(join(tmpdir(), 'fanwise-spray-'));
	const sheet = oneCoat(home);
	const loaded = await loadJob(sheet);
	if (!loaded.ok) throw new Error(loaded.errors.map(({ says }) => says).join('\n'));
	const start = () =>
		inTerminal([process.execPath, program, 'spray', sheet], { env: { FANWISE_HOME: home } });
	const painter = eyePainter(loaded.job, () => 1, false);

	const first = start();
	const told = await playAtTerminal({ terminal: first, painter, happenings: [], until: 'spraying' });
	expect(told.askings.map(({ asked }) => asked)).toContain('pattern');
	const path = dayIn(home);
	const acknowledged = loadDay(path);
	expect(acknowledged.at(-1)).toMatchObject({ type: 'face.started', face: 'canopy rail/front' });

	const second = start();
	await second.until(`open already, in process ${first.pid}`);
	second.type('\u0003');
	expect(await second.ended).toBe(1);
	expect(second.screen()).toContain(String(first.pid));
	expect(loadDay(path)).toEqual(acknowledged);

	process.kill(first.pid, 'SIGKILL');
	await first.ended;
	const again = start();
	await again.until('was being sprayed');
	const since = loadDay(path).slice(acknowledged.length);
	expect(loadDay(path).slice(0, acknowledged.length)).toEqual(acknowledged);
	expect(since.map(({ type }) => type)).toEqual(['break.began', 'gun.unknown']);

	const happenings = [
		{ when: (asked: string) => asked === 'how much', tell: 'all of it', deeds: [{ strike: 'ALL' }] },
	];
	await playAtTerminal({ terminal: again, painter, happenings });
	expect(await again.ended).toBe(0);
	expect(loadDay(path).at(-1)).toMatchObject({ type: 'day.closed', why: 'done' });
	expect(checkDayFile(readFileSync(path))).toEqual([]);
}, 240_000);
