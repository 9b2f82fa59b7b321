import { crc32 } from 'node:zlib';
import { expect, test } from 'vitest';
import { encodeLine } from '../../../src/day/file/line.ts';
import { readDay } from '../../../src/day/file/read.ts';
import { readLight } from '../../../src/day/file/read-light.ts';
import type { DayRecord } from '../../../src/day/records.ts';
import { everyEvent, first, following, stamped } from './sample.ts';

const fileOf = (records: readonly DayRecord[]) => Buffer.concat(records.map(encodeLine));
const more = (record: DayRecord): DayRecord => ({ ...record, more: true });

/** Every type, with keys of one, two and three records. */
const whole: DayRecord[] = [
	first,
	...everyEvent.map((event, index) => {
		const record = stamped(event, index + 2, 1 + Math.floor(index / 12));
		const lastOfRun = (index + 1) % 12 === 0;
		return index % 4 < 2 && !lastOfRun && index < everyEvent.length - 1 ? more(record) : record;
	}),
];
const short = [first, ...following(2, 2), more(stamped({ type: 'trigger.on' }, 4)), ...following(5, 2, 1)];

/** Bytes at which a key's records are all there, and how many records that is. */
const keyEnds = (records: readonly DayRecord[]) => {
	let bytes = 0;
	const ends = [{ bytes, count: 0 }];
	for (const [index, record] of records.entries()) {
		bytes += encodeLine(record).length;
		if (!record.more) ends.push({ bytes, count: index + 1 });
	}
	return ends;
};

test('a whole file gives back every record', () => {
	const bytes = fileOf(whole);
	const read = readDay(bytes);
	expect(read).toEqual({
		records: whole,
		torn: null,
		damage: null,
		goodBytes: bytes.length,
		otherVersion: null,
	});
});

test('cut at any byte, a file gives the whole keys before the cut and a torn tail, never a wrong record', () => {
	const bytes = fileOf(whole);
	const ends = keyEnds(whole);
	for (let cut = 0; cut <= bytes.length; cut++) {
		const read = readDay(bytes.subarray(0, cut));
		const end = ends.findLast(({ bytes: at }) => at <= cut) ?? { bytes: 0, count: 0 };
		const torn = cut === end.bytes ? null : { bytes: cut - end.bytes, from: end.bytes };
		const { records, ...rest } = read;
		const found = { ...rest, last: records.at(-1), count: records.length };
		expect(found, `cut at ${cut}`).toEqual({
			torn,
			damage: null,
			goodBytes: end.bytes,
			otherVersion: null,
			last: whole[end.count - 1],
			count: end.count,
		});
	}
});

test('every single changed bit of a file is damage in its own line, and the keys before it are kept', () => {
	const bytes = fileOf(short);
	const ends = keyEnds(short);
	const lineStarts = [0, ...[...bytes.keys()].filter(at => bytes[at] === 10).map(at => at + 1)];
	for (let bit = 0; bit < bytes.length * 8; bit++) {
		const at = bit >> 3;
		bytes[at] = (bytes[at] ?? 0) ^ (1 << (bit & 7));
		const read = readDay(bytes);
		const line = lineStarts.findLastIndex(start => start <= at);
		const count = ends.findLast(({ bytes: end }) => end <= (lineStarts[line] ?? 0))?.count;
		const found = { line: read.damage?.line, torn: read.torn, count: read.records.length };
		if (found.line !== line + 1 || found.torn || found.count !== count)
			throw new Error(`bit ${bit} changed in line ${line + 1}: ${JSON.stringify(found)}`);
		if (readLight(bytes)) throw new Error(`bit ${bit} changed in line ${line + 1}: it is read all the same`);
		bytes[at] = (bytes[at] ?? 0) ^ (1 << (bit & 7));
	}
});

