import {
	appendFileSync,
	copyFileSync,
	existsSync,
	readdirSync,
	readFileSync,
	renameSync,
	rmSync,
	statSync,
	writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { disk } from '../../../src/day/file/port.ts';
import { readDay } from '../../../src/day/file/read.ts';
import { createDay, openDay } from '../../../src/day/file/store.ts';
import { allDead } from './faulty.ts';
import { newPlace } from './place.ts';
import { first, following } from './sample.ts';

const underWay = () => {
	const path = join(newPlace(), 'a.day.jsonl');
	const told: string[] = [];
	const day = createDay(path, first, { onTrouble: message => told.push(message) });
	day.append(following(2, 2));
	return { path, day, told };
};
const numbers = (path: string) => readDay(readFileSync(path)).records.map(({ seq }) => seq);

test('a day file removed while it is open is there again with the next key, whole', () => {
	const { path, day, told } = underWay();
	rmSync(path);
	day.append(following(4, 1));
	expect(numbers(path)).toEqual([1, 2, 3, 4]);
	expect(statSync(path).mode & 0o777).toBe(0o600);
	expect(told).toEqual([`${path}: it was removed while it was open; the day was written anew`]);
	day.append(following(5, 1));
	expect(numbers(path)).toEqual([1, 2, 3, 4, 5]);
	expect(told).toHaveLength(1);
	day.close();
});

test('a file put in its place is kept beside it, and the day goes on under its own name', () => {
	const { path, day, told } = underWay();
	writeFileSync(`${path}-stranger`, 'something else');
	renameSync(`${path}-stranger`, path);
	day.append(following(4, 1));
	expect(numbers(path)).toEqual([1, 2, 3, 4]);
	expect(readFileSync(`${path}.other-3`, 'utf8')).toBe('something else');
	expect(told[0]).toMatch(/it was replaced while it was open; the day was written anew, .*\.other-3$/);
	day.close();
});

test('a copy of the day put in its place is no loss and is not kept', () => {
	const { path, day, told } = underWay();
	copyFileSync(path, `${path}-copy`);
	renameSync(`${path}-copy`, path);
	day.append(following(4, 1));
	expect(numbers(path)).toEqual([1, 2, 3, 4]);
	expect(told).toHaveLength(1);
	expect(readdirSync(dirname(path)).sort()).toEqual(['a.day.jsonl', 'a.day.jsonl.lock']);
	day.close();
});

test('a day file that something else wrote in is kept beside it, and the day is whole', () => {
	const { path, day, told } = underWay();
	appendFileSync(path, 'a line of someone else\n');
	day.append(following(4, 1));
	expect(numbers(path)).toEqual([1, 2, 3, 4]);
	expect(readFileSync(`${path}.other-3`, 'utf8')).toContain('a line of someone else\n');
	expect(told[0]).toMatch(/something else wrote in it/);
	writeFileSync(path, '');
	day.append(following(5, 1));
	expect(numbers(path)).toEqual([1, 2, 3, 4, 5]);
	day.close();
});

test('with its whole folder gone a key is refused in one line; put back, the same key is taken', () => {
	const { path, day, told } = underWay();
	const folder = dirname(path);
	renameSync(folder, `${folder}-away`);
	expect(() => day.append(following(4, 1))).toThrow(
		/a\.day\.jsonl: this key was not taken; .*not there: put it back/,
	);
	renameSync(`${folder}-away`, folder);
	day.append(following(4, 1));
	expect(numbers(path)).toEqual([1, 2, 3, 4]);
	expect(told.length).toBeLessThanOrEqual(1);
	day.close();
});

test('a read-only folder refuses to begin a day and to open one, and leaves nothing', () => {
	const { path, day } = underWay();
	day.close();
	const before = readFileSync(path);
	for (const code of ['EROFS', 'EACCES']) {
		const refuse = () => {
			throw Object.assign(new Error(code), { code });
		};
		const port = { ...disk, open: refuse, link: refuse, rename: refuse, unlink: refuse };
		expect(() => createDay(`${path}2`, first, { port })).toThrow(
			/not begun; .*choose another folder with FANWISE_HOME$/,
		);
		expect(() => openDay(path, { port })).toThrow(/not opened; .*choose another folder with FANWISE_HOME$/);
	}
	expect(readFileSync(path)).toEqual(before);
	expect(readdirSync(dirname(path))).toEqual(['a.day.jsonl']);
});

test('on a disk without second names a day is begun, kept, locked and set aside all the same', () => {
	const link = () => {
		throw Object.assign(new Error('EPERM'), { code: 'EPERM' });
	};
	const port = { ...disk, link };
	const path = join(newPlace(), 'a.day.jsonl');
	const day = createDay(path, first, { port });
	expect(() => openDay(path, { port })).toThrow(/open already/);
	expect(() => createDay(path, first, { port, processes: allDead })).toThrow(/a file of that name/);
	writeFileSync(path, 'something else');
	day.append(following(2, 1));
	expect(numbers(path)).toEqual([1, 2]);
	expect(readFileSync(`${path}.other-1`, 'utf8')).toContain('something else');
	day.close();
	expect(existsSync(`${path}.lock`)).toBe(false);
});
