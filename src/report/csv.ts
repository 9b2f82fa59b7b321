import { extrasWritten } from '../trade/ratio.ts';
import { plain } from './said.ts';
import type { Tables } from './tables/tables.ts';

/** A cell as text goes into a file that a spreadsheet may open; null is an empty cell. */
export type Cell = string | number | boolean | null;
type Sheet = Record<string, Cell>[];

const formula = /^\s*[=+\-@＝＋－＠]/;

/**
 * A cell by RFC 4180. Text is always quoted; what a spreadsheet would take for a formula gets an apostrophe before
 * it; control characters, tab and line ends among them, are shown and not written.
 */
export function cell(value: Cell): string {
	if (value === null) return '';
	if (typeof value === 'number') return Number.isFinite(value) ? String(value) : '';
	if (typeof value === 'boolean') return value ? 'yes' : 'no';
	const shown = plain(value);
	return `"${(formula.test(shown) ? `'${shown}` : shown).replaceAll('"', '""')}"`;
}

const many = (list: readonly string[]): string => list.join('; ');

/** The tables that a file may hold, flat: keys are the column heads and end in their unit. */
const sheets = {
	coats: tables =>
		tables.coats.map(({ passes, cup, overrides, pulled, ...row }) => {
			const film = tables.film.find(({ face, coat }) => face === row.face && coat === row.coat);
			return {
				...row,
				cup: many(cup),
				overrides: many(overrides),
				passes: passes.length,
				target_wet_um: film?.target_wet_um ?? null,
				laid_wet_um: film?.laid_wet_um ?? null,
				laid_low_wet_um: film?.laid_low_wet_um ?? null,
				laid_high_wet_um: film?.laid_high_wet_um ?? null,
				sag_um: film?.sag_um ?? null,
				pace: film?.pace ?? null,
				against_target: film?.against_target ?? null,
				against_by: film?.against_by ?? null,
				build_target_dry_um: film?.build_target_dry_um ?? null,
				build_dry_um: film?.build_dry_um ?? null,
			};
		}),
	windows: tables =>
		tables.windows.flatMap(({ face, coat, ended, surface_C, windows, next, last }) =>
			windows.map(({ does, from, until }) => ({
				face,
				coat,
				ended,
				surface_C,
				does,
				from,
				until,
				in_force: last,
				next_coat_began: next?.began ?? null,
			})),
		),
	due: tables => tables.due.map(row => ({ ...row })),
	batches: tables =>
		tables.batches.map(({ pours, loads, cup, ratio, discarded, ...row }) => ({
			...row,
			ratio: `${ratio.base}:${ratio.hardener}:${ratio.reducer}${extrasWritten(ratio)}`,
			cup_s: cup?.seconds ?? null,
			cup_temp_C: cup?.temp_C ?? null,
			cup_fits: cup?.fits ?? null,
			loads: loads.length,
			discarded: discarded?.at ?? null,
			why: discarded?.why ?? null,
		})),
	pours: tables => tables.batches.flatMap(({ pours }) => pours.map(pour => ({ ...pour }))),
	readings: tables =>
		tables.differed.map(({ wanted, after, ...row }) => ({
			...row,
			wanted: Array.isArray(wanted) ? many(wanted) : wanted,
			after_at: after?.at ?? null,
			after_value: after?.value ?? null,
			after_matched: after?.matched ?? null,
		})),
	checks: tables =>
		tables.checks.map(({ readings, ...row }) => ({
			...row,
			readings: many(readings.map(({ feature, value }) => `${feature} ${value}`)),
		})),
	overrides: tables => tables.overrides.map(row => ({ ...row })),
	air: tables => tables.air.map(row => ({ ...row, reasons: many(row.reasons) })),
	breaks: tables => tables.breaks.map(({ also, ...row }) => ({ ...row, also: many(also) })),
	faults: tables => tables.faults.map(row => ({ ...row })),
	work: tables => tables.work.map(row => ({ ...row })),
	counts: tables => [{ ...tables.counts }],
} satisfies Record<string, (tables: Tables) => Sheet>;

export type SheetName = keyof typeof sheets;
export const sheetNames = Object.keys(sheets) as SheetName[];
export const isSheetName = (name: string): name is SheetName => Object.hasOwn(sheets, name);

/** Column heads, the same whether or not there is a row. */
const heads: Record<SheetName, string> = {
	coats:
		'face coat stage material kind stroke horns began ended took_s should_s extent estimated late check window air_C humidity surface_C cup overrides passes target_wet_um laid_wet_um laid_low_wet_um laid_high_wet_um sag_um pace against_target against_by build_target_dry_um build_dry_um',
	windows: 'face coat ended surface_C does from until in_force next_coat_began',
	due: 'face what stage at until',
	batches:
		'batch material started by make_mL hardened stood ready volume_mL lives_until emptied ratio cup_s cup_temp_C cup_fits loads discarded why',
	pours: 'at batch component can level_mL wanted_mL mass_g wanted_g found again',
	readings: 'at feature value face coat batch attempt wanted after_at after_value after_matched',
	checks: 'check size face coat began passed took_s breathing readings',
	overrides: 'at rule reason face coat',
	air: 'at air_C humidity surface_C dew_point_C margin_C spray reasons',
	breaks: 'began ended lasted_s kind also by',
	faults: 'at fault face coat gun remedy',
	work: 'at face coat did detail',
	counts:
		'coats_on coats_planned coats_laid faces_sprayed coats_in_part sprayed_s first_readings first_differed breaks broken_off_s checks_passed overrides faults batches films_worked_out films_read films_over films_under',
};
/** The columns of a table, in order. */
export const headsOf = (name: SheetName): string[] => heads[name].split(' ');

/** The rows of a table, flat. */
export const rowsOf = (tables: Tables, name: SheetName): Sheet => sheets[name](tables);

/**
 * One table of a day as comma-separated values: a head line, CRLF at each line's end.
 * Source: RFC 4180.
 */
export function csv(tables: Tables, name: SheetName): string {
	const rows = rowsOf(tables, name);
	const columns = headsOf(name);
	const lines = rows.map(row => columns.map(head => cell(row[head] ?? null)).join(','));
	return [columns.join(','), ...lines, ''].join('\r\n');
}
