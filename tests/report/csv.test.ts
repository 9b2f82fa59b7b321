import fc from 'fast-check';
import Papa from 'papaparse';
import { beforeAll, describe, expect, test } from 'vitest';
import { cell, csv, headsOf, rowsOf, sheetNames } from '../../src/report/csv.ts';
import { type Tables, tablesOf } from '../../src/report/tables/tables.ts';
import { rehearsed } from '../day/rehearsed.ts';
import { cartDay } from './cart-day.ts';
import { dayNamed, hostileNames, hostileText } from './hostile.ts';

const read = (text: string) => {
	const { data, errors } = Papa.parse<string[]>(text, { newline: '\r\n', delimiter: ',' });
	return { rows: data, errors };
};

describe('the tables of a day as a spreadsheet reads them', () => {
	let tables: Tables;
	beforeAll(async () => {
		tables = tablesOf(await cartDay());
	});

	test.each(sheetNames)('%s: every line has as many fields as the head line, and ends in CRLF', name => {
		const text = csv(tables, name);
		const { rows, errors } = read(text);
		expect(errors).toEqual([]);
		expect(text.endsWith('\r\n')).toBe(true);
		expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
		const [head, ...lines] = rows.slice(0, -1);
		expect(new Set(lines.map(line => line.length))).toEqual(new Set([head?.length]));
	});

	test.each(sheetNames)(
		'%s: every value of a row has its column, and an empty table keeps its heads',
		name => {
			for (const row of rowsOf(tables, name))
				expect(Object.keys(row).sort()).toEqual(headsOf(name).toSorted());
			const empty = tablesOf(rehearsed().records().slice(0, 1));
			// The figures of a day with nothing in it are nothing of each.
			const none = name === 'counts' ? rowsOf(empty, name).map(row => Object.values(row).join(',')) : [];
			expect(csv(empty, name)).toBe([headsOf(name).join(','), ...none, ''].join('\r\n'));
		},
	);

	test('a coat keeps its face, its times and its film', () => {
		const { rows } = read(csv(tables, 'coats'));
		const [head = [], ...lines] = rows;
		const slow = lines.find(
			line => line[head.indexOf('face')] === 'right door/outside' && line[head.indexOf('coat')] === '2',
		);
		const of = (name: string) => Number(slow?.[head.indexOf(name)]);
		expect(of('took_s')).toBe(40);
		expect(slow?.[head.indexOf('pace')]).toBe('slow');
		expect(of('laid_low_wet_um')).toBeLessThan(of('laid_wet_um'));
		expect(of('laid_wet_um')).toBeLessThan(of('laid_high_wet_um'));
	});
});

test.each([
	['=1+1', `"'=1+1"`],
	['+1', `"'+1"`],
	['-1', `"'-1"`],
	['@A1', `"'@A1"`],
	[' =1', `"' =1"`],
	['\t=1', '"<U+0009>=1"'],
	['\r=1', '"<U+000D>=1"'],
	['＝1', `"'＝1"`],
	['say "so"', '"say ""so"""'],
	['a,b', '"a,b"'],
])('text %j is written %s', (text, written) => {
	expect(cell(text)).toBe(written);
});

test('a number stays a number, below zero too, and what is not there is an empty field', () => {
	expect([cell(-2.5), cell(0), cell(null), cell(Number.NaN), cell(true)]).toEqual([
		'-2.5',
		'0',
		'',
		'',
		'yes',
	]);
});

test('no text becomes a formula, a second field or a second line', () => {
	fc.assert(
		fc.property(hostileText, hostileText, (one, other) => {
			const { rows, errors } = read(`${cell(one)},${cell(other)}\r\n`);
			expect(errors).toEqual([]);
			expect(rows[0]).toHaveLength(2);
			for (const field of rows[0] ?? []) expect(field).not.toMatch(/^\s*[=+\-@\t\r＝＋－＠]/);
		}),
		{ numRuns: 500 },
	);
});

test('hostile names leave every table of a day its shape', () => {
	fc.assert(
		fc.property(hostileNames, names => {
			const tables = tablesOf(dayNamed(names));
			for (const name of sheetNames) {
				const { rows, errors } = read(csv(tables, name));
				expect(errors).toEqual([]);
				expect(new Set(rows.slice(0, -1).map(row => row.length)).size).toBe(1);
			}
		}),
		{ numRuns: 40 },
	);
});
