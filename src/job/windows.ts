import { recoatWindows } from '../trade/recoat.ts';
import { guessLimit_K } from '../trade/time.ts';
import type { Source } from './document.ts';
import type { Entry } from './fields.ts';
import { type Material, type RecoatRow, type Window, windowSchema } from './job.ts';
import { itself, type RowEntry, type windowShape } from './recoat-keys.ts';
import type { MaterialEntry } from './sheet.ts';

type WindowEntry = Entry<typeof windowShape>;
type Spell = RecoatRow['windows'][number];

const hours = (seconds: number): number => Number((seconds / 3600).toPrecision(12));

function spellOf(source: Source, entry: WindowEntry): Spell | undefined {
	const named = windowSchema.options.filter(option => entry.has(option));
	const [does] = named;
	if (!does || named.length > 1) {
		source.fail(entry.at, `${entry.name}: one of ${windowSchema.options.join(', ')} is wanted in each line`);
		return undefined;
	}
	const span = entry.values[does];
	return (
		span && { does, from_h: hours(span.from_s), until_h: span.until_s === null ? null : hours(span.until_s) }
	);
}

/** What is wrong with a window after one that ended at `last` hours; undefined: nothing. */
function wrongAfter(last: number | null, { from_h }: Spell): string | undefined {
	if (last === null) return 'follows a window without an end; put it before';
	if (from_h < last) return `begins at ${from_h} h, before the one above it ends at ${last} h`;
	if (from_h > last) return `nothing is said of ${last} h to ${from_h} h; add a line for it`;
	return undefined;
}

/** Windows follow one another from 0 h on, without a gap and without an overlap. */
function checkOrder(
	source: Source,
	entries: WindowEntry[],
	spells: (Spell | undefined)[],
	name: string,
): void {
	let last: number | null = 0;
	for (const [index, spell] of spells.entries()) {
		const wrong = spell && wrongAfter(last, spell);
		if (wrong) source.fail(entries[index]?.at ?? 0, `${name}: ${wrong}`);
		if (!spell || wrong) break;
		last = spell.until_h;
	}
}

function rowOf(source: Source, entry: RowEntry): RecoatRow | undefined {
	const { surface, windows } = entry.values;
	const spells = windows?.map(one => spellOf(source, one));
	if (!surface || !windows || !spells) return undefined;
	checkOrder(source, windows, spells, `${entry.name}, windows`);
	return { from_C: surface[0], to_C: surface[1], windows: spells.filter(spell => spell !== undefined) };
}

/** Rows for one material under must not claim the same temperature twice. */
function checkRows(source: Source, rows: { row: RecoatRow; at: number; name: string }[]): void {
	const rising = rows.toSorted((a, b) => a.row.from_C - b.row.from_C);
	for (const [index, { row, at, name }] of rising.entries()) {
		const before = rising[index - 1];
		if (before && row.from_C < before.row.to_C)
			source.fail(
				at,
				`${name}: its surface temperatures overlap those of another line for the same material under`,
			);
	}
}

/**
 * Recoat windows of a material, by the material under it.
 * Windows out of order, overlapping or with a gap, and rows that overlap, are complained of.
 */
export function recoatOf(source: Source, id: string, entry: MaterialEntry): Material['recoat'] {
	const by = new Map<string, { row: RecoatRow; at: number; name: string }[]>();
	for (const one of entry.values.recoat ?? []) {
		const row = rowOf(source, one);
		const over = one.values.over?.value;
		if (!row || over === undefined) continue;
		const under = over === itself ? id : over;
		by.set(under, [...(by.get(under) ?? []), { row, at: one.at, name: one.name }]);
	}
	for (const rows of by.values()) checkRows(source, rows);
	return [...by].map(([under, rows]) => ({ under, rows: rows.map(({ row }) => row) }));
}

/** A row may call what lies under by the name of a material that the job has, as well as by what sheets call it. */
export function overByName(material: Material, materials: ReadonlyMap<string, Material>): Material {
	const own = new Set(material.recoat.map(({ under }) => under));
	const recoat = material.recoat.map(row => {
		const named = materials.has(row.under)
			? undefined
			: [...materials.values()].find(({ name }) => name === row.under);
		return named && !own.has(named.id) ? { ...row, under: named.id } : row;
	});
	return { ...material, recoat };
}

/** The windows at a surface temperature; undefined where none are given, or none within reach of it. */
export function windowsAt(
	rows: readonly RecoatRow[],
	surface_C: number,
	factorPer10C?: number,
): readonly Spell[] | undefined {
	const gap = ({ from_C, to_C }: RecoatRow) => Math.max(from_C - surface_C, surface_C - to_C);
	const within = rows.filter(row => gap(row) <= guessLimit_K);
	return within.length === 0 ? undefined : recoatWindows(within, surface_C, factorPer10C);
}

/** Whether something is allowed at some moment between two, in hours; `until_h` null: from then on. */
export function allows(
	windows: readonly Spell[],
	does: readonly Window[],
	from_h: number,
	until_h: number | null,
): boolean {
	return windows.some(
		spell =>
			does.includes(spell.does) &&
			(spell.until_h ?? Number.POSITIVE_INFINITY) > from_h &&
			spell.from_h <= (until_h ?? Number.POSITIVE_INFINITY),
	);
}
