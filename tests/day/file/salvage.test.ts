import { appendFileSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readDay } from '../../../src/day/file/read.ts';
import { salvageDay } from '../../../src/day/file/salvage.ts';
import { createDay, openDay } from '../../../src/day/file/store.ts';
import { newPlace } from './place.ts';
import { first, following } from './sample.ts';

/** Records 1 to 7, the keys `1`, `2 3`, `4`, `5 6`, `7`; returns the byte each line begins at. */
const sevenLines = () => {
	const path = join(newPlace(), 'a.day.jsonl');
	const day = createDay(path, first);
	for (const [seq, count] of [
		[2, 2],
		[4, 1],
		[5, 2],
		[7, 1],
	] as const)
		day.append(following(seq, count));
	day.close();
	const bytes = readFileSync(path);
	const starts = [0, ...[...bytes.keys()].filter(at => bytes[at] === 10).map(at => at + 1)];
	return { path, bytes, starts, target: join(path, '..', 'saved.day.jsonl') };
};

test('of a damaged day the whole keys before the damage are saved, and every line lost is named', () => {
	const { path, bytes, starts, target } = sevenLines();
	bytes[(starts[5] ?? 0) + 20] = 0;
	writeFileSync(path, bytes);
	const saved = salvageDay(path, target);
	const width = (line: number) => (starts[line] ?? 0) - (starts[line - 1] ?? 0);
	expect(saved).toEqual({
		savedRecords: 4,
		savedBytes: starts[4],
		savedUntil: following(4, 1)[0]?.at,
		lostBytes: bytes.length - (starts[4] ?? 0),
		lost: [
			{
				line: 5,
				byte: starts[4],
				bytes: width(5),
				what: null,
				at: following(5, 1)[0]?.at,
				seq: 5,
				type: 'cup.emptied',
			},
			{
				line: 6,
				byte: starts[5],
				bytes: width(6),
				what: 'its checksum does not fit',
				at: null,
				seq: null,
				type: null,
			},
			{
				line: 7,
				byte: starts[6],
				bytes: width(7),
				what: null,
				at: following(7, 1)[0]?.at,
				seq: 7,
				type: 'cup.emptied',
			},
		],
	});
	expect(readFileSync(path)).toEqual(bytes);
	expect(readFileSync(target)).toEqual(bytes.subarray(0, starts[4]));
	expect(statSync(target).mode & 0o777).toBe(0o600);
});

test('a day that was saved can be gone on with', () => {
	const { path, bytes, starts, target } = sevenLines();
	bytes[starts[6] ?? 0] = 0x7a;
	writeFileSync(path, bytes);
	salvageDay(path, target);
	const day = openDay(target);
	day.append(following(7, 1, 2));
	day.close();
	expect(readDay(readFileSync(target))).toMatchObject({ torn: null, damage: null });
});

test('damaged at any byte behind its first line, a day is saved up to the key before', () => {
	const { path, bytes, starts, target } = sevenLines();
	const keyStarts = [1, 3, 4, 6, 7].map(line => starts[line] ?? 0);
	for (let at = starts[1] ?? 0; at < bytes.length; at += 7) {
		const spoilt = Buffer.from(bytes);
		spoilt[at] = (spoilt[at] ?? 0) ^ 1;
		writeFileSync(path, spoilt);
		const { savedBytes, lostBytes, lost } = salvageDay(path, `${target}-${at}`);
		expect(savedBytes).toBe(keyStarts.findLast(start => start <= at));
		expect(lost.reduce((sum, { bytes: length }) => sum + length, 0)).toBe(lostBytes);
		expect(savedBytes + lostBytes).toBe(bytes.length);
	}
});

test('a torn tail is a loss too, and a whole day loses nothing', () => {
	const { path, bytes, target } = sevenLines();
	expect(salvageDay(path, target)).toMatchObject({ savedRecords: 7, lostBytes: 0, lost: [] });
	appendFileSync(path, '0badc0de {');
	const lost = [{ line: 8, byte: bytes.length, bytes: 10, what: 'it has no end' }];
	expect(salvageDay(path, `${target}2`)).toMatchObject({ savedRecords: 7, lostBytes: 10, lost });
});

test('what is there is never written over, the damaged day least of all', () => {
	const { path, bytes, target } = sevenLines();
	writeFileSync(target, 'mine');
	expect(() => salvageDay(path, target)).toThrow(/nothing was saved; there is a file of that name/);
	expect(() => salvageDay(path, path)).toThrow(/nothing was saved; there is a file of that name/);
	expect(() => salvageDay(path, join(path, '..', 'none', 'x'))).toThrow(/not there/);
	expect(readFileSync(target, 'utf8')).toBe('mine');
	expect(readFileSync(path)).toEqual(bytes);
	expect(readdirSync(join(path, '..')).sort()).toEqual(['a.day.jsonl', 'saved.day.jsonl']);
});

test('a day whose first line is spoilt, or that is none, gives nothing, and that is said', () => {
	const { path, bytes, target } = sevenLines();
	bytes[30] = 0;
	writeFileSync(path, bytes);
	expect(() => salvageDay(path, target)).toThrow(/nothing of it can be saved, its first line is not whole/);
	writeFileSync(path, '');
	expect(() => salvageDay(path, target)).toThrow(/nothing of it can be saved/);
	expect(readdirSync(join(path, '..'))).toEqual(['a.day.jsonl']);
});
