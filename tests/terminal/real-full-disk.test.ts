import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { loadDay } from '../../src/day/file/days.ts';
import { disk, type FilePort } from '../../src/day/file/port.ts';
import { loadJob } from '../../src/job/load.ts';
import { built } from '../built.ts';
import { allDead } from '../day/file/faulty.ts';
import { newPlace } from '../day/file/place.ts';
import { keptDay } from '../day/kept-day.ts';
import { checkDayFile } from '../model/checker/check.ts';
import { type EyePainter, eyePainter } from './by-eye.ts';
import { type Happening, playAtTerminal } from './day-at-terminal.ts';
import { inTerminal } from './pty.ts';

const program = built();

test('a whole small day on a disk that is full for every 19th key loses nothing, and its file passes the checker', () => {
	const path = join(newPlace(), 'a.day.jsonl');
	let isFull = false;
	const port: FilePort = {
		...disk,
		sync: () => {},
		syncFolder: () => {},
		write: (handle, bytes, from) => {
			if (!isFull) return disk.write(handle, bytes, from);
			// A full disk takes what it has room for.
			if (bytes.length - from > 40) return disk.write(handle, bytes.subarray(0, from + 20), from);
			throw Object.assign(new Error('ENOSPC'), { code: 'ENOSPC' });
		},
	};
	const day = keptDay(path, port, allDead);
	let refused = 0;
	for (let count = 1; day.line().ask !== 'closed' && count < 2000; count++) {
		isFull = count % 19 === 0;
		const before = day.acknowledged.length;
		const line = day.key();
		if (isFull && !line.accepted) {
			refused++;
			expect(line.state).toBe('hold');
			expect(line.say).toBe('Disk full: nothing counts until there is room.');
			expect(day.acknowledged).toHaveLength(before);
		}
		if (isFull) {
			isFull = false;
			day.send('wait 6 s');
			expect(day.session().unkept()).toBeNull();
		}
	}
	expect(day.line().ask).toBe('closed');
	expect(refused).toBeGreaterThan(2);
	expect(loadDay(path).map(({ seq }) => seq)).toEqual(day.acknowledged.map(({ seq }) => seq));
	expect(checkDayFile(readFileSync(path))).toEqual([]);
});

/** A real disk of 3 MB in memory, where this user may mount one. */
function smallDisk(): string | null {
	const folder = join(newPlace(), 'small');
	mkdirSync(folder);
	const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=3m', 'tmpfs', folder]).status === 0;
	if (mounted) onTestFinished(() => void spawnSync('umount', ['-l', folder]));
	return mounted ? folder : null;
}

/** Writes until there is no room for one byte more. */
function fill(folder: string): void {
	for (const size of [100_000, 4096, 512, 1])
		for (let piece = 0; ; piece++)
			try {
				writeFileSync(join(folder, `ballast-${size}-${piece}`), Buffer.alloc(size));
			} catch {
				break;
			}
}
const empty = (folder: string) => {
	for (const name of readdirSync(folder)) if (name.startsWith('ballast-')) rmSync(join(folder, name));
};

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

test('sprayed in a terminal on a real disk that fills in the list, in the check, before the pass and in it', async () => {
	const home = smallDisk();
	// Without leave to mount one, the day above on a disk of this test's own is all there is.
	if (home === null) return expect(process.getuid?.()).not.toBe(0);
	const sheet = oneCoat(newPlace());
	const loaded = await loadJob(sheet);
	if (!loaded.ok) throw new Error(loaded.errors.map(({ says }) => says).join('\n'));
	const terminal = inTerminal([process.execPath, program, 'spray', sheet], { env: { FANWISE_HOME: home } });
	const known = eyePainter(loaded.job, () => 1, false);
	/** What the pot shows: the last level that was poured to, whether that key was taken or not. */
	let pot = 0;
	const painter: EyePainter = {
		...known,
		reply(seen) {
			if (/nothing counts/.test(seen.text)) return { asked: 'disk', deed: null };
			if (/Which level does it show/.test(seen.text)) return { asked: 'pot', deed: { type: pot } };
			const reply = known.reply(seen);
			if (reply?.asked === 'mix') pot = 0;
			if (reply?.asked === 'pour') pot = Number(/up to ([\d.]+)/.exec(seen.text)?.[1] ?? pot);
			return reply;
		},
	};
	const fillAt = ['ignition', 'batch', 'ready', 'spraying'];
	const seen: string[] = [];
	const full: Happening[] = fillAt.map(() => ({
		when: asked => asked === 'disk',
		tell: 'room is made',
		change: () => empty(home),
		deeds: [{ strike: 'GO ON' }],
	}));
	const passed = { when: (asked: string) => asked === 'how much', tell: 'all', deeds: [{ strike: 'ALL' }] };
	const { told } = await playAtTerminal({
		terminal,
		painter,
		happenings: [...full, passed],
		before(asked) {
			if (asked !== fillAt[0]) return;
			seen.push(fillAt.shift() ?? '');
			fill(home);
		},
	});
	expect(await terminal.ended).toBe(0);
	expect({ seen, told }).toEqual({
		seen: ['ignition', 'batch', 'ready', 'spraying'],
		told: expect.arrayContaining(Array(4).fill('room is made')),
	});
	const [name = ''] = readdirSync(join(home, 'days')).filter(one => one.endsWith('.jsonl'));
	const path = join(home, 'days', name);
	expect(loadDay(path).at(-1)).toMatchObject({ type: 'day.closed', why: 'done' });
	expect(checkDayFile(readFileSync(path))).toEqual([]);
}, 300_000);
