import { describe, expect, test } from 'vitest';
import type { RecoatRow } from './day.ts';
import { slices } from './drift.ts';
import { carefulBy, type Past, type Piece } from './rows.ts';

const row = (from_C: number, to_C: number, opens: number, shuts: number): RecoatRow => ({
	from_C,
	to_C,
	windows: [
		{ does: 'wait', from_h: 0, until_h: opens },
		{ does: 'spray', from_h: opens, until_h: shuts },
		{ does: 'scuff', from_h: shuts, until_h: null },
	],
});

/** Polyurethane over polyurethane by UFGS 09971 ¶3.7.1.4, its °F turned into °C. */
const rows = [row(15.6, 21.1, 8, 48), row(21.7, 26.7, 6, 48), row(27.2, 32.2, 4, 36), row(32.8, 37.8, 3, 24)];
/** The least of an epoxy's data sheet, 6 h at 7 °C, 4 h at 20 °C, 3 h at 30 °C. */
const epoxy = [row(7, 7, 6, 90), row(20, 20, 4, 80), row(30, 30, 3, 60)];

const at = (hours: number, coldestC: number, warmestC = coldestC): Piece => ({ hours, coldestC, warmestC });
/** A past as it is known, by its pieces of time up to an hour; the last goes on. */
const known =
	(...pieces: [until_h: number, coldestC: number, warmestC?: number][]) =>
	(now_h: number): Past => {
		const lived = pieces.map(([until_h, coldestC, warmestC], n) => {
			const from_h = pieces[n - 1]?.[0] ?? 0;
			return at(Math.max(0, Math.min(until_h, now_h) - from_h), coldestC, warmestC);
		});
		const begun = lived.filter(({ hours }) => hours > 0);
		return { least: begun, most: begun, readC: Math.max(...begun.map(({ warmestC }) => warmestC)) };
	};
const steady = (at_C: number) => known([Infinity, at_C]);
/** A reading at the end of the coat, and none since. */
const unread = (at_C: number) => (now_h: number) => {
	const pieces = slices(0, now_h).map(({ long_h, off_K }) => at(long_h, at_C - off_K, at_C + off_K));
	return { least: pieces, most: pieces, readC: at_C };
};

/** The hours at which one window comes after another, to a second. */
function turns(table: RecoatRow[], past: (now_h: number) => Past, factor?: number): [string, number][] {
	const does = (now_h: number) => carefulBy(table, past(now_h), factor);
	const between = (from: number, to: number): number =>
		to - from < 1 / 3600
			? to
			: does((from + to) / 2) === does(from)
				? between((from + to) / 2, to)
				: between(from, (from + to) / 2);
	const steps = Array.from({ length: 20 * 60 }, (_, n) => (n + 1.37) / 20);
	return steps.flatMap((now_h): [string, number][] =>
		does(now_h) === does(now_h - 1 / 20) ? [] : [[does(now_h), between(now_h - 1 / 20, now_h)]],
	);
}
const near = (hours: number) => expect.closeTo(hours, 2);

