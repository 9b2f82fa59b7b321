import { appendFileSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, win32 } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { daysOfJob } from '../../../src/day/file/days.ts';
import { dataFolder, listDays, newDayPath, slugOf } from '../../../src/day/file/folder.ts';
import { writeFresh } from '../../../src/day/file/fresh.ts';
import { LockedError, type Processes, processesOn, takeLock } from '../../../src/day/file/lock.ts';
import { readDay } from '../../../src/day/file/read.ts';
import { salvageDay } from '../../../src/day/file/salvage.ts';
import { createDay, openDay } from '../../../src/day/file/store.ts';
import { keepSums, readSums } from '../../../src/day/file/sums.ts';
import { allDead } from './faulty.ts';
import { newPlace } from './place.ts';
import { first, following, stamped } from './sample.ts';
import { windowsPort } from './windows.ts';

const kinds: [string, boolean][] = [
	['a disk', false],
	['a stick without second names', true],
];
const numbers = (path: string) => readDay(readFileSync(path)).records.map(({ seq }) => seq);

test.each(kinds)(
	'on %s a day is begun, locked, left and gone on with, and no file stays open',
	(_kind, stick) => {
		const { port, openFiles } = windowsPort({ stick });
		const path = join(newPlace(), 'a.day.jsonl');
		const day = createDay(path, first, { port });
		day.append(following(2, 2));
		expect(() => openDay(path, { port })).toThrow(LockedError);
		day.close();
		expect(openFiles()).toEqual([]);
		const again = openDay(path, { port });
		again.append(following(4, 1, 2));
		again.close();
		expect(numbers(path)).toEqual([1, 2, 3, 4]);
		expect(openFiles()).toEqual([]);
		expect(readdirSync(dirname(path))).toEqual(['a.day.jsonl']);
	},
);

test.each(kinds)(
	'on %s a day that something else wrote in, removed or replaced is written anew while it is open',
	(_kind, stick) => {
		const changes: ((path: string) => void)[] = [
			path => appendFileSync(path, 'a line of someone else\n'),
			path => rmSync(path),
			path => {
				writeFileSync(`${path}-other`, 'something else');
				renameSync(`${path}-other`, path);
			},
		];
		for (const change of changes) {
			const { port, openFiles } = windowsPort({ stick });
			const path = join(newPlace(), 'a.day.jsonl');
			const told: string[] = [];
			const day = createDay(path, first, { port, onTrouble: message => told.push(message) });
			day.append(following(2, 1));
			change(path);
			day.append(following(3, 1));
			day.append(following(4, 1));
			expect(told).toHaveLength(1);
			expect(numbers(path)).toEqual([1, 2, 3, 4]);
			day.close();
			expect(openFiles()).toEqual([]);
		}
	},
);

test.each(kinds)(
	'on %s a torn end is set aside, a dead lock taken over and a damaged day saved',
	(_kind, stick) => {
		const { port, openFiles } = windowsPort({ stick });
		const path = join(newPlace(), 'a.day.jsonl');
		const day = createDay(path, first, { port });
		day.append(following(2, 2));
		day.close();
		appendFileSync(path, 'torn');
		writeFileSync(`${path}.lock`, JSON.stringify({ pid: 2 ** 22 + 1, start: null, host: 'gone' }));
		const again = openDay(path, { port, processes: allDead });
		expect(again.torn).toEqual({ bytes: 4, aside: `${path}.torn-4` });
		again.append(following(4, 1, 2));
		again.close();
		const saved = join(dirname(path), 'saved.day.jsonl');
		appendFileSync(path, '00000000 {}\n');
		expect(salvageDay(path, saved, port)).toMatchObject({ savedRecords: 4 });
		expect(() => salvageDay(path, saved, port)).toThrow(/there is a file of that name/);
		expect(openFiles()).toEqual([]);
		expect(readdirSync(dirname(path)).sort()).toEqual([
			'a.day.jsonl',
			'a.day.jsonl.torn-4',
			'saved.day.jsonl',
		]);
	},
);

