import { mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { runCommand } from '../../src/cli/command.ts';
import { nowCommand } from '../../src/cli/now.ts';
import { rehearsed } from '../day/rehearsed.ts';

const home = mkdtempSync(join(tmpdir(), 'fanwise-now-'));
let closed = 0;

/** A day with the first coat on, closed at the start of its flash: a spray window of two hours is to come. */
beforeAll(() => {
	const day = rehearsed({ at: Date.parse('2027-03-02T21:30:00Z') });
	day.until(({ state, coat }) => state === 'wait' && coat === 2);
	day.send('hold');
	for (const code of ['close', 'close']) day.pick(code);
	closed = Date.parse(day.records().at(-1)?.at ?? '');
	mkdirSync(join(home, 'days'));
	writeFileSync(join(home, 'days', '2027-03-02_doors.day.jsonl'), day.bytes());
});

async function now(at_ms: number, ...more: string[]) {
	const said = { stdout: '', stderr: '' };
	const writer = (to: 'stdout' | 'stderr') => ({
		write: (text: string) => {
			said[to] += text;
		},
	});
	const io = { stdout: writer('stdout'), stderr: writer('stderr'), env: { FANWISE_HOME: home } };
	const status = await runCommand(nowCommand, [...more, '--at', new Date(at_ms).toISOString()], io);
	return { status, ...said };
}

const hour = 3_600_000;

test('a time of another day has its date, however near; one of the same day has none', async () => {
	const evening = (await now(closed)).stdout;
	expect(evening).toMatch(/from 22:\d\d, until 3 March 00:\d\d/);
	const night = (await now(closed + 2.6 * hour)).stdout;
	expect(night).toMatch(/coat 2 \(topcoat\) now, until 00:\d\d/);
});

test('a moment before the last record is refused: what came later was told of it', async () => {
	const { status, stdout, stderr } = await now(closed - hour);
	expect(status).toBe(2);
	expect(stdout).toBe('');
	expect(stderr).toContain("before the day's last record");
	expect((await now(closed)).status).toBe(0);
});

test('asked of any moment, it writes nothing', async () => {
	const folder = join(home, 'days');
	const kept = () => readdirSync(folder).map(name => [name, readFileSync(join(folder, name), 'utf8')]);
	const before = kept();
	for (const hours of [0, 3, 40]) expect((await now(closed + hours * hour)).status).toBe(0);
	expect(kept()).toEqual(before);
});

test('a surface beyond the sheet’s recoat table is said once, below the faces, and of each of them as data', async () => {
	const day = rehearsed();
	Object.assign(day.painter.world.air, { C: 33, surface_C: 33 });
	const at = Date.parse(day.until(({ state, coat }) => state === 'wait' && coat === 2).at);
	const path = join(home, 'hot.jsonl');
	writeFileSync(path, day.bytes());
	const lines = (await now(at, path)).stdout.trimEnd().split('\n');
	expect(lines.filter(line => line.includes('recoat table'))).toEqual(lines.slice(-1));
	expect(lines.at(-1)).toBe("Surface above the sheet's recoat table, 3 faces: the careful times hold.");
	const { faces } = JSON.parse((await now(at, path, '--json')).stdout);
	expect(faces.map(({ beyond }: { beyond: string }) => beyond)).toEqual(['above', 'above', 'above']);
	expect((await now(closed)).stdout).not.toContain('recoat table');
});
