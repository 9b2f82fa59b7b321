import type { RecoatRow, Span } from './day.ts';
import { hoursAt, type Sort } from './points.ts';

const strictness = ['spray', 'scuff', 'sand', 'wait'];
/** How careful a window is: the higher, the less may be done in it. */
export const strict = (does: string) => strictness.indexOf(does);
/** The most careful of some windows. */
export const strictest = (windows: string[]) => strictness[Math.max(...windows.map(strict))] ?? 'wait';

/** A piece of time since a coat, and the surface temperatures between which it lay. */
export type Piece = { hours: number; coldestC: number; warmestC: number };
/** What a surface has been through since a coat: by the shortest time that the clocks leave, by the longest, and the highest temperature read. */
export type Past = { least: Piece[]; most: Piece[]; readC: number };

/** The windows of a row, and behind its last one a wait. */
function windowsOf({ windows }: RecoatRow): Span[] {
	const end = windows.at(-1)?.until_h ?? null;
	return end === null ? windows : [...windows, { does: 'wait', from_h: end, until_h: null }];
}
const wording = (row: RecoatRow) =>
	windowsOf(row)
		.map(({ does }) => does)
		.join();
const sortOf = (windows: Span[], n: number): Sort =>
	strict(windows[n]?.does ?? '') < strict(windows[n - 1]?.does ?? '') ? 'beginning' : 'end';

/** Hours of the nth window's gate at a temperature by rows that tell the same windows: one figure inside a row, between and beyond them as by points. */
function gateAt(rows: RecoatRow[], n: number, sort: Sort, at_C: number, factor?: number): number {
	const hours = (row: RecoatRow) => windowsOf(row)[n]?.from_h ?? 0;
	const holding = rows.filter(({ from_C, to_C }) => from_C <= at_C && at_C <= to_C).map(hours);
	if (holding.length > 0) return sort === 'end' ? Math.min(...holding) : Math.max(...holding);
	const points = rows.flatMap(row =>
		[row.from_C, row.to_C].map(edge_C => ({ at_C: edge_C, hours: hours(row) })),
	);
	return hoursAt(points, at_C, sort, factor);
}

/** The window that counts, where not every gate need have been passed in its order: of all from the gate before the first still shut to the last one passed, the strictest. */
function windowBy(windows: Span[], isPassed: (n: number, sort: Sort) => boolean): string {
	const passed = windows.map((_, n) => n === 0 || isPassed(n, sortOf(windows, n)));
	const last = passed.lastIndexOf(true);
	const shut = passed.indexOf(false);
	const may = windows.slice(shut < 0 ? last : Math.min(shut - 1, last), last + 1);
	return strictest(may.map(({ does }) => does));
}

/** Rows that tell the same windows, each gate a clock of its own: a beginning by the coldest, an end by the warmest or by the highest reading held, whichever is sooner. */
function byClocks(rows: RecoatRow[], { least, most, readC }: Past, factor?: number): string {
	const [first] = rows;
	if (!first) return 'wait';
	const used = (n: number, sort: Sort) =>
		(sort === 'end' ? most : least).reduce((sum, { hours, coldestC, warmestC }) => {
			const gate_h = gateAt(rows, n, sort, sort === 'end' ? warmestC : coldestC, factor);
			return sum + (hours > 0 ? hours / gate_h : 0);
		}, 0);
	const passed_h = most.reduce((sum, { hours }) => sum + hours, 0);
	return windowBy(windowsOf(first), (n, sort) => {
		const isByReading = sort === 'end' && passed_h >= gateAt(rows, n, sort, readC, factor);
		return isByReading || used(n, sort) >= 1 - 1e-9;
	});
}

/** The rows of a table that speak at one temperature, each group by itself; between two that tell different windows both, as at their edges. */
function speaking(rows: RecoatRow[], at_C: number): { group: RecoatRow[]; at_C: number }[] {
	const holding = rows.filter(({ from_C, to_C }) => from_C <= at_C && at_C <= to_C);
	if (holding.length > 0) return holding.map(row => ({ group: [row], at_C }));
	const below = rows.filter(({ to_C }) => to_C < at_C).sort((a, b) => b.to_C - a.to_C)[0];
	const above = rows.filter(({ from_C }) => from_C > at_C).sort((a, b) => a.from_C - b.from_C)[0];
	if (!below || !above) return [below, above].flatMap(row => (row ? [{ group: [row], at_C }] : []));
	if (wording(below) === wording(above)) return [{ group: [below, above], at_C }];
	return [
		{ group: [below], at_C: below.to_C },
		{ group: [above], at_C: above.from_C },
	];
}

/** Temperatures from one to another, close enough together that no gate lies between two of them. */
const step_K = 0.5;
const temperatures = (from_C: number, to_C: number) => [
	...Array.from({ length: Math.max(1, Math.ceil((to_C - from_C) / step_K)) }, (_, n) => from_C + n * step_K),
	to_C,
];

/** The windows that a table tells of a coat so old, h, each at one of the temperatures from one to another, held. */
export function windowsHeld(
	rows: RecoatRow[],
	[from_C, to_C]: [number, number],
	{ least_h, most_h }: { least_h: number; most_h: number },
	factor?: number,
): string[] {
	const edges = rows
		.flatMap(row => [row.from_C, row.to_C])
		.filter(edge_C => from_C < edge_C && edge_C < to_C);
	return [...temperatures(from_C, to_C), ...edges].flatMap(temperature_C =>
		speaking(rows, temperature_C).map(({ group, at_C }) =>
			windowBy(group[0] ? windowsOf(group[0]) : [], (n, sort) => {
				const gate_h = gateAt(group, n, sort, at_C, factor);
				return sort === 'end' ? most_h >= gate_h : least_h >= gate_h;
			}),
		),
	);
}

/** Hours of some pieces of time. */
const hoursOf = (pieces: Piece[]) => pieces.reduce((sum, { hours }) => sum + hours, 0);

/**
 * The window that a table of several rows leaves a coat in: where its rows tell the same windows by the clock of each gate, where
 * they tell different ones the most careful of all temperatures that the surface can have had.
 */
export function carefulBy(rows: RecoatRow[], past: Past, factor?: number): string {
	if (new Set(rows.map(wording)).size <= 1) return byClocks(rows, past, factor);
	const all = [...past.least, ...past.most];
	const span: [number, number] = [
		Math.min(past.readC, ...all.map(({ coldestC }) => coldestC)),
		Math.max(past.readC, ...all.map(({ warmestC }) => warmestC)),
	];
	return strictest(
		windowsHeld(rows, span, { least_h: hoursOf(past.least), most_h: hoursOf(past.most) }, factor),
	);
}
