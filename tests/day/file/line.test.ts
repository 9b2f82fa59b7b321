import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decodeLine, encodeLine, lostItsEnd } from '../../../src/day/file/line.ts';
import type { DayRecord } from '../../../src/day/records.ts';
import { everyEvent, everyType, first, opened, sheet, stamped } from './sample.ts';

const all = [opened, ...everyEvent].map((event, index) => stamped(event, index + 1));
const body = (line: Uint8Array) => line.subarray(0, -1);
const isBad = (bytes: Uint8Array) => 'bad' in decodeLine(bytes);

/** CRC-32 as ISO 3309 and RFC 1952 §8 define it, bit by bit: polynomial 0xEDB88320, reflected. */
const plainCrc32 = (bytes: Uint8Array): string => {
	let sum = 0xffffffff;
	for (const byte of bytes) {
		sum ^= byte;
		for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
	}
	return ((sum ^ 0xffffffff) >>> 0).toString(16).padStart(8, '0');
};
const sealed = (json: string) => Buffer.from(`${plainCrc32(Buffer.from(json))} ${json}`);

test('the sample holds every type of record there is', () => {
	expect([opened, ...everyEvent].map(event => event.type).sort()).toEqual([...everyType].sort());
});

test('a line is the checksum of its JSON as published, a space, the JSON and LF', () => {
	expect(plainCrc32(Buffer.from('123456789'))).toBe('cbf43926');
	for (const record of all) {
		const text = Buffer.from(encodeLine(record)).toString('utf8');
		const json = text.slice(9, -1);
		expect(text).toBe(`${plainCrc32(Buffer.from(json))} ${json}\n`);
		expect(JSON.parse(json)).toEqual(record);
	}
});

test('every type of record comes back as it was', () => {
	for (const record of all) expect(decodeLine(body(encodeLine(record)))).toEqual({ record });
});

test('any words and any numbers come back as they were', () => {
	const any = fc.record({
		reason: fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: 'grapheme' })),
		volume_mL: fc.double({ noNaN: true, noDefaultInfinity: true, min: 0 }),
	});
	fc.assert(
		fc.property(any, ({ reason, volume_mL }) => {
			const record = stamped({ type: 'cup.emptied', volume_mL: volume_mL + 0, why: reason }, 2);
			expect(decodeLine(body(encodeLine(record)))).toEqual({ record });
		}),
	);
});

test('names that mean something to the language are names like any other', () => {
	for (const name of ['__proto__', 'constructor', 'toString', 'hasOwnProperty']) {
		const event = { ...opened, job: name, sheet: { ...sheet, name, parts: [{ name, place: null }] } };
		const record = stamped(event, 1);
		expect(decodeLine(body(encodeLine(record)))).toEqual({ record });
	}
	const crafted =
		'{"seq":2,"run":1,"at":"2027-03-02T08:00:02.000Z","mono":2000,"type":"trigger.on","__proto__":{"more":true}}';
	expect(decodeLine(sealed(crafted))).toHaveProperty('bad');
});

test('every single changed bit of every type of line is found', () => {
	for (const record of all) {
		const line = Buffer.from(body(encodeLine(record)));
		for (let bit = 0; bit < line.length * 8; bit++) {
			const mask = 1 << (bit & 7);
			line[bit >> 3] = (line[bit >> 3] ?? 0) ^ mask;
			if (!isBad(line)) throw new Error(`${record.type}: bit ${bit} of the line was changed and not found`);
			line[bit >> 3] = (line[bit >> 3] ?? 0) ^ mask;
		}
	}
});

test('the same record spelt another way is damage, however well its checksum fits', () => {
	const json = Buffer.from(body(encodeLine(stamped({ type: 'trigger.on' }, 2))))
		.toString('utf8')
		.slice(9);
	expect(isBad(sealed(json))).toBe(false);
	const spellings = [
		` ${json}`,
		`${json} `,
		`${json}\r`,
		`${json}\u0000`,
		`\ufeff${json}`,
		json.replace(':', ': '),
		json.replace('"seq":2', '"seq":2.0'),
		json.replace('"seq":2', '"seq":1,"seq":2'),
		json.replace('trigger', '\\u0074rigger'),
	];
	for (const spelling of spellings) expect(decodeLine(sealed(spelling)), spelling).toHaveProperty('bad');
});

