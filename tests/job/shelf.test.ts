import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import { describe, expect, test } from 'vitest';
import { errorLine } from '../../src/job/errors.ts';
import type { Job } from '../../src/job/job.ts';
import { type Loaded, loadJob, parseJob } from '../../src/job/load.ts';
import { readShelf, type Shelf } from '../../src/job/shelf.ts';
import { exampleText } from './altered.ts';
import { longSheet, shelf, shortSheet } from './chairs/long-form.ts';

function jobOf(loaded: Loaded): Job {
	if (!loaded.ok) throw new Error(loaded.errors.map(errorLine).join('\n'));
	return loaded.job;
}
const says = (loaded: Loaded): string[] =>
	loaded.ok ? [] : loaded.errors.map(({ file, line, says }) => `${file}:${line} ${says}`);

const short = readFileSync(shortSheet, 'utf8');
const filled = readShelf(shelf);
const read = (text: string, from: Shelf = filled) => parseJob(text, 'chairs.yaml', () => from);
/** The shelf with one text of it changed; the place must be there. */
const changed = (from: string, to: string): Shelf => {
	expect(filled.files.some(({ text }) => text.includes(from))).toBe(true);
	return { ...filled, files: filled.files.map(file => ({ ...file, text: file.text.replace(from, to) })) };
};
const without = (kind: string): Shelf => ({
	...filled,
	files: filled.files.filter(file => file.kind !== kind),
});

/** What a face gets, whichever of the stages of a sheet says so. */
const course = ({ faces }: Job) =>
	faces.map(({ coats, ...face }) => ({ ...face, coats: coats.map(({ stage: _, ...coat }) => coat) }));

describe('eight chairs', () => {
	test('are at most 35 lines', () => {
		expect(short.trimEnd().split('\n').length).toBeLessThanOrEqual(35);
	});

	test('come to the same job as a sheet that writes everything out', async () => {
		const [one, other] = [jobOf(await loadJob(shortSheet, shelf)), jobOf(parseJob(longSheet, 'long.yaml'))];
		const { faces: _, stages, ...rest } = one;
		const { faces: __, stages: long, ...all } = other;
		expect(rest).toEqual(all);
		expect(course(one)).toEqual(course(other));
		// The last stage of the short sheet is two of the long one: coats of some faces alone.
		expect(stages.slice(0, -1)).toEqual(long.slice(0, stages.length - 1));
	});
});

describe('what a sheet only names stands on the shelf', () => {
	test('a sheet that names nothing never asks for it', () => {
		const never = () => {
			throw new Error('the shelf is read');
		};
		expect(parseJob(exampleText, 'cart.yaml', never)).toEqual(parseJob(exampleText, 'cart.yaml'));
		expect(parseJob(longSheet, 'long.yaml', never).ok).toBe(true);
	});

	test('a sheet may name the shelf that it means, from where it lies', async () => {
		const folder = mkdtempSync(join(tmpdir(), 'shelf-'));
		const sheet = join(folder, 'jobs', 'chairs.yaml');
		mkdirSync(dirname(sheet));
		writeFileSync(sheet, `shelf: ${relative(dirname(sheet), shelf)}\n${short}`);
		expect(jobOf(await loadJob(sheet, join(folder, 'none')))).toEqual(
			jobOf(await loadJob(shortSheet, shelf)),
		);
		writeFileSync(sheet, `shelf: nowhere\n${short}`);
		expect(says(await loadJob(sheet, shelf))).toContainEqual(
			expect.stringMatching(/:1 shelf: nothing of a shelf is in "nowhere"$/),
		);
	});

	test('a material of the sheet goes before one of that name on the shelf', () => {
		const own = longSheet.slice(longSheet.indexOf('materials:'), longSheet.indexOf('  moss green'));
		const text = `${short}\n${own.replace('solids: 46%', 'solids: 44%')}`;
		expect(jobOf(read(text)).materials['grey epoxy']?.solids).toBe(0.44);
		expect(jobOf(read(short)).materials['grey epoxy']?.solids).toBe(0.46);
	});

	test('units and shop of the sheet go before those of the shelf', () => {
		const own = jobOf(read(`units: us\nshop: { air: 75 °F, humidity: 40%, day: 8 h }\n${short}`));
		expect([own.units, own.shop.humidity]).toEqual(['us', 0.4]);
		const theirs = jobOf(read(short));
		expect([theirs.units, theirs.shop.humidity]).toEqual(['metric', 0.5]);
	});

	test('what is wrong in a file of the shelf is said once, of that file and its line', () => {
		const loaded = read(short, changed('ratio: 2:1 by volume', 'ratio: two to one'));
		expect(says(loaded)).toEqual([
			expect.stringMatching(/moss-green\.yaml:4 material, ratio: found "two to one"; allowed: base:hardener/),
		]);
		const missing = read(short, changed('pot life: 4 h at 20 °C\n', ''));
		expect(says(missing)).toEqual([
			expect.stringMatching(/grey-epoxy\.yaml:1 material, pot life is missing/),
		]);
		const gun = read(short, changed('pressure: 2 bar', 'pressure: two'));
		expect(says(gun)).toEqual([expect.stringMatching(/large\.yaml:2 gun, pressure: found "two"/)]);
	});

	test('a contradiction of a film and its sag limit is said of its file too', () => {
		const loaded = read(short, changed('sags above: 95 um', 'sags above: 40 um'));
		expect(says(loaded)).toEqual([expect.stringMatching(/moss-green\.yaml:8 .*lies .* and sags above/)]);
	});

	test('a broken file that the job does not use stops nothing', () => {
		const broken = {
			kind: 'material' as const,
			name: 'linen satin',
			path: 'linen.yaml',
			text: 'material: [',
		};
		expect(read(short, { ...filled, files: [...filled.files, broken] }).ok).toBe(true);
	});

	test('a name that is not there names what is', () => {
		expect(says(read(short.replaceAll('moss green satin', 'moss green')))[0]).toMatch(
			/stage, spray: found "moss green"; allowed: .*moss green satin.*; nearest: moss green satin$/,
		);
		expect(says(read(short.replace('gun: large', 'gun: small')))).toEqual([
			'chairs.yaml:2 gun: found "small"; the shelf has large',
		]);
		expect(says(read(short, without('gun')))).toEqual([
			'chairs.yaml:2 gun: found "large"; the shelf has no gun',
		]);
		expect(says(read(short, without('shop'))).slice(0, 2)).toEqual([
			expect.stringMatching(/shop is missing/),
			expect.stringMatching(/units is missing/),
		]);
	});

	test('two files of one name are not chosen between', () => {
		const [first] = filled.files.filter(({ name }) => name === 'grey epoxy');
		const twice = {
			...filled,
			files: [...filled.files, ...(first ? [{ ...first, path: 'again.yaml' }] : [])],
		};
		expect(says(read(short, twice))).toEqual([
			'chairs.yaml:14 grey epoxy: two files of the shelf have this name; take again.yaml out',
		]);
	});
});
