import { mkdirSync, readdirSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { newestDay } from '../../../src/day/file/days.ts';
import {
	checkRoom,
	dataFolder,
	daysFolder,
	listDays,
	makeDaysFolder,
	newDayPath,
	resolveDay,
	slugOf,
} from '../../../src/day/file/folder.ts';
import { disk } from '../../../src/day/file/port.ts';
import { newPlace } from './place.ts';

const on = (platform: string, env: Record<string, string>) => dataFolder({ env, platform, home: '/home/p' });

test('days lie where the user says, else where the system keeps data', () => {
	expect(on('linux', { FANWISE_HOME: '/srv/fan', XDG_DATA_HOME: '/x' })).toBe('/srv/fan');
	expect(on('linux', { FANWISE_HOME: 'here' })).toBe(resolve('here'));
	expect(on('linux', { XDG_DATA_HOME: '/x' })).toBe('/x/fanwise');
	expect(on('linux', { XDG_DATA_HOME: 'relative' })).toBe('/home/p/.local/share/fanwise');
	expect(on('linux', { FANWISE_HOME: '' })).toBe('/home/p/.local/share/fanwise');
	expect(on('darwin', {})).toBe('/home/p/Library/Application Support/fanwise');
	expect(daysFolder({ env: {}, platform: 'linux', home: '/home/p' })).toBe(
		'/home/p/.local/share/fanwise/days',
	);
});

test('every folder that is made is open to its owner alone, and making it again is no error', () => {
	const folder = join(newPlace(), 'data', 'fanwise', 'days');
	makeDaysFolder(folder);
	makeDaysFolder(folder);
	for (const made of [folder, dirname(folder), dirname(dirname(folder))])
		expect(statSync(made).mode & 0o777).toBe(0o700);
	writeFileSync(join(folder, 'file'), '');
	expect(() => makeDaysFolder(join(folder, 'file', 'days'))).toThrow(
		/not made; a part of its path is no folder/,
	);
});

const day = (job: string) => ({ job, date: '2027-03-02' });

test('a day is named after its date and its job', () => {
	const path = newDayPath(newPlace(), day('Market cart: lid'));
	expect(basename(path)).toBe('2027-03-02_market-cart-lid.day.jsonl');
});

test('a second and a third day of the same date get a number', () => {
	const folder = newPlace();
	for (const wanted of ['lid', 'lid-2', 'lid-3']) {
		const path = newDayPath(folder, day('lid'));
		expect(basename(path)).toBe(`2027-03-02_${wanted}.day.jsonl`);
		writeFileSync(path, '');
	}
});

test('no name of a job leads out of the folder or makes a name that a terminal could act on', () => {
	const folder = newPlace();
	const hostile = [
		'../../etc/passwd',
		'/etc/passwd',
		'..',
		'.',
		'',
		'\u0000',
		'\u001b[2J',
		'a\nb',
		'\u202elid',
		'~',
	];
	const check = (job: string) => {
		const path = newDayPath(folder, day(job));
		expect(dirname(path)).toBe(folder);
		expect(basename(path)).toMatch(/^2027-03-02_[a-z0-9][a-z0-9-]{0,39}\.day\.jsonl$/);
	};
	for (const job of [...hostile, 'x'.repeat(10_000), '/'.repeat(10_000)]) check(job);
	fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 300 }), check));
	expect(slugOf('Kühlerhaube Nº 2')).toBe('kuhlerhaube-no-2');
	expect(slugOf('Тележка')).toBe('job');
});

const threeDays = () => {
	const folder = newPlace();
	const names = ['2027-03-01_lid', '2027-03-02_rail', '2027-03-02_door'].map(name => `${name}.day.jsonl`);
	for (const [index, name] of names.entries()) {
		writeFileSync(join(folder, name), '');
		utimesSync(join(folder, name), 1000 - index, 1000 - index);
	}
	for (const other of ['2027-03-09_x.day.jsonl.lock', '2027-03-09_x.day.jsonl.torn-4', 'notes.txt'])
		writeFileSync(join(folder, other), '');
	mkdirSync(join(folder, '2027-03-09_folder.day.jsonl'));
	return folder;
};

test('the days of a folder are listed newest first, and nothing else that lies there', () => {
	const names = listDays(threeDays()).map(({ name, date }) => `${name} ${date}`);
	expect(names).toEqual([
		'2027-03-02_rail.day.jsonl 2027-03-02',
		'2027-03-02_door.day.jsonl 2027-03-02',
		'2027-03-01_lid.day.jsonl 2027-03-01',
	]);
	expect(listDays(join(newPlace(), 'not', 'made'))).toEqual([]);
});

test('the second day of a date stays the newer one, whenever the file of the first was last touched', () => {
	const folder = newPlace();
	const numbered = ['lid', ...Array.from({ length: 11 }, (_, index) => `lid-${index + 2}`)];
	for (const [index, name] of numbered.entries()) {
		const path = join(folder, `2027-03-02_${name}.day.jsonl`);
		writeFileSync(path, '');
		utimesSync(path, 2000 - index, 2000 - index);
	}
	writeFileSync(join(folder, '2027-03-02_rail.day.jsonl'), '');
	utimesSync(join(folder, '2027-03-02_rail.day.jsonl'), 1995, 1995);
	const names = listDays(folder).map(({ name }) => name.slice('2027-03-02_'.length, name.indexOf('.')));
	expect(names).toEqual([...numbered.toReversed(), 'rail']);
});

test('a day is found by its path, its name, or the beginning of its name; without one it is the newest', () => {
	const folder = threeDays();
	const path = join(folder, '2027-03-01_lid.day.jsonl');
	for (const given of [path, '2027-03-01_lid.day.jsonl', '2027-03-01_lid', '2027-03-01'])
		expect(resolveDay(given, folder)).toBe(path);
	expect(listDays(folder)[0]?.path).toBe(join(folder, '2027-03-02_rail.day.jsonl'));
});

test('a name that fits no day, or several, is answered in one plain line', () => {
	const folder = threeDays();
	expect(() => resolveDay('2027-03-02', folder)).toThrow(
		/2 days of that name .* the newest is 2027-03-02_rail/,
	);
	for (const bad of ['lid', '', '../x', '\u001b[2J\n', '\u0000', 'x'.repeat(10_000), '__proto__']) {
		expect(() => resolveDay(bad, folder), bad).toThrow(/no day of that name/);
		expect(() => resolveDay(bad, folder), bad).toThrow(/^[^\p{C}]{1,500}$/u);
	}
	expect(() => newestDay(join(folder, 'none'))).toThrow(/there is no day yet: begin one/);
	expect(readdirSync(folder)).toHaveLength(7);
});

test('a disk without room for a day is found out before one is begun; one that does not say is taken as it is', () => {
	const folder = newPlace();
	const with_ = (free: () => number) => () => checkRoom(folder, { ...disk, free });
	expect(with_(() => 999_999)).toThrow(
		`${folder}: the day was not begun; 999 kB are free on this disk, and a day wants 1000: free some room, or choose`,
	);
	expect(with_(() => 1_000_000)).not.toThrow();
	expect(
		with_(() => {
			throw Object.assign(new Error('ENOSYS'), { code: 'ENOSYS' });
		}),
	).not.toThrow();
	expect(disk.free(folder)).toBeGreaterThan(0);
});
