import { appendFileSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import type { DayFile } from '../../../src/day/file/keep.ts';
import type { FilePort } from '../../../src/day/file/port.ts';
import { readDay } from '../../../src/day/file/read.ts';
import { createDay, openDay } from '../../../src/day/file/store.ts';
import type { DayRecord } from '../../../src/day/records.ts';
import { allDead, type Fault, faultyPort } from './faulty.ts';
import { newPlace } from './place.ts';
import { first, following } from './sample.ts';

type Run = { acknowledged: DayRecord[]; refused: string[]; told: string[] };

const bare = (records: readonly DayRecord[]) => records.map(({ more: _, ...record }) => record);

/** A day begun, six keys, the last two after it was opened again; a key that is refused is keyed again later. */
const sprayDay = (path: string, port: FilePort): Run => {
	const run: Run = { acknowledged: [], refused: [], told: [] };
	const options = { port, processes: allDead, onTrouble: (message: string) => run.told.push(message) };
	const attempt = <T>(what: () => T): T | null => {
		try {
			return what();
		} catch (error) {
			run.refused.push(error instanceof Error ? error.message : String(error));
			return null;
		}
	};
	const again = <T>(what: () => T): T | null => attempt(what) ?? attempt(what);
	const key = (day: DayFile, count: number) => {
		const records = following(run.acknowledged.length + 1, count);
		const taken = attempt(() => {
			day.append(records);
			return true;
		});
		if (taken) run.acknowledged.push(...records);
	};
	const begun = again(() => createDay(path, first, options));
	if (!begun) return run;
	run.acknowledged.push(first);
	for (const count of [1, 3, 1, 2]) key(begun, count);
	begun.close();
	const opened = again(() => openDay(path, options));
	if (!opened) return run;
	expect(bare(opened.records).slice(0, run.acknowledged.length)).toEqual(run.acknowledged);
	// A key that was refused may lie in the file all the same.
	expect(opened.records.length - run.acknowledged.length).toBeLessThanOrEqual(run.refused.length * 3);
	run.acknowledged = bare(opened.records);
	for (const count of [2, 1]) key(opened, count);
	opened.close();
	return run;
};

/** What the file holds afterwards, read by the program that comes next. */
const found = (path: string) => {
	const day = openDay(path, { port: faultyPort([]).port, processes: allDead });
	day.close();
	return bare(day.records);
};

const callsOfADay = (() => {
	const { port, calls } = faultyPort([]);
	return () => {
		if (calls.length === 0) sprayDay(join(newPlace(), 'a.day.jsonl'), port);
		return calls;
	};
})();

test('a day without a fault tells of none', () => {
	const path = join(newPlace(), 'a.day.jsonl');
	const { port, calls } = faultyPort([]);
	const run = sprayDay(path, port);
	expect(run).toMatchObject({ refused: [], told: [] });
	expect(run.acknowledged).toHaveLength(11);
	expect(found(path)).toEqual(run.acknowledged);
	expect(new Set(calls)).toEqual(
		new Set(['write', 'open', 'sync', 'syncFolder', 'close', 'link', 'unlink', 'read', 'stat', 'real']),
	);
});

for (const fault of ['fail', 'short', 'lying-short', 'half-then-fail'] satisfies Fault[])
	test(`whichever call goes wrong (${fault}), no acknowledged record is lost and none is made up`, () => {
		const calls = callsOfADay();
		for (const [index, call] of calls.entries()) {
			if (fault !== 'fail' && call !== 'write') continue;
			const path = join(newPlace(), 'a.day.jsonl');
			const run = sprayDay(path, faultyPort([index + 1], fault).port);
			const where = `${fault} at call ${index + 1} (${call}): ${run.refused.join(' | ')}`;
			expect(run.refused.length, where).toBeLessThanOrEqual(fault === 'short' ? 0 : 1);
			if (fault === 'short') expect(run.told, where).toEqual([]);
			expect(run.acknowledged.length, where).toBeGreaterThanOrEqual(8);
			expect(found(path), where).toEqual(run.acknowledged);
			for (const line of [...run.refused, ...run.told])
				expect(line).toMatch(/^[^\n]*a\.day\.jsonl.*[:;] .+$/);
		}
	});

test('a write or a sync that fails once costs no key: the day is written anew and that is told', () => {
	const calls = callsOfADay();
	const beforeAppends = calls.indexOf('syncFolder') + 1;
	const afterAppends = calls.indexOf('close', beforeAppends);
	const appended = calls.slice(beforeAppends, afterAppends);
	expect(appended.filter(call => call === 'write')).toHaveLength(4);
	for (const [index, call] of appended.entries()) {
		if (call !== 'write' && call !== 'sync') continue;
		const path = join(newPlace(), 'a.day.jsonl');
		const run = sprayDay(path, faultyPort([beforeAppends + index + 1], 'half-then-fail').port);
		expect(run.refused).toEqual([]);
		expect(run.told).toEqual([expect.stringMatching(/could not be written .*; the day was written anew$/)]);
		expect(readdirSync(join(path, '..'))).toEqual(['a.day.jsonl']);
	}
});

test('whatever goes wrong while the day is written anew, no acknowledged record is lost', () => {
	const calls = callsOfADay();
	const firstAppend = calls.indexOf('write', calls.indexOf('syncFolder')) + 1;
	const seen = new Set<string>();
	for (let second = firstAppend + 1; second < firstAppend + 30; second++) {
		const path = join(newPlace(), 'a.day.jsonl');
		const { port, calls: made } = faultyPort([firstAppend, second], 'half-then-fail');
		const run = sprayDay(path, port);
		seen.add(made[second - 1] ?? '');
		const where = `call ${second} (${made[second - 1]}): ${run.refused.join(' | ')}`;
		expect(run.refused.length, where).toBeLessThanOrEqual(1);
		expect(found(path), where).toEqual(run.acknowledged);
	}
	for (const call of ['stat', 'read', 'open', 'write', 'sync', 'rename', 'syncFolder', 'close'])
		expect(seen).toContain(call);
});

test('whatever goes wrong while a torn tail is set aside, neither it nor a record is lost', () => {
	const tail = '0badc0de {"seq":5,';
	const tornDay = () => {
		const path = join(newPlace(), 'a.day.jsonl');
		const day = createDay(path, first, { port: faultyPort([]).port });
		day.append(following(2, 3));
		day.close();
		appendFileSync(path, tail);
		return path;
	};
	const { port, calls } = faultyPort([]);
	openDay(tornDay(), { port, processes: allDead }).close();
	for (const fault of ['fail', 'half-then-fail', 'lying-short'] satisfies Fault[])
		for (const [index, call] of calls.entries()) {
			const path = tornDay();
			try {
				openDay(path, { port: faultyPort([index + 1], fault).port, processes: allDead }).close();
			} catch (error) {
				expect(String(error), call).toMatch(/: the day was not (opened|read); /);
			}
			expect(found(path), `${index + 1} (${call})`).toEqual([first, ...following(2, 3)]);
			const kept = readdirSync(dirname(path)).filter(name => name.includes('.torn-5'));
			const texts = kept.map(name => readFileSync(join(dirname(path), name), 'utf8'));
			expect(texts, `${index + 1} (${call})`).toContain(tail);
		}
	expect(calls).toContain('rename');
});

test('a lock or a day of which less was written than the disk said is not begun, and leaves nothing', () => {
	const { port, calls } = faultyPort([]);
	createDay(join(newPlace(), 'a.day.jsonl'), first, { port }).close();
	const writes = calls.flatMap((call, index) => (call === 'write' ? [index + 1] : []));
	expect(writes).toHaveLength(2);
	for (const write of writes) {
		const path = join(newPlace(), 'a.day.jsonl');
		const bad = { port: faultyPort([write], 'lying-short').port };
		expect(() => createDay(path, first, bad)).toThrow(/the day was not begun; the disk reports an error/);
		expect(readdirSync(dirname(path))).toEqual([]);
	}
});

test('a disk that stays bad refuses every key with one line, and what was acknowledged stays', () => {
	const calls = callsOfADay();
	for (let wrong = calls.indexOf('syncFolder') + 2; wrong <= calls.length; wrong++) {
		const path = join(newPlace(), 'a.day.jsonl');
		const run = sprayDay(path, faultyPort([wrong], 'half-then-fail', true).port);
		const there = found(path);
		expect(there.slice(0, run.acknowledged.length), `from call ${wrong}`).toEqual(run.acknowledged);
		// The key under way when the disk broke may lie there whole; nothing else may.
		expect(there.length - run.acknowledged.length).toBeLessThanOrEqual(3);
	}
});

test('what the disk changed in silence is found as damage, never read as a record', () => {
	const calls = callsOfADay();
	let damaged = 0;
	for (const [index, call] of calls.entries()) {
		if (call !== 'write') continue;
		const path = join(newPlace(), 'a.day.jsonl');
		const run = sprayDay(path, faultyPort([index + 1], 'garble').port);
		const read = readDay(readFileSync(path));
		expect(run.acknowledged.slice(0, read.records.length)).toEqual(bare(read.records));
		if (read.damage) damaged++;
		else expect(bare(read.records)).toEqual(run.acknowledged);
	}
	// Seven writes of records; the other two are of locks.
	expect(damaged).toBe(7);
});

test('a disk that does not sync folders, as over a network, keeps a day all the same, and that is said once', () => {
	for (const code of ['EINVAL', 'ENOTSUP']) {
		const port: FilePort = {
			...faultyPort([]).port,
			syncFolder: () => {
				throw Object.assign(new Error(code), { code });
			},
		};
		const path = join(newPlace(), 'a.day.jsonl');
		const told: string[] = [];
		const options = { port, processes: allDead, onTrouble: (message: string) => told.push(message) };
		const day = createDay(path, first, options);
		day.append(following(2, 1));
		appendFileSync(path, 'torn');
		day.append(following(3, 1));
		day.close();
		expect(told.map(one => one.includes('does not sync its folders: a power cut may take a day'))).toEqual([
			true,
			false,
		]);
		told.splice(0);
		appendFileSync(path, 'torn');
		openDay(path, options).close();
		expect(told.filter(one => one.includes('does not sync its folders'))).toHaveLength(1);
		expect(found(path)).toEqual([first, ...following(2, 2)]);
	}
});
