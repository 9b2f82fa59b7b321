import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { LockedError, processesOn, takeLock } from '../../../src/day/file/lock.ts';
import { disk } from '../../../src/day/file/port.ts';
import { createDay, openDay } from '../../../src/day/file/store.ts';
import { newPlace } from './place.ts';
import { first, following } from './sample.ts';

const me = processesOn(process.platform).me();
const newDay = () => join(newPlace(), 'a.day.jsonl');
const lockOf = (path: string) => `${path}.lock`;
const holder = (path: string) => JSON.parse(readFileSync(lockOf(path), 'utf8'));

const livingProcess = () => {
	const child = spawn('sleep', ['60'], { stdio: 'ignore' });
	onTestFinished(() => void child.kill('SIGKILL'));
	if (child.pid === undefined) throw new Error('no process was started');
	return { child, pid: child.pid };
};

test('a second opening is refused with who has the day and what to do, and the day is not touched', () => {
	const path = newDay();
	const day = createDay(path, first);
	const before = readFileSync(path);
	const says = `${path}: this day is open already, in process ${process.pid} on ${hostname()}: `;
	expect(() => openDay(path)).toThrow(new RegExp(`${says}close it there$`));
	expect(() => createDay(path, first)).toThrow(/open already/);
	expect(readFileSync(path)).toEqual(before);
	day.append(following(2, 1));
	day.close();
	openDay(path).close();
});

test('the lock names the process, its start and its machine, and is gone after closing', () => {
	const path = newDay();
	const day = createDay(path, first);
	const text = expect.stringMatching(/\S/);
	expect(holder(path)).toEqual({ pid: process.pid, start: text, host: hostname(), boot: text, space: text });
	day.close();
	day.close();
	expect(existsSync(lockOf(path))).toBe(false);
});

test('the lock of a process that lives is respected, of one that ended, taken over', async () => {
	const path = newDay();
	createDay(path, first).close();
	const { child, pid } = livingProcess();
	writeFileSync(lockOf(path), JSON.stringify({ ...me, pid, start: null }));
	expect(() => openDay(path)).toThrow(`in process ${pid} on`);
	child.kill('SIGKILL');
	await once(child, 'exit');
	const day = openDay(path);
	expect(holder(path)).toEqual(me);
	day.close();
	expect(readdirSync(dirname(path))).toEqual(['a.day.jsonl']);
});

test('a process that has the number of a dead one, but began at another time, does not keep its lock', () => {
	const path = newDay();
	createDay(path, first).close();
	const { pid } = livingProcess();
	writeFileSync(lockOf(path), JSON.stringify({ ...me, pid, start: 'another time' }));
	openDay(path).close();
});

test('a process that has ended but was not yet fetched by the one that began it counts as ended', () => {
	const path = newDay();
	createDay(path, first).close();
	// The shell becomes `sleep`, which never asks after its child.
	const script = 'sh -c "echo \\$\\$" & exec sleep 60';
	const parent = spawn('sh', ['-c', script], { stdio: ['ignore', 'pipe', 'ignore'] });
	onTestFinished(() => void parent.kill('SIGKILL'));
	return once(parent.stdout, 'data').then(async ([said]) => {
		const pid = Number(String(said));
		const state = () =>
			spawnSync('ps', ['-o', 'stat=', '-p', String(pid)])
				.stdout.toString()
				.trim();
		for (let tries = 0; tries < 100 && !state().startsWith('Z'); tries++)
			await new Promise(resume => setTimeout(resume, 20));
		expect(state()).toMatch(/^Z/);
		writeFileSync(lockOf(path), JSON.stringify({ ...me, pid, start: null }));
		openDay(path).close();
		for (const platform of ['linux', 'darwin']) {
			const processes = processesOn(platform);
			expect(processes.standing({ ...processes.me(), pid, start: null })).toBe('gone');
		}
	});
});

test('a system without /proc is asked by ps when a process began, and for one that has ended', async () => {
	const { me: mine, standing } = processesOn('darwin');
	expect(standing(mine())).toBe('alive');
	expect(mine().start).toMatch(/\d\d:\d\d:\d\d/);
	expect(standing({ ...mine(), start: 'another time' })).toBe('gone');
	const { child, pid } = livingProcess();
	expect(standing({ ...mine(), pid, start: null })).toBe('alive');
	child.kill('SIGKILL');
	await once(child, 'exit');
	expect(standing({ ...mine(), pid, start: null })).toBe('gone');
});

