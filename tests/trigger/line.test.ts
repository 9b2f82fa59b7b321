import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lineCutter, parsePull, pullLine } from '../../src/trigger/line.ts';

test('a line is on or off, with its time where it was recorded', () => {
	expect(parsePull('{"trigger":"on"}')).toEqual({ on: true, after_ms: null });
	expect(parsePull(' {"trigger":"off","gun":2} ')).toEqual({ on: false, after_ms: null });
	expect(parsePull(pullLine(true, 1234.4, '2027-03-02T08:00:01.234Z'))).toEqual({ on: true, after_ms: 1234 });
});

test('anything else is no line', () => {
	for (const line of [
		...['', 'on', '[]', 'null', '{}', '{"trigger":true}', '{"trigger":"ON"}', '{"trigger":"on"', '"on"'],
		...[
			'{"trigger":"on","after_ms":-1}',
			'{"trigger":"on","after_ms":"5"}',
			'{"trigger":"on","after_ms":1e999}',
		],
	])
		expect([line, parsePull(line)]).toEqual([line, null]);
});

test('no line of any kind throws', () => {
	fc.assert(
		fc.property(fc.oneof(fc.string(), fc.json()), line => {
			const read = parsePull(line);
			expect(read === null || typeof read.on === 'boolean').toBe(true);
		}),
	);
});

test('wherever the bytes are cut, the lines are the same', () => {
	fc.assert(
		fc.property(
			fc.array(fc.string({ maxLength: 12, unit: 'grapheme' })),
			fc.array(fc.nat(30)),
			(given, cuts) => {
				const lines = given.map(line => line.replace(/[\r\n]/g, ''));
				const bytes = Buffer.from(lines.map(line => `${line}\n`).join(''));
				const cut: string[] = [];
				const take = lineCutter(line => cut.push(line));
				let at = 0;
				for (const size of [...cuts, bytes.length]) {
					take(bytes.subarray(at, at + size));
					at += size;
				}
				expect(cut).toEqual(lines.filter(line => line.trim() !== ''));
			},
		),
	);
});

test('a line without an end is handed on once and its rest dropped; the next line is whole again', () => {
	const cut: string[] = [];
	const take = lineCutter(line => cut.push(line));
	for (let count = 0; count < 100; count++) take(Buffer.from('x'.repeat(500)));
	expect(cut).toHaveLength(1);
	take(Buffer.from('x\n{"trigger":"on"}\n'));
	expect(cut.slice(1)).toEqual(['{"trigger":"on"}']);
});
