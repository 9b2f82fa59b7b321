import { lasts_h } from './process-clock.ts';

export type Does = 'wait' | 'spray' | 'scuff' | 'sand';
export type RecoatWindow = { does: Does; from_h: number; until_h: number | null };
export type RecoatRow = { from_C: number; to_C: number; windows: RecoatWindow[] };

/** From the one that a coat forgives most to the one that it forgives least. */
const care: readonly Does[] = ['spray', 'scuff', 'sand', 'wait'];

const end = (window: RecoatWindow): number => window.until_h ?? Number.POSITIVE_INFINITY;
const careOf = (does: Does): number => care.indexOf(does);
/** What an hour asks for: where windows lie over one another, what wants most care. */
const at = (windows: readonly RecoatWindow[], hour: number): Does => {
	const asked = windows.filter(window => hour >= window.from_h && hour < end(window));
	return care[Math.max(...asked.map(({ does }) => careOf(does)))] ?? 'wait';
};

/** Where rows disagree about an hour, the more careful of them counts. */
export function careful(rows: readonly Pick<RecoatRow, 'windows'>[]): RecoatWindow[] {
	const starts = rows.flatMap(row => row.windows.flatMap(window => [window.from_h, end(window)]));
	const hours = [...new Set([0, ...starts])].filter(Number.isFinite).sort((one, other) => one - other);
	const windows: RecoatWindow[] = [];
	for (const [index, from_h] of hours.entries()) {
		const asked = rows.map(row => careOf(at(row.windows, from_h)));
		const does = care[Math.max(...asked)] ?? 'wait';
		const until_h = hours[index + 1] ?? null;
		const last = windows.at(-1);
		if (last?.does === does) last.until_h = until_h;
		else windows.push({ does, from_h, until_h });
	}
	return windows;
}

/**
 * The row's hours carried to another temperature, each edge a clock by itself: what opens never sooner, what closes never
 * later than the row says. A window may lie anywhere between its edges and those behind and before them.
 */
function carried(row: RecoatRow, edge_C: number, surface_C: number, factorPer10C?: number): RecoatWindow[] {
	const windows = closed(row);
	const edges = windows.map(({ from_h: hours }, nth) => {
		if (hours === 0) return 0;
		const kind = opensAt(windows, nth) ? 'beginning' : 'end';
		return lasts_h({ kind, points: [{ at_C: edge_C, hours }], factorPer10C }, surface_C);
	});
	return spread(windows, edges);
}

/** The windows of a row without an end: past its last one it waits. */
export function closed({ windows }: RecoatRow): RecoatWindow[] {
	const last = windows.at(-1)?.until_h ?? null;
	return last === null ? windows : [...windows, { does: 'wait', from_h: last, until_h: null }];
}

/** Whether a window asks for less than the one before it: then its edge is a beginning, else an end. */
export const opensAt = (windows: readonly RecoatWindow[], nth: number): boolean =>
	careOf(windows[nth]?.does ?? 'wait') < careOf(windows[nth - 1]?.does ?? 'wait');

/** Windows whose edges came to lie elsewhere, each by itself: where they cross, the more careful counts. */
export const spread = (windows: readonly RecoatWindow[], edges_h: readonly number[]): RecoatWindow[] =>
	careful([
		{
			windows: windows.map(({ does }, nth) => ({
				does,
				from_h: Math.min(...edges_h.slice(nth)),
				until_h: nth === windows.length - 1 ? null : Math.max(...edges_h.slice(0, nth + 2)),
			})),
		},
	]);

/** Log-linear between the edges of two rows that have the same windows in the same order; undefined if not. */
function joined(cool: RecoatRow, warm: RecoatRow, surface_C: number): RecoatWindow[] | undefined {
	const share = (surface_C - cool.to_C) / (warm.from_C - cool.to_C);
	const same = (one: number | null, other: number | null) =>
		one === null || other === null || one === 0 || other === 0 ? one === other : true;
	const fits =
		cool.windows.length === warm.windows.length &&
		cool.windows.every((window, index) => {
			const other = warm.windows[index];
			return (
				other?.does === window.does &&
				same(window.from_h, other.from_h) &&
				same(window.until_h, other.until_h)
			);
		});
	if (!fits) return undefined;
	const mixed = (one: number, other: number) => (one === 0 ? 0 : one * (other / one) ** share);
	return cool.windows.map((window, index) => {
		const other = warm.windows[index] ?? window;
		const until_h =
			window.until_h === null || other.until_h === null ? null : mixed(window.until_h, other.until_h);
		return { does: window.does, from_h: mixed(window.from_h, other.from_h), until_h };
	});
}

/** On which side of all rows a surface lies; null: inside them, or between two of them. */
export function beyondRows(rows: readonly RecoatRow[], surface_C: number): 'above' | 'below' | null {
	if (rows.length === 0) return null;
	if (rows.every(({ to_C }) => to_C < surface_C)) return 'above';
	return rows.every(({ from_C }) => from_C > surface_C) ? 'below' : null;
}

/**
 * What a coat allows as time passes, at the highest surface temperature held an hour or more.
 * Inside a row: as the data sheet says; where rows meet or differ, the more careful of them. In a gap between rows: log-linear between
 * their edges. Outside all rows: a factor per 10 °C from the nearest edge, up to 20 K, and never to a shorter wait
 * nor to a later end than the nearest row has: what a warm surface shortens is not the sheet's word.
 * @param rows each with its range of °C and its windows in time order
 * @param factorPer10C 1 to 4, where the sheet has its own; left out: those of a beginning and of an end
 * @returns windows in hours after the coat, in time order; `until_h` null stays open
 * @throws RangeError for no rows, or past the limit
 * Source: the choice by highest temperature held, UFGS 09971 ¶3.7.1.4.
 */
export function recoatWindows(
	rows: readonly RecoatRow[],
	surface_C: number,
	factorPer10C?: number,
): RecoatWindow[] {
	const holding = rows.filter(row => surface_C >= row.from_C && surface_C <= row.to_C);
	const [first] = holding;
	if (first) return holding.length === 1 ? first.windows.map(window => ({ ...window })) : careful(holding);
	const cool = rows.filter(row => row.to_C < surface_C).sort((one, other) => other.to_C - one.to_C)[0];
	const warm = rows.filter(row => row.from_C > surface_C).sort((one, other) => one.from_C - other.from_C)[0];
	if (cool && warm) return joined(cool, warm, surface_C) ?? careful([cool, warm]);
	if (cool) return carried(cool, cool.to_C, surface_C, factorPer10C);
	if (warm) return carried(warm, warm.from_C, surface_C, factorPer10C);
	throw new RangeError('no recoat windows are given at any temperature: at least one row is needed');
}