test('a lock of another machine, or one that names nobody, is left to the painter', () => {
	const path = newDay();
	createDay(path, first).close();
	writeFileSync(lockOf(path), JSON.stringify({ pid: 2 ** 22 + 1, start: null, host: 'other\u001b[2J' }));
	expect(() => openDay(path)).toThrow(
		/process 4194305 on other<U\+001B>\[2J: close it there, or, .* delete .*\.lock$/,
	);
	for (const text of ['', '{', 'null', '{"pid":-1,"start":null,"host":"x"}']) {
		writeFileSync(lockOf(path), text);
		expect(() => openDay(path)).toThrow(/in a program that its lock does not name/);
		expect(readFileSync(lockOf(path), 'utf8')).toBe(text);
	}
	rmSync(lockOf(path));
	openDay(path).close();
});

const atLarge: [string, (lock: typeof me) => object][] = [
	['another machine', lock => ({ ...lock, host: 'another machine' })],
	['another start of this machine, or a machine of the same name', lock => ({ ...lock, boot: 'another' })],
	['processes that are numbered by themselves', lock => ({ ...lock, space: 'pid:[1]' })],
	['a program that did not say where it ran', ({ pid, start, host }) => ({ pid, start, host })],
];

test.each(atLarge)(
	'a lock of %s is never taken over unasked, whether its number is in use here or not',
	(_of, lockOf) => {
		for (const pid of [2 ** 22 + 1, process.pid]) {
			const path = newDay();
			const day = createDay(path, first);
			const text = JSON.stringify({ ...lockOf(me), pid });
			rmSync(`${path}.lock`);
			writeFileSync(`${path}.lock`, text);
			const opening = () => openDay(path);
			expect(opening).toThrow(LockedError);
			expect(opening).toThrow(/open already, .*: close it there, or, if it no longer runs, delete .*\.lock$/);
			// The first program finds that the lock is not its own.
			expect(() => day.append(following(2, 1))).toThrow(LockedError);
			expect(readFileSync(`${path}.lock`, 'utf8')).toBe(text);
			day.close();
			expect(() => openDay(path, { dead: `${text} ` })).toThrow(LockedError);
			const taken = openDay(path, { dead: text });
			taken.append(following(2, 1, 2));
			taken.close();
			expect(readdirSync(dirname(path))).toEqual(['a.day.jsonl']);
		}
	},
);

test('of a system that does not say when it was started nobody can tell whether a process is gone', () => {
	const path = process.env.PATH;
	process.env.PATH = '/nowhere';
	onTestFinished(() => {
		process.env.PATH = path;
	});
	const silent = processesOn('win32');
	expect(silent.me()).toMatchObject({ start: null, boot: null });
	expect(silent.standing({ ...silent.me(), pid: 2 ** 22 + 1 })).toBe('unknown');
});

test('a dead lock that two programs find at once goes to one of them', () => {
	const path = newDay();
	writeFileSync(lockOf(path), JSON.stringify({ ...me, pid: 2 ** 22 + 1, start: null }));
	const other = { ...me, host: 'the other program' };
	let raced = false;
	const port = {
		...disk,
		rename: (from: string, to: string) => {
			// The other one has read the dead lock too, and is faster.
			if (!raced) {
				raced = true;
				takeLock(path, disk, {
					me: () => other,
					standing: ({ host }) => (host === other.host ? 'alive' : 'gone'),
				});
			}
			disk.rename(from, to);
		},
	};
	expect(() => takeLock(path, port)).toThrow('process');
	expect(holder(path)).toEqual(other);
});

test('a lock deleted while the day is open is taken again with the next key', () => {
	const path = newDay();
	const day = createDay(path, first);
	rmSync(lockOf(path));
	day.append(following(2, 1));
	expect(holder(path)).toEqual(me);
	day.close();
	expect(existsSync(lockOf(path))).toBe(false);
});

test('a program whose lock was given to another writes no more, and loses nothing of the other', () => {
	const path = newDay();
	const told: string[] = [];
	const day = createDay(path, first, { onTrouble: message => told.push(message) });
	rmSync(lockOf(path));
	const other = openDay(path);
	other.append(following(2, 2));
	expect(() => day.append(following(2, 1))).toThrow(/open already/);
	other.append(following(4, 1));
	other.close();
	const theirs = readFileSync(path, 'utf8');
	for (let tries = 0; tries < 2; tries++)
		expect(() => day.append(following(2, 1))).toThrow(
			/a\.day\.jsonl: another program has gone on with this day meanwhile: leave here, and open it again$/,
		);
	day.close();
	expect(told).toEqual([]);
	expect(readFileSync(path, 'utf8')).toBe(theirs);
	expect(readdirSync(dirname(path))).toEqual(['a.day.jsonl']);
	openDay(path).close();
});