describe('a table of several rows that tell the same windows', () => {
	test.each([
		[18, 8, 48],
		[24, 6, 48],
		[30, 4, 36],
		[35, 3, 24],
	])('at a steady %i °C it is its row: opens after %i h, shuts after %i h', (at_C, opens, shuts) => {
		expect(turns(rows, steady(at_C))).toEqual([
			['spray', near(opens)],
			['scuff', near(shuts)],
		]);
	});

	test('between two rows a gate lies on the logarithm between theirs', () => {
		// 6^0.4 · 4^0.6 and 48^0.4 · 36^0.6, for 27 °C between 26.7 and 27.2 °C.
		expect(turns(rows, steady(27))).toEqual([
			['spray', near(4.7043)],
			['scuff', near(40.39)],
		]);
	});

	test.each([
		[25, 3.46],
		[35, 3],
		[0, 9.75],
	])('rows of one temperature each, at %i °C: opens after %f h', (at_C, opens) => {
		expect(turns(epoxy, steady(at_C))[0]).toEqual(['spray', near(opens)]);
	});

	test('2 h at 20 °C and the rest at 7 °C: opens after 5 h', () => {
		expect(turns(epoxy, known([2, 20], [Infinity, 7]))[0]).toEqual(['spray', near(5)]);
	});

	test('20 °C read once and nothing since: opens after 4.23 h, for the surface may have cooled', () => {
		const [[does, opens] = ['', 0]] = turns(epoxy, unread(20));
		expect(does).toBe('spray');
		expect(Math.abs(opens - 4.23)).toBeLessThan(0.015);
	});

	test('62 °F for 2 h and then 95 °F: opens after 4.25 h, shuts after the 24 h of the highest reading', () => {
		expect(turns(rows, known([2, 16.67], [Infinity, 35]))).toEqual([
			['spray', near(4.25)],
			['scuff', near(24)],
		]);
	});

	test('an hour of heat between two cool readings uses up its share of the window, and not more', () => {
		// 47 h at 18 °C leave 1/48 of the window; 20 min at 35 °C, 1/72, and 1/144 of 48 h, 20 min, at 18 °C. The highest reading, 35 °C, is 24 h.
		const warm = known([47, 18], [47 + 1 / 3, 18, 35], [Infinity, 18]);
		const unheld = (now_h: number) => ({ ...warm(now_h), readC: 18 });
		expect(turns(rows, unheld)[1]).toEqual(['scuff', near(47 + 2 / 3)]);
		expect(turns(rows, warm)[1]).toEqual(['scuff', near(47)]);
	});

	test('where a surface may be cold or warm it opens by the cold and shuts by the warm', () => {
		expect(turns(rows, known([Infinity, 18, 30]))).toEqual([
			['spray', near(8)],
			['scuff', near(36)],
		]);
	});

	test('beyond the rows nothing is carried on to the unsafe side, and nothing at all past 20 °C', () => {
		const [opens, shuts] = turns(rows, steady(47.8));
		expect([opens, shuts]).toEqual([
			['spray', near(3)],
			['scuff', near(8)],
		]);
		expect(turns(rows, steady(47.8), 2)[1]).toEqual(['scuff', near(12)]);
		expect(turns(rows, steady(5.6))).toEqual([
			['spray', near(16)],
			['scuff', near(48)],
		]);
		expect(turns(rows, steady(-5))).toEqual([]);
		expect(turns(rows, steady(58))).toEqual([]);
	});

	test('the shortest time that the clocks leave opens it, the longest shuts it', () => {
		const unsure = (now_h: number): Past => ({
			least: [at(now_h / 2, 24)],
			most: [at(now_h, 24)],
			readC: 24,
		});
		expect(turns(rows, unsure)).toEqual([
			['spray', near(12)],
			['scuff', near(48)],
		]);
	});
});

describe('a table whose rows tell different windows', () => {
	const minutes = (from: [string, number][]) =>
		from.map(([does, from_min], n) => ({
			does,
			from_h: from_min / 60,
			until_h: (from[n + 1]?.[1] ?? Number.NaN) / 60 || null,
		}));
	const lifting = [
		{
			from_C: 12,
			to_C: 21,
			windows: minutes([
				['wait', 0],
				['spray', 24],
				['scuff', 120],
				['sand', 288],
			]),
		},
		{
			from_C: 22,
			to_C: 32,
			windows: minutes([
				['wait', 0],
				['spray', 12],
				['wait', 48],
				['spray', 108],
				['sand', 360],
			]),
		},
	];
	const told = (past: (now_h: number) => Past) =>
		turns(lifting, past).map(([does, hours]) => [does, Math.round(hours * 60)]);

	test('at a steady temperature inside one row it is that row', () => {
		expect(told(steady(20))).toEqual([
			['spray', 24],
			['scuff', 120],
			['sand', 288],
		]);
		expect(told(steady(26))).toEqual([
			['spray', 12],
			['wait', 48],
			['spray', 108],
			['sand', 360],
		]);
	});

	test('where both may hold, or it lies between them, the more careful of them holds', () => {
		const both = [
			['spray', 24],
			['wait', 48],
			['spray', 108],
			['scuff', 120],
			['sand', 288],
		];
		expect(told(known([Infinity, 20, 26]))).toEqual(both);
		expect(told(steady(21.5))).toEqual(both);
	});

	test('22 °C read once is its row for an hour, and after that also the colder one', () => {
		expect(told(unread(22))).toEqual([
			['spray', 12],
			['wait', 48],
			['spray', 108],
			['scuff', 120],
			['sand', 288],
		]);
	});

	test('a colder reading shuts again what had opened', () => {
		expect(told(known([0.25, 26], [Infinity, 18]))).toEqual([
			['spray', 12],
			['wait', 15],
			['spray', 24],
			['wait', 48],
			['spray', 108],
			['scuff', 120],
			['sand', 288],
		]);
	});
});
