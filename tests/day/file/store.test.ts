import { appendFileSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { disk } from '../../../src/day/file/port.ts';
import { readDay } from '../../../src/day/file/read.ts';
import { createDay, openDay } from '../../../src/day/file/store.ts';
import { newPlace } from './place.ts';
import { first, following, stamped } from './sample.ts';

const read = (path: string) => readDay(readFileSync(path));
const begin = () => {
	const path = join(newPlace(), 'a.day.jsonl');
	return { path, day: createDay(path, first) };
};

test('a day begun holds its first record, is readable by its owner alone, and leaves nothing beside it', () => {
	const { path, day } = begin();
	expect(read(path)).toMatchObject({ records: [first], torn: null, damage: null });
	expect(statSync(path).mode & 0o777).toBe(0o600);
	expect(readdirSync(join(path, '..')).sort()).toEqual(['a.day.jsonl', 'a.day.jsonl.lock']);
	day.close();
	expect(readdirSync(join(path, '..'))).toEqual(['a.day.jsonl']);
});

test('keys appended are in the file in their order, and after opening again go on from there', () => {
	const { path, day } = begin();
	day.append(following(2, 1));
	day.append(following(3, 3));
	day.close();
	const again = openDay(path);
	expect(again.records.map(record => record.seq)).toEqual([1, 2, 3, 4, 5]);
	expect(again.torn).toBeNull();
	again.append(following(6, 1, 2));
	again.close();
	expect(read(path).records.slice(5)).toEqual(following(6, 1, 2));
});

test('all records of a key but the last say that more belong to it', () => {
	const { path, day } = begin();
	day.append(following(2, 3));
	day.append(following(5, 1).map(record => ({ ...record, more: true })));
	expect(read(path).records.map(record => record.more ?? false)).toEqual([false, true, true, false, false]);
	day.close();
});

test('a key is one write, then a sync, and only then is it acknowledged', () => {
	const calls: string[] = [];
	const port = {
		...disk,
		write: (handle: number, bytes: Uint8Array, from: number) => {
			calls.push('write');
			return disk.write(handle, bytes, from);
		},
		sync: (handle: number) => {
			calls.push('sync');
			disk.sync(handle);
		},
		rename: (from: string, to: string) => {
			calls.push('rename');
			disk.rename(from, to);
		},
		link: (from: string, to: string) => {
			calls.push(`name ${to.slice(-5)}`);
			disk.link(from, to);
		},
		syncFolder: (path: string) => {
			calls.push('sync folder');
			disk.syncFolder(path);
		},
	};
	const path = join(newPlace(), 'a.day.jsonl');
	const day = createDay(path, first, { port });
	const lock = ['write', 'sync', 'name .lock'];
	expect(calls.splice(0)).toEqual([...lock, 'write', 'sync', 'name jsonl', 'sync folder']);
	day.append(following(2, 3));
	expect(calls.splice(0)).toEqual(['write', 'sync']);
	day.close();
	appendFileSync(path, 'torn');
	openDay(path, { port }).close();
	const aside = ['write', 'sync', 'name orn-5', 'sync folder'];
	expect(calls).toEqual([...lock, ...aside, 'write', 'sync', 'rename', 'sync folder']);
});

test('what was read on opening is on the disk before anything rests on it', () => {
	const { path, day } = begin();
	day.close();
	const synced: string[] = [];
	const port = { ...disk, sync: (handle: number) => void synced.push(String(handle)) };
	const again = openDay(path, { port });
	expect(synced).toHaveLength(2);
	again.close();
});

test('a torn tail is moved to a file beside the day, and the day goes on without it', () => {
	const { path, day } = begin();
	day.append(following(2, 1));
	day.close();
	const good = readFileSync(path);
	appendFileSync(path, '0badc0de {"seq":3,');
	const again = openDay(path);
	expect(again.torn).toEqual({ bytes: 18, aside: `${path}.torn-3` });
	expect(readFileSync(path)).toEqual(good);
	expect(readFileSync(`${path}.torn-3`, 'utf8')).toBe('0badc0de {"seq":3,');
	expect(statSync(`${path}.torn-3`).mode & 0o777).toBe(0o600);
	expect(statSync(path).mode & 0o777).toBe(0o600);
	again.append(following(3, 1, 2));
	again.close();
	appendFileSync(path, 'x');
	appendFileSync(`${path}.torn-4`, 'an older tail');
	expect(openDay(path).torn).toEqual({ bytes: 1, aside: `${path}.torn-4-2` });
	expect(readFileSync(`${path}.torn-4`, 'utf8')).toBe('an older tail');
});

test('a damaged day is refused with its line and what to do, and not touched', () => {
	const { path, day } = begin();
	day.append(following(2, 2));
	day.close();
	const bytes = readFileSync(path);
	bytes[bytes.length - 5] = 0;
	writeFileSync(path, bytes);
	expect(() => openDay(path)).toThrow(/a\.day\.jsonl:3: .*damaged: its checksum.*--salvage/);
	expect(readFileSync(path)).toEqual(bytes);
	expect(readdirSync(join(path, '..'))).toEqual(['a.day.jsonl']);
});

test('what is no day file is refused in one line and not touched', () => {
	const folder = newPlace();
	const at = (name: string, text: string | Uint8Array) => {
		writeFileSync(join(folder, name), text);
		return join(folder, name);
	};
	expect(() => openDay(folder)).toThrow(/this is no file: name a day file$/);
	expect(() => openDay(join(folder, 'none'))).toThrow(/no such day file/);
	expect(() => openDay(at('empty', ''))).toThrow(
		/nothing is in this day file: put a copy of it in its place, or move it/,
	);
	expect(() => openDay(at('brackets', '['.repeat(1_000_000)))).toThrow(/no whole record/);
	expect(() => openDay(at('sheet.yaml', 'name: rail\nunits: us\n'))).toThrow(
		/sheet\.yaml:1: this is no day file/,
	);
	expect(() => openDay(at('binary', Uint8Array.of(0, 10, 255, 10)))).toThrow(/binary:1: this is no day file/);
	expect(readdirSync(folder).sort()).toEqual(['binary', 'brackets', 'empty', 'sheet.yaml']);
	for (const path of ['empty', 'sheet.yaml', 'binary'])
		expect(() => openDay(join(folder, path))).toThrow(/^[^\n\0]+$/);
});

test('a day is not begun over anything that is there', () => {
	const path = join(newPlace(), 'a.day.jsonl');
	writeFileSync(path, 'mine');
	expect(() => createDay(path, first)).toThrow(/there is a file of that name: choose another name/);
	expect(readFileSync(path, 'utf8')).toBe('mine');
	expect(readdirSync(join(path, '..'))).toEqual(['a.day.jsonl']);
});

test('records that do not follow are refused before anything is written', () => {
	const { path, day } = begin();
	const before = readFileSync(path);
	expect(() => day.append(following(3, 1))).toThrow(/record 3 .* does not follow record 1/);
	expect(() => day.append([...following(2, 1), ...following(4, 1)])).toThrow(
		/record 4 .* does not follow record 2/,
	);
	expect(() => day.append([stamped({ type: 'cup.emptied', volume_mL: Number.NaN, why: '' }, 2)])).toThrow(
		/volume_mL/,
	);
	expect(readFileSync(path)).toEqual(before);
	day.append(following(2, 1, 2));
	expect(() => day.append(following(3, 1, 1))).toThrow(/does not follow/);
	day.close();
	expect(() => day.append(following(3, 1, 2))).toThrow('the day file is closed');
});

test('a day that something else writes in while it is being opened is refused', () => {
	const { path, day } = begin();
	day.close();
	const read = (from: string) => {
		const bytes = disk.read(from);
		if (from === path) appendFileSync(path, 'x');
		return bytes;
	};
	expect(() => openDay(path, { port: { ...disk, read } })).toThrow(/something else writes in it: close that/);
	expect(readdirSync(join(path, '..'))).toEqual(['a.day.jsonl']);
});

test('a day opened through a link is the day itself, lock and all', () => {
	const { path, day } = begin();
	const link = join(path, '..', 'link');
	symlinkSync(path, link);
	expect(() => openDay(link)).toThrow(/open already/);
	day.close();
	const linked = openDay(link);
	expect(linked.path).toBe(path);
	linked.close();
});
