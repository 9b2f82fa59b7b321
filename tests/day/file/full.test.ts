import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { disk, type FilePort } from '../../../src/day/file/port.ts';
import { readDay } from '../../../src/day/file/read.ts';
import { createDay, openDay } from '../../../src/day/file/store.ts';
import { newPlace } from './place.ts';
import { first, following } from './sample.ts';

const size = 64 * 1024;

const filesOf = (folder: string) => readdirSync(folder).map(name => readFileSync(join(folder, name)));

/** Takes no more than the rest of `size` bytes, as a disk of that size does. */
const smallFake = (folder: string): FilePort => ({
	...disk,
	write: (handle, bytes, from) => {
		const room = size - filesOf(folder).reduce((sum, file) => sum + file.length, 0);
		if (room <= 0) throw Object.assign(new Error('ENOSPC'), { code: 'ENOSPC' });
		return disk.write(handle, bytes.subarray(0, Math.min(bytes.length, from + room)), from);
	},
});

/** A real disk of 64 kB in memory. */
const smallDisk = (): string | null => {
	const folder = join(newPlace(), 'small');
	mkdirSync(folder);
	const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${size}`, 'tmpfs', folder]).status === 0;
	if (mounted) onTestFinished(() => void spawnSync('umount', ['-l', folder]));
	return mounted ? folder : null;
};

const fillAndFree = (folder: string, port: FilePort) => {
	const path = join(folder, 'a.day.jsonl');
	const told: string[] = [];
	const day = createDay(path, first, { port, onTrouble: message => told.push(message) });
	let seq = 2;
	const key = () => {
		day.append(following(seq, 2));
		seq += 2;
	};
	key();
	writeFileSync(join(folder, 'ballast'), Buffer.alloc(size - 12 * 1024));
	const fill = () => {
		for (;;) key();
	};
	expect(fill).toThrow(
		/^[^\n]*a\.day\.jsonl: this key was not taken; the disk is full: free some room, then go on$/,
	);
	expect(seq).toBeGreaterThan(4);
	expect(key).toThrow(/the disk is full/);
	expect(readDay(readFileSync(path)).records.length).toBe(seq - 1);
	rmSync(join(folder, 'ballast'));
	key();
	expect(told).toEqual([expect.stringMatching(/the day was written anew$/)]);
	key();
	day.close();
	const read = readDay(readFileSync(path));
	expect(read).toMatchObject({ torn: null, damage: null });
	expect(read.records).toHaveLength(seq - 1);
	expect(readdirSync(folder)).toEqual(['a.day.jsonl']);
};

test('on a full disk a key is refused in one line, nothing of the day is lost, and with room again it goes on', () => {
	const folder = newPlace();
	fillAndFree(folder, smallFake(folder));
	const real = smallDisk();
	if (real) fillAndFree(real, disk);
});

test('on a disk full from the start no day is begun or opened, and nothing is left or lost', () => {
	const folder = newPlace();
	const path = join(folder, 'a.day.jsonl');
	const port = smallFake(folder);
	createDay(path, first, { port }).close();
	const before = readFileSync(path);
	writeFileSync(join(folder, 'ballast'), Buffer.alloc(size - before.length));
	expect(() => createDay(`${path}2`, first, { port })).toThrow(/the day was not begun; the disk is full/);
	expect(() => openDay(path, { port })).toThrow(/the day was not opened; the disk is full/);
	expect(readFileSync(path)).toEqual(before);
	expect(readdirSync(folder).sort()).toEqual(['a.day.jsonl', 'ballast']);
});
