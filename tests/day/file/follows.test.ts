import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chainsOf, forkIn, type Place } from '../../../src/day/chains.ts';
import { daysOfJob, forkSaid, jobToGoOn } from '../../../src/day/file/days.ts';
import { newDayPath } from '../../../src/day/file/folder.ts';
import { glimpseDay } from '../../../src/day/file/glimpse.ts';
import { encodeKey } from '../../../src/day/file/keep.ts';
import { disk, type FilePort } from '../../../src/day/file/port.ts';
import { headOf, keepSums, readSums } from '../../../src/day/file/sums.ts';
import { type DayRecord, eventSchema, type Head } from '../../../src/day/records.ts';
import { newPlace } from './place.ts';
import { opened, sheet, stamped } from './sample.ts';

const job = sheet.name;
type Kept = { path: string; head: Head; of: string };

/** A closed day on which nothing was laid, as its file has it: what it rests on, whatever its clock said. */
function dayAt(folder: string, date: string, on: readonly Kept[] = []): Kept {
	const follows = { of: on[0]?.of, after: on.map(({ head }) => head) };
	const fields = { ...opened, v: 2, ...(on.length > 0 && follows) };
	const at = (hour: number) => `${date}T${String(hour).padStart(2, '0')}:00:00.000Z`;
	const records: DayRecord[] = [
		{ ...stamped(eventSchema.parse(fields), 1), at: at(8) },
		{ ...stamped({ type: 'day.closed', job, why: 'done' }, 2), at: at(12) },
	];
	const path = newDayPath(folder, { job, date });
	const bytes = Buffer.from(encodeKey(records, undefined));
	writeFileSync(path, bytes);
	const head = headOf(bytes, 2);
	return { path, head, of: on[0]?.of ?? head.day };
}
const paths = (folder: string) => daysOfJob(folder, job).map(({ path }) => path);
const forkOf = (folder: string) => jobToGoOn(daysOfJob(folder, job))?.fork?.message ?? null;

test('a day is known by its first line and rested on by every byte up to a record', () => {
	const { path, head } = dayAt(newPlace(), '2027-03-01');
	const bytes = readFileSync(path);
	const line = bytes.subarray(0, bytes.indexOf(10));
	// The sum is that of zlib's own crc32 and the name that of the system's sha256, over the bytes as they lie there.
	expect(head).toEqual({
		day: createHash('sha256').update(line).digest('hex'),
		upto: 2,
		sum: crc32(bytes).toString(16).padStart(8, '0'),
	});
	expect(glimpseDay(bytes)).toMatchObject({ id: head.day, of: null, restsOn: [], upto: 2 });
	keepSums(path, bytes, []);
	expect(readSums(path)?.head).toEqual(head);
});

test('days follow each other by what they rest on, whatever clocks, names and coats say', () => {
	const folder = newPlace();
	const first = dayAt(folder, '2027-03-09');
	const second = dayAt(folder, '2027-03-01', [first]);
	const third = dayAt(folder, '2028-01-01', [second]);
	const fourth = dayAt(folder, '2027-03-05', [third]);
	expect(paths(folder)).toEqual([fourth, third, second, first].map(({ path }) => path));
	expect(jobToGoOn(daysOfJob(folder, job))).toEqual({ of: first.head.day, fork: null });
});

test('two jobs of one name stay two, though nothing was laid on either', () => {
	const folder = newPlace();
	const [one, other] = [dayAt(folder, '2027-03-01'), dayAt(folder, '2027-03-02')];
	const [oneMore, otherMore] = [dayAt(folder, '2027-03-04', [one]), dayAt(folder, '2027-03-03', [other])];
	const placed = [one, other, oneMore, otherMore].flatMap(({ path }) => {
		const place = glimpseDay(readFileSync(path));
		return place ? [{ path, place }] : [];
	});
	const rows = chainsOf(placed).map(row => row.map(({ path }) => path));
	expect(rows).toEqual([
		[other.path, otherMore.path],
		[one.path, oneMore.path],
	]);
	expect(jobToGoOn(daysOfJob(folder, job))?.of).toBe(one.head.day);
});

test('a job goes by its first day where the file of that was moved away', () => {
	const folder = newPlace();
	const first = dayAt(newPlace(), '2027-03-01');
	const second = dayAt(folder, '2027-03-02', [first]);
	expect(jobToGoOn(daysOfJob(folder, job))).toEqual({ of: first.head.day, fork: null });
	expect(paths(folder)).toEqual([second.path]);
});

