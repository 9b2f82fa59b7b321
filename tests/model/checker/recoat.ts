import type { Material, RecoatRow, Span } from './day.ts';
import { hoursAt } from './points.ts';

/** Factor on a time given at `at_C` when it is `now_C`: it doubles (by `per10`) for every 10 °C colder. */
export const slower = (per10: number, at_C: number, now_C: number) => per10 ** ((at_C - now_C) / 10);

const strictness = ['spray', 'scuff', 'sand', 'wait'];
const strict = ({ does }: Span) => strictness.indexOf(does);

/**
 * A row beyond its temperatures, its times stretched by a factor: a gate that loosens never comes sooner than in the row, one
 * that tightens never later. An hour belongs to every window from the gate before the first still shut to the last one
 * passed, and the strictest of them holds.
 */
function beyond(row: Span[], factor: number): Span[] {
	const end = row.at(-1)?.until_h ?? null;
	const windows = end === null ? row : [...row, { does: 'wait', from_h: end, until_h: null }];
	const gates = windows.map((window, n) => {
		const before = windows[n - 1];
		const loosens = before !== undefined && strict(window) < strict(before);
		return window.from_h * (loosens ? Math.max(1, factor) : Math.min(1, factor));
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

/** Two rows as one that is open wherever any reading between them may be. */
function either(one: Span[], other: Span[]): Span[][] {
	const alike = one.length === other.length && one.every(({ does }, n) => does === other[n]?.does);
	if (!alike) return [one, other];
	const wide = one.map(({ does, from_h, until_h }, n) => {
		const beside = other[n] ?? { does, from_h, until_h };
		const shut = until_h === null || beside.until_h === null ? null : Math.max(until_h, beside.until_h);
		return { does, from_h: Math.min(from_h, beside.from_h), until_h: shut };
	});
	return [wide];
}

/**
 * The rows of a recoat table that may speak at a temperature: the row that holds it; between two rows anything
 * from one to the other; beyond the ends the outermost, its gates stretched by the material's factor the careful way.
 */
function rowsAt(rows: RecoatRow[], material: Material, surfaceC: number): Span[][] {
	const within = rows.filter(({ from_C, to_C }) => from_C <= surfaceC && surfaceC <= to_C);
	if (within.length > 0) return within.map(({ windows }) => windows);
	const below = rows.filter(({ to_C }) => to_C < surfaceC).sort((a, b) => b.to_C - a.to_C)[0];
	const above = rows.filter(({ from_C }) => from_C > surfaceC).sort((a, b) => a.from_C - b.from_C)[0];
	if (below && above) return either(below.windows, above.windows);
	if (below) return [beyond(below.windows, slower(material.factorPer10C, below.to_C, surfaceC))];
	return above ? [beyond(above.windows, slower(material.factorPer10C, above.from_C, surfaceC))] : [];
}

/** A coat that flashes: of which kind, and the lowest surface temperature read for it, by which its end may count. */
export type Flashing = { kind?: string | undefined; coldestC?: number };

/** The least that a coat flashes, and the most, h: by the points listed for its kind or its material, else by the one time given. */
export function flashAt(material: Material, surfaceC: number, { kind = '', coldestC = surfaceC }: Flashing) {
	const listed = material.coats?.[kind]?.flash ?? material.clocks?.flash;
	const carried = material.clocks?.factorPer10C;
	if (listed)
		return {
			least_h: hoursAt(listed.from, surfaceC, 'beginning', carried),
			most_h: listed.to && hoursAt(listed.to, coldestC, 'end', carried),
		};
	const factor = slower(material.factorPer10C, material.flash.at_C, surfaceC) / 60;
	const { min_min, max_min } = material.flash;
	return { least_h: min_min * factor, most_h: max_min === null ? null : max_min * factor };
}

/** Wet on wet: from the least flash until the most; without a most, until the table's first wait is over. */
function flashOf(material: Material, rows: Span[][], surfaceC: number, coat: Flashing): Span {
	const { least_h, most_h } = flashAt(material, surfaceC, coat);
	const firstWaits = rows.map(windows => (windows[0]?.does === 'wait' ? windows[0].until_h : null));
	const open =
		firstWaits.includes(null) || firstWaits.length === 0 ? null : Math.max(...firstWaits.map(Number));
	return { does: 'spray', from_h: least_h, until_h: most_h ?? open };
}

/**
 * What may be laid over a coat as hours pass, by the sheet alone; every reading of the table that it allows is
 * in the answer. Null where the sheet says nothing of this pair.
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
	const table = material.recoat.find(entry => entry.under === under)?.rows ?? [];
	const rows = rowsAt(table, material, surfaceC);
	const flash = wetOnWet && under === material.id ? [flashOf(material, rows, surfaceC, coat)] : [];
	const spans = [...flash, ...rows.flat()];
	return spans.length > 0 ? spans : null;
}
