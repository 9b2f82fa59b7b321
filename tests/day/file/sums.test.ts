import { appendFileSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { glimpseDay } from '../../../src/day/file/glimpse.ts';
import { encodeKey } from '../../../src/day/file/keep.ts';
import { disk } from '../../../src/day/file/port.ts';
import { keepSums, readSums, sumsPath } from '../../../src/day/file/sums.ts';
import { historyAfter } from '../../../src/day/history.ts';
import { taughtBy } from '../../../src/plan/rates.ts';
import { rehearsed } from '../rehearsed.ts';
import { faultyPort } from './faulty.ts';
import { newPlace } from './place.ts';

const day = rehearsed({ settings: { by: 'face' } });
day.toEnd();
const records = day
	.records()
	.map(one => (one.type === 'day.opened' ? { ...one, clock: 'real' as const } : one));
const bytes = Buffer.from(encodeKey(records, undefined));
const taught = taughtBy(records);
const history = historyAfter(records);
const glimpse = glimpseDay(bytes);

/** A closed day with what it teaches kept beside it. */
function kept(port = disk) {
	const path = join(newPlace(), 'a.day.jsonl');
	writeFileSync(path, bytes);
	keepSums(path, bytes, taught, history, port);
	return path;
}
const found = (path: string) => {
	const sums = readSums(path);
	return (
		sums && { glimpse: sums.glimpse, taught: sums.taught, history: sums.history(), whole: sums.isWhole() }
	);
};
const right = { glimpse, taught, history, whole: true };

test('what a closed day teaches is kept beside it and found again', () => {
	const path = kept();
	expect(taught.length).toBeGreaterThan(0);
	expect(found(path)).toEqual(right);
	expect(readdirSync(dirname(path)).sort()).toEqual(['a.day.jsonl', 'a.day.jsonl.sums']);
	expect(readFileSync(sumsPath(path)).length).toBeLessThan(bytes.length / 10);
});

test('with any byte of it changed it is not used, or says the same', () => {
	const path = kept();
	const sums = readFileSync(sumsPath(path));
	let unused = 0;
	for (let at = 0; at < sums.length; at++)
		for (const bit of [1, 0x40]) {
			const changed = Buffer.from(sums);
			changed[at] = (changed[at] ?? 0) ^ bit;
			writeFileSync(sumsPath(path), changed);
			const what = found(path);
			if (what === null) unused++;
			else expect([right, { ...right, history: null }]).toContainEqual(what);
		}
	expect(unused).toBeGreaterThan(sums.indexOf(10));
});

test('cut anywhere, as a crash leaves it, it is not used, or without how the day left its faces', () => {
	const path = kept();
	const sums = readFileSync(sumsPath(path));
	for (let length = 0; length < sums.length; length += 3) {
		writeFileSync(sumsPath(path), sums.subarray(0, length));
		const what = found(path);
		expect(what === null || what.history === null, `${length} bytes`).toBe(true);
	}
});

test('a day that is longer, shorter, or has another first or last line, is not the one it was kept of', () => {
	const changes: ((path: string) => void)[] = [
		path => appendFileSync(path, 'x'),
		path => writeFileSync(path, bytes.subarray(0, -1)),
		path => writeFileSync(path, Buffer.concat([Buffer.from('00000000'), bytes.subarray(8)])),
		path => {
			const last = bytes.lastIndexOf(10, bytes.length - 2) + 1;
			const changed = Buffer.from(bytes);
			changed[last] = (changed[last] ?? 0) ^ 1;
			writeFileSync(path, changed);
		},
		path => rmSync(path),
	];
	for (const change of changes) {
		const path = kept();
		change(path);
		expect(readSums(path)).toBeNull();
	}
});

test('one byte changed in the middle of a day is found when it is asked for', () => {
	const path = kept();
	const changed = Buffer.from(bytes);
	changed[5000] = (changed[5000] ?? 0) ^ 1;
	writeFileSync(path, changed);
	expect(found(path)).toMatchObject({ whole: false });
});

test('a file of another kind that has the name is left as it is, and a day that is not closed teaches nothing yet', () => {
	const path = join(newPlace(), 'a.day.jsonl');
	writeFileSync(path, bytes);
	writeFileSync(sumsPath(path), 'written by hand');
	keepSums(path, bytes, taught, history);
	expect(readFileSync(sumsPath(path), 'utf8')).toBe('written by hand');
	rmSync(sumsPath(path));
	keepSums(path, bytes.subarray(0, bytes.indexOf(10) + 1), taught, history);
	expect(existsSync(sumsPath(path))).toBe(false);
});

test('a disk that does not take it costs nothing but time', () => {
	for (let wrong = 1; wrong < 12; wrong++) {
		const path = kept(faultyPort([wrong], 'half-then-fail').port);
		const what = found(path);
		expect(what === null || what.whole).toBe(true);
		expect(readFileSync(path)).toEqual(bytes);
		expect(readdirSync(dirname(path)).filter(name => name.endsWith('.new'))).toEqual([]);
	}
});
