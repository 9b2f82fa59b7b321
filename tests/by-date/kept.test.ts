import { existsSync, mkdtempSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { dated } from '../../src/by-date/dates.ts';
import { datesFile, readDates, writeDates } from '../../src/by-date/kept.ts';
import { disk, type FilePort } from '../../src/day/file/port.ts';

/** The dates of a painter's health, in a file of their own. */

const home = () => join(mkdtempSync(join(tmpdir(), 'by-date-')), 'fanwise');
const fit = { 'fit-test': dated(4, 12, '2027-03-02') };

test('they lie in one file in the data folder that its owner alone may read, and are read back', () => {
	const folder = home();
	expect(readDates(folder)).toEqual({});
	writeDates(folder, fit);
	writeDates(folder, { ...readDates(folder), 'medical-clearance': dated('not-yet', 12, '2027-03-02') });
	expect(Object.keys(readDates(folder))).toEqual(['fit-test', 'medical-clearance']);
	expect(readdirSync(folder)).toEqual(['by-date.json']);
	if (process.platform !== 'win32') expect(statSync(datesFile(folder)).mode & 0o777).toBe(0o600);
});

test('a file that others could read is one of its owner alone once it is written', () => {
	const folder = home();
	writeDates(folder, fit);
	writeFileSync(datesFile(folder), '{}', { mode: 0o644 });
	writeDates(folder, fit);
	if (process.platform !== 'win32') expect(statSync(datesFile(folder)).mode & 0o777).toBe(0o600);
});

test.each([
	['no JSON', '{ "fit-test": '],
	['a list', '[1, 2]'],
	['nothing', 'null'],
	['other fields', '{ "fit-test": { "last": 3 } }'],
	['no date', '{ "fit-test": { "last": null, "due": null, "again": "soon" } }'],
	['a name that is none', '{ "Fit Test": { "last": null, "due": null, "again": "2027-03-02" } }'],
])('what cannot be read is as if it had never been answered: %s', (_what, text) => {
	const folder = home();
	writeDates(folder, {});
	writeFileSync(datesFile(folder), text);
	expect(readDates(folder)).toEqual({});
});

test('a disk that fails leaves the dates as they were, and nothing beside them', () => {
	const folder = home();
	writeDates(folder, fit);
	const before = readFileSync(datesFile(folder), 'utf8');
	const full: FilePort = {
		...disk,
		write() {
			throw Object.assign(new Error('full'), { code: 'ENOSPC' });
		},
	};
	expect(() => writeDates(folder, {}, full)).toThrow('full');
	expect(readFileSync(datesFile(folder), 'utf8')).toBe(before);
	expect(readdirSync(folder)).toEqual(['by-date.json']);
	expect(existsSync(join(folder, 'settings.json'))).toBe(false);
});