test.each(kinds)(
	'on %s a report is written over one that is there, and what a day teaches is kept',
	(_kind, stick) => {
		const { port, openFiles } = windowsPort({ stick });
		const path = join(newPlace(), 'day.html');
		for (const text of ['one', 'two']) port.close(writeFresh(port, path, [Buffer.from(text)], 'over').handle);
		expect(readFileSync(path, 'utf8')).toBe('two');
		const day = join(dirname(path), 'a.day.jsonl');
		const file = createDay(day, first, { port });
		file.append([stamped({ type: 'day.closed', job: 'canopy rail', why: 'done' }, 2)]);
		file.close();
		for (let times = 0; times < 2; times++) keepSums(day, readFileSync(day), [], undefined, port);
		expect(readSums(day, port)?.glimpse).toMatchObject({ job: 'canopy rail', closed: true });
		expect(openFiles()).toEqual([]);
	},
);

test('of two programs that find a dead lock at once one gets it, where names cannot be had twice either', () => {
	for (const stick of [false, true]) {
		const { port } = windowsPort({ stick });
		const path = join(newPlace(), 'a.day.jsonl');
		writeFileSync(`${path}.lock`, JSON.stringify({ pid: 2 ** 22 + 1, start: null, host: 'gone' }));
		const other = { pid: 41, start: null, host: 'the other program' };
		const others: Processes = {
			me: () => other,
			standing: ({ host }) => (host === other.host ? 'alive' : 'gone'),
		};
		let raced = false;
		const racing = {
			...port,
			rename(from: string, to: string) {
				if (!raced) {
					raced = true;
					takeLock(path, port, others);
				}
				port.rename(from, to);
			},
		};
		const mine: Processes = { ...allDead, standing: ({ host }) => (host === other.host ? 'alive' : 'gone') };
		expect(() => takeLock(path, racing, mine)).toThrow(LockedError);
		expect(JSON.parse(readFileSync(`${path}.lock`, 'utf8'))).toEqual(other);
	}
});

test('every name of a day can be had there, whatever the job is called, and is found again', () => {
	fc.assert(
		fc.property(
			fc.oneof(fc.string({ unit: 'binary' }), fc.constantFrom('con', 'NUL', 'aux.', 'a:b', '..\\x')),
			job => {
				const { port } = windowsPort();
				const folder = newPlace();
				const path = newDayPath(folder, { job, date: '2027-03-02' }, port);
				port.close(port.open(path, 'new'));
				expect(listDays(folder, port).map(one => one.path)).toEqual([path]);
				expect(daysOfJob(folder, job, port).map(one => one.path)).toEqual([path]);
				expect(slugOf(job).toUpperCase().toLowerCase()).toBe(slugOf(job));
			},
		),
		{ numRuns: 200 },
	);
});

test('days lie where the system keeps such things, and a path of it is taken as it is', () => {
	const home = 'C:\\Users\\painter';
	const where = (env: Record<string, string>) => dataFolder({ env, platform: 'win32', home });
	expect(where({ LOCALAPPDATA: 'C:\\Users\\painter\\AppData\\Local' })).toMatch(/AppData.Local.fanwise$/);
	expect(where({})).toMatch(/painter.AppData.Local.fanwise$/);
	expect(win32.basename(win32.join(home, 'fanwise'))).toBe('fanwise');
});

test('a system without ps says nothing of a process, and nobody is taken for dead there', () => {
	const path = process.env.PATH;
	process.env.PATH = '/nowhere';
	try {
		const place = join(newPlace(), 'a.day.jsonl');
		const processes = processesOn('win32');
		const { port } = windowsPort();
		const day = createDay(place, first, { port, processes });
		expect(() => openDay(place, { port, processes })).toThrow(/if it no longer runs, delete/);
		const text = readFileSync(`${place}.lock`, 'utf8');
		openDay(place, { port, processes, dead: text }).close();
		day.close();
	} finally {
		process.env.PATH = path;
	}
});