test('two days that follow the same one are said in one line, until a later day rests on both', () => {
	const folder = newPlace();
	const first = dayAt(folder, '2027-03-01');
	const left = dayAt(folder, '2027-03-02', [first]);
	expect(forkOf(folder)).toBeNull();
	const right = dayAt(folder, '2027-03-03', [first]);
	const says =
		`${right.path}: it follows the same day as ${left.path}, and neither counts the coats of the other: ` +
		'move one of them to another folder: its coats are then not counted';
	expect(forkOf(folder)).toBe(says);
	const leftOn = dayAt(folder, '2027-03-04', [left]);
	expect(forkOf(folder)).toBe(says);
	dayAt(folder, '2027-03-05', [leftOn, right]);
	expect(forkOf(folder)).toBeNull();
});

test('a day that rests on the other as well is no fork, and a copy of a file is the same day', () => {
	const folder = newPlace();
	const first = dayAt(folder, '2027-03-01');
	const second = dayAt(folder, '2027-03-02', [first]);
	dayAt(folder, '2027-03-03', [second, first]);
	writeFileSync(newDayPath(folder, { job, date: '2027-03-02' }), readFileSync(second.path));
	expect(forkOf(folder)).toBeNull();
});

test('days that do not say what they follow are no fork', () => {
	const folder = newPlace();
	for (const date of ['2027-03-01', '2027-03-02', '2027-03-02']) dayAt(folder, date);
	expect(forkOf(folder)).toBeNull();
});

const bare: Omit<Place, 'id' | 'of' | 'restsOn' | 'began'> = { ended: '', before: 0, after: 0, firsts: [] };

/** The days of one job as a tree: each rests on one before it, `under[n]` says on which. */
const tree = (under: readonly number[]) =>
	['0', ...under.map((_, nth) => String(nth + 1))].map((id, nth) => {
		const on = nth === 0 ? [] : [String((under[nth - 1] ?? 0) % nth)];
		return {
			place: { ...bare, id, of: nth === 0 ? null : '0', restsOn: on, began: '2027-03-01T08:00:00.000Z' },
		};
	});

test('of any days, given in any order, none stands before one it rests on, and a fork is found where two share one', () => {
	const any = fc.tuple(fc.array(fc.nat(20), { maxLength: 20 }), fc.infiniteStream(fc.nat()));
	fc.assert(
		fc.property(any, ([under, chance]) => {
			const days = tree(under);
			const mixed = days.map(day => ({ day, by: chance.next().value ?? 0 })).sort((a, b) => a.by - b.by);
			const rows = chainsOf(mixed.map(({ day }) => day));
			expect(rows.length).toBe(1);
			const line = (rows[0] ?? []).map(({ place }) => place.id);
			for (const { place } of days)
				for (const id of place.restsOn) expect(line.indexOf(id)).toBeLessThan(line.indexOf(place.id));
			const parents = days.flatMap(({ place }) => place.restsOn);
			expect(forkIn(rows[0] ?? []) !== null).toBe(new Set(parents).size < parents.length);
		}),
	);
});

test('no closed day is read to put a job in order, where what it teaches lies beside it', () => {
	const folder = newPlace();
	let last = dayAt(folder, '2027-01-01');
	for (let nth = 2; nth <= 30; nth++) {
		keepSums(last.path, readFileSync(last.path), []);
		last = dayAt(folder, `2027-01-${String(nth).padStart(2, '0')}`, [last]);
	}
	const read: string[] = [];
	const counting: FilePort = {
		...disk,
		read: path => {
			if (path.endsWith('.jsonl')) read.push(path);
			return disk.read(path);
		},
	};
	const days = daysOfJob(folder, job, counting);
	expect(days.map(({ path }) => path)[0]).toBe(last.path);
	expect(jobToGoOn(days)?.of).toBe(last.of);
	expect(read).toEqual([join(folder, last.path.slice(folder.length + 1))]);
});

test('a fork of another job of the name is not that of the newest', () => {
	const folder = newPlace();
	const first = dayAt(folder, '2027-03-01');
	dayAt(folder, '2027-03-02', [first]);
	dayAt(folder, '2027-03-03', [first]);
	expect(forkOf(folder)).not.toBeNull();
	dayAt(folder, '2027-03-04');
	const [newest] = daysOfJob(folder, job);
	expect(newest?.date).toBe('2027-03-04');
	expect(forkOf(folder)).toBeNull();
	expect(forkSaid([])).toBeNull();
});

test('a job of ten thousand days, all of them dated backwards, is put in order', () => {
	const days = tree(Array.from({ length: 10_000 }, (_, nth) => nth)).map(({ place }, nth) => ({
		place: { ...place, began: new Date(2e12 - nth * 1000).toISOString() },
	}));
	const [row] = chainsOf(days);
	expect(row?.map(({ place }) => Number(place.id))).toEqual(days.map((_, nth) => nth));
	expect(forkIn(row ?? [])).toBeNull();
});