test('a bad last line that ends in LF is damage, not a torn tail', () => {
	const bytes = fileOf(short);
	const read = readDay(Buffer.concat([bytes, Buffer.from('0000')]));
	expect(read.torn).toEqual({ bytes: 4, from: bytes.length });
	expect(readDay(Buffer.concat([bytes, Buffer.from('0000\n')])).damage).toMatchObject({
		line: 7,
		byte: bytes.length,
	});
	expect(readDay(Buffer.concat([bytes, Buffer.alloc(4096)])).torn).toEqual({
		bytes: 4096,
		from: bytes.length,
	});
});

test('two faults at once, a changed LF before a torn tail, are still damage', () => {
	const bytes = fileOf(short).subarray(0, -20);
	const lf = bytes.lastIndexOf(10);
	bytes[lf] = 11;
	expect(readDay(bytes).damage).toMatchObject({ line: 5, what: 'its line end was changed' });
});

test('lines in another order, twice, or left out are damage', () => {
	const [a, b, c, , ...rest] = short;
	if (!a || !b || !c) throw new Error('the sample is too short');
	expect(readDay(fileOf([a, c, b])).damage).toMatchObject({
		line: 2,
		what: 'record 1 is followed by record 3',
	});
	expect(readDay(fileOf([a, b, b])).damage).toMatchObject({ line: 3 });
	expect(readDay(fileOf([a, b, c, ...rest])).damage).toMatchObject({ line: 4 });
	expect(readDay(fileOf([b, c])).damage).toMatchObject({
		line: 1,
		what: expect.stringContaining('day.opened'),
	});
	expect(readDay(fileOf([{ ...first, seq: 2 }])).damage).toMatchObject({ line: 1 });
	expect(readDay(fileOf([a, { ...first, seq: 2 }])).damage).toMatchObject({
		what: 'the day is opened twice',
	});
});

test('a run goes up between keys, never down and never inside a key', () => {
	const on = (seq: number, run: number) => stamped({ type: 'trigger.on' }, seq, run);
	expect(readDay(fileOf([first, on(2, 1), on(3, 4)])).damage).toBeNull();
	expect(readDay(fileOf([first, on(2, 3), on(3, 2)])).damage).toMatchObject({ line: 3 });
	expect(readDay(fileOf([first, more(on(2, 1)), on(3, 2)])).damage).toMatchObject({ line: 3 });
});

test('damage inside a key leaves none of that key', () => {
	const bytes = fileOf(short);
	const inKey = fileOf(short.slice(0, 4)).length + 12;
	bytes[inKey] = 0;
	expect(readDay(bytes)).toMatchObject({ damage: { line: 5 }, goodBytes: fileOf(short.slice(0, 3)).length });
	expect(readDay(bytes).records).toEqual(short.slice(0, 3));
});

const withVersion = (v: number) => {
	const json = JSON.stringify({ ...first, v });
	return Buffer.from(`${crc32(Buffer.from(json)).toString(16).padStart(8, '0')} ${json}\n`);
};

test('a file of another version is refused, with what to do', () => {
	expect(readDay(withVersion(3))).toMatchObject({
		records: [],
		otherVersion: 3,
		damage: { line: 1, what: expect.stringMatching(/version 3 .*newer fanwise/) },
	});
	expect(readDay(withVersion(0))).toMatchObject({
		otherVersion: 0,
		damage: { what: expect.stringMatching(/version 0 .*fanwise that wrote it/) },
	});
});

test('a file of version 1 is read as it stands', () => {
	const read = readDay(Buffer.concat([withVersion(1), fileOf(following(2, 1))]));
	expect(read).toMatchObject({ damage: null, records: [{ ...first, v: 1 }, ...following(2, 1)] });
});

test('a file that is no day file at all is damage in its first line, or torn', () => {
	expect(readDay(Buffer.from('a: 1\nb: 2\n')).damage).toMatchObject({ line: 1, byte: 0 });
	expect(readDay(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a])).damage).toMatchObject({ line: 1 });
	expect(readDay(Buffer.from('[['.repeat(500_000)))).toMatchObject({ records: [], torn: { from: 0 } });
	expect(readDay(new Uint8Array())).toMatchObject({ records: [], torn: null, damage: null });
});