test('a checksum in capitals, without its space, or bytes that are no UTF-8, are damage', () => {
	const line = Buffer.from(body(encodeLine(first))).toString('utf8');
	expect(isBad(Buffer.from(line.slice(0, 8).toUpperCase() + line.slice(8)))).toBe(
		/[a-f]/.test(line.slice(0, 8)),
	);
	expect(isBad(Buffer.from(line.replace(' ', '\t')))).toBe(true);
	expect(isBad(Buffer.from(line.replace(' ', '')))).toBe(true);
	const broken = Buffer.from(
		body(encodeLine(stamped({ type: 'cup.emptied', volume_mL: 1, why: '~' }, 2))),
	).subarray(9);
	broken[broken.indexOf('~')] = 0xff;
	expect(isBad(Buffer.concat([Buffer.from(`${plainCrc32(broken)} `), broken]))).toBe(true);
	for (const short of ['', '0', '00000000', '00000000 ']) expect(isBad(Buffer.from(short)), short).toBe(true);
});

test('a field that no record of its type has, or one missing, is damage', () => {
	const stamp = '"seq":2,"run":1,"at":"2027-03-02T08:00:02.000Z","mono":2000';
	const bad = [
		`{${stamp},"type":"trigger.on","extra":1}`,
		`{${stamp},"type":"face.late","face":"canopy rail/top"}`,
		`{${stamp},"type":"no.such"}`,
		`{${stamp.replace('.000Z', 'Z')},"type":"trigger.on"}`,
		`{${stamp.replace('"seq":2', '"seq":0')},"type":"trigger.on"}`,
		`{${stamp},"more":false,"type":"trigger.on"}`,
		'[]',
		'null',
	];
	for (const json of bad) expect(decodeLine(sealed(json)), json).toHaveProperty('bad');
});

test('what is wrong with a field is said in words of this program', () => {
	const stamp = '"run":1,"at":"2027-03-02T08:00:02.000Z","mono":2000';
	const said = {
		[`{"seq":"x",${stamp},"type":"trigger.on"}`]: 'seq: a number is wanted',
		[`{"seq":0,${stamp},"type":"trigger.on"}`]: 'seq: too small',
		[`{"seq":2,${stamp},"type":"trigger.on","extra":1}`]: 'fields: no such record has "extra"',
		[`{"seq":2,${stamp},"type":"break.began","kind":"nap","by":"painter"}`]:
			'kind: none of what may stand here',
		[`{"seq":2,${stamp},"type":"face.late","face":"a/b"}`]: 'coat: a number is wanted',
	};
	for (const [json, bad] of Object.entries(said)) expect(decodeLine(sealed(json))).toEqual({ bad });
});

test('a record that could not be read again is refused before it is written', () => {
	const withVolume = (volume_mL: number): DayRecord =>
		stamped({ type: 'cup.emptied', volume_mL, why: 'flush' }, 2);
	for (const volume of [Number.NaN, Number.POSITIVE_INFINITY, -1])
		expect(() => encodeLine(withVolume(volume)), String(volume)).toThrow(
			/record 2 \(cup.emptied\).*volume_mL/,
		);
	expect(decodeLine(body(encodeLine(withVolume(1e308))))).toEqual({ record: withVolume(1e308) });
	expect(decodeLine(body(encodeLine(withVolume(-0))))).toEqual({ record: withVolume(0) });
});

test('a whole line with something behind it has lost its end, a line cut short has not', () => {
	const line = Buffer.from(encodeLine(stamped({ type: 'trigger.on' }, 2)));
	for (let length = 0; length < line.length; length++)
		expect(lostItsEnd(line.subarray(0, length))).toBe(false);
	for (const byte of ['\v', '\u0000', 'x', '}'])
		expect(lostItsEnd(Buffer.concat([body(line), Buffer.from(byte)]))).toBe(true);
	expect(lostItsEnd(Buffer.concat([body(line), Buffer.from('J'), line.subarray(0, 30)]))).toBe(true);
});
