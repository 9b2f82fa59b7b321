import type { Material, RecoatRow, Span } from './day.ts';
import { factorOf, hoursAt } from './points.ts';

/** Factor on a time given at `at_C` when it is `now_C`: it doubles (by `per10`) for every 10 °C colder. */
export const slower = (per10: number, at_C: number, now_C: number) => per10 ** ((at_C - now_C) / 10);

const strictness = ['spray', 'scuff', 'sand', 'wait'];
const strict = ({ does }: Span) => strictness.indexOf(does);

/**
 * A row beyond its temperatures, each of its gates a clock of one point: one that loosens never comes sooner than in the row,
 * one that tightens never later. An hour belongs to every window from the gate before the first still shut to the last one
 * passed, and the strictest of them holds.
 */
function beyond(row: Span[], at_C: number, now_C: number, factor?: number): Span[] {
	const end = row.at(-1)?.until_h ?? null;
	const windows = end === null ? row : [...row, { does: 'wait', from_h: end, until_h: null }];
	const gates = windows.map((window, n) => {
		const before = windows[n - 1];
		const loosens = before !== undefined && strict(window) < strict(before);
		const point = [{ at_C, hours: window.from_h }];
		return hoursAt(point, now_C, loosens ? 'beginning' : 'end', factor);
	});
	const hours = [...new Set([0, ...gates])].sort((a, b) => a - b);
	return hours.map((from_h, n) => {
		const shut = gates.findIndex(gate => gate > from_h);
		const passed = gates.findLastIndex(gate => gate <= from_h);
		const may = windows.slice(shut < 0 ? passed : Math.min(shut - 1, passed), passed + 1);
		const does = strictness[Math.max(...may.map(strict))] ?? 'wait';
		return { does, from_h, until_h: hours[n + 1] ?? null };
	});
}

/** The one row of a recoat table at a temperature, beyond its own its gates carried the careful way. */
function rowAt({ from_C, to_C, windows }: RecoatRow, material: Material, surfaceC: number): Span[] {
	if (surfaceC > to_C) return beyond(windows, to_C, surfaceC, factorOf(material));
	return surfaceC < from_C ? beyond(windows, from_C, surfaceC, factorOf(material)) : windows;
}

/** The rows of the sheet for a coat over another. */
export const rowsOver = (material: Material, under: string): RecoatRow[] =>
	material.recoat.find(entry => entry.under === under)?.rows ?? [];

/** A coat that flashes: of which kind, and the lowest surface temperature read for it, by which its end may count. */
export type Flashing = { kind?: string | undefined; coldestC?: number };

/**
 * The least that a coat flashes, and the most, h: by the points listed for its kind or its material, else by the one time
 * given, which is one point: warmth shortens no least, cold lengthens no most; else a factor carries it.
 */
export function flashAt(material: Material, surfaceC: number, { kind = '', coldestC = surfaceC }: Flashing) {
	const listed = material.coats?.[kind]?.flash ?? material.clocks?.flash;
	const carried = factorOf(material);
	if (listed)
		return {
			least_h: hoursAt(listed.from, surfaceC, 'beginning', carried),
			most_h: listed.to && hoursAt(listed.to, coldestC, 'end', carried),
		};
	const { min_min, max_min, at_C } = material.flash;
	return {
		least_h: hoursAt([{ at_C, hours: min_min / 60 }], surfaceC, 'beginning', carried),
		most_h: max_min === null ? null : hoursAt([{ at_C, hours: max_min / 60 }], surfaceC, 'end', carried),
	};
}

/**
 * Wet on wet: from the least flash until the most, and where there is no table sanded after that; without a most, until the
 * table's first wait is over.
 */
function flashOf(material: Material, rows: Span[][], surfaceC: number, coat: Flashing): Span[] {
	const { least_h, most_h } = flashAt(material, surfaceC, coat);
	const firstWaits = rows.map(windows => (windows[0]?.does === 'wait' ? windows[0].until_h : null));
	const open =
		firstWaits.includes(null) || firstWaits.length === 0 ? null : Math.max(...firstWaits.map(Number));
	const wet = { does: 'spray', from_h: least_h, until_h: most_h ?? open };
	if (most_h === null || rows.length > 0) return [wet];
	return [wet, { does: 'sand', from_h: Math.max(least_h, most_h), until_h: null }];
}

/**
 * What may be laid over a coat as hours pass, by the flash and by a table of one row. Null where the sheet says nothing of
 * this pair.
 * @param wetOnWet both coats belong to one stage, so the flash rule holds too
 * @param coat the coat under, which flashes
 */
export function spansOver(
	material: Material,
	under: string,
	surfaceC: number,
	wetOnWet: boolean,
	coat: Flashing = {},
): Span[] | null {
	const table = rowsOver(material, under);
	const rows = table.map(row => rowAt(row, material, surfaceC));
	const flash = wetOnWet && under === material.id ? flashOf(material, rows, surfaceC, coat) : [];
	const spans = table.length === 1 ? [...flash, ...rows.flat()] : flash;
	return spans.length > 0 || table.length > 1 ? spans : null;
}
