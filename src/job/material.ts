import { paintLimits_C } from '../trade/air.ts';
import { amountOf, type Extra, extras, mixAmounts, mostBeside, reducerParts } from '../trade/mix.ts';
import { breathingOf } from './breathing.ts';
import type { Source } from './document.ts';
import { whole } from './fields.ts';
import type { FlashEntry } from './flash-keys.ts';
import { coatKindSchema, type FlashPoints, type Material } from './job.ts';
import { checkOrder, stirred } from './mix-order.ts';
import { clocksOf, flashPointsOf, flashTimesOf, lifeOf, standingOf_min } from './points.ts';
import { bandsOf } from './reducer-bands.ts';
import type { MaterialEntry, Named, Reducer } from './sheet.ts';
import { assumedOf, dryOf, flowCupOf, usual, usualOrder } from './usual.ts';
import { allows, recoatOf, windowsAt } from './windows.ts';

type Values = MaterialEntry['values'];

function partsOf({ parts, share }: Reducer, base: number, hardener: number): number {
	return parts ?? Number(reducerParts(share ?? 0, { base, hardener }).toPrecision(12));
}

/** More than twice base and hardener is not paint any more: complained of, and held there. */
function bounded(
	source: Source,
	parts: number,
	at: number,
	name: string,
	ratio: { base: number; hardener: number },
): number {
	const most = mostBeside(ratio);
	if (parts > most)
		source.fail(at, `${name}: found ${parts} parts; allowed: up to ${most}, twice base and hardener`);
	return Math.min(parts, most);
}

/** Parts of reducer from the third number of the ratio or from its own key, which must not both speak. */
function reducerOf(source: Source, entry: MaterialEntry): number | undefined {
	const { ratio, reducer } = entry.values;
	if (!ratio) return undefined;
	if (ratio.reducer === null && !entry.has('reducer')) {
		source.fail(entry.at, `${entry.name}, reducer is missing: write "reducer: 15%", "1 part" or "none"`);
		return undefined;
	}
	if (ratio.reducer !== null && entry.has('reducer'))
		source.fail(entry.place('reducer'), `${entry.name}, reducer: the ratio names it already; take one out`);
	const said = Array.isArray(reducer) ? reducer[0] : reducer;
	const parts = ratio.reducer ?? (said && partsOf(said, ratio.base, ratio.hardener));
	const at = entry.place(ratio.reducer === null ? 'reducer' : 'ratio');
	return parts === undefined ? undefined : bounded(source, parts, at, `${entry.name}, reducer`, ratio);
}

/** Parts of accelerator and flattener, of the few that have them. */
function extrasOf(source: Source, entry: MaterialEntry): Partial<Record<Extra, number>> {
	const { ratio } = entry.values;
	const own = extras.flatMap((extra): [Extra, number][] => {
		const parts = ratio?.[extra];
		return ratio && parts
			? [[extra, bounded(source, parts, entry.place('ratio'), `${entry.name}, ${extra}`, ratio)]]
			: [];
	});
	return Object.fromEntries(own);
}

function coatsOf(source: Source, entry: MaterialEntry, standard: number): Material['coats'] {
	const { coats, ratio, flash } = entry.values;
	const byKind = flash?.kinds;
	const found: Material['coats'] = {};
	if (!coats || !ratio) return found;
	for (const kind of coatKindSchema.options) {
		const coat = coats.values[kind];
		if (!coat?.values.film) continue;
		const { reducer } = coat.values;
		const own = reducer && partsOf(reducer, ratio.base, ratio.hardener);
		const parts =
			own === undefined
				? standard
				: bounded(source, own, coat.place('reducer'), `${coat.name}, reducer`, ratio);
		if (byKind && !coat.has('flash') && !byKind.has(kind))
			source.fail(byKind.at, `${byKind.name}, ${kind} is missing: write "${kind}: 15 min at 20 °C"`);
		const { aim_um, range_um } = coat.values.film.value;
		found[kind] = {
			dry_um: aim_um,
			...(range_um && { dryRange_um: range_um }),
			reducer_parts: parts,
			...flashOfKind(source, coat.values.flash ?? byKind?.values[kind]),
		};
	}
	if (!coatKindSchema.options.some(kind => coats.has(kind)))
		source.fail(coats.at, `${coats.name}: no kind of coat; allowed: ${coatKindSchema.options.join(', ')}`);
	return found;
}

function flashOfKind(source: Source, flash: FlashEntry | undefined): { flash?: FlashPoints } {
	const own = flash && flashPointsOf(source, flash);
	return own ? { flash: own } : {};
}

/** The wait between two wet coats must fall where the windows of the material over itself say spray. */
function checkFlash(source: Source, id: string, entry: MaterialEntry, recoat: Material['recoat']): void {
	const flash = entry.values.flash;
	const times = flash && flashTimesOf(flash);
	if (!flash || !times) return;
	const { from_s, to_s, at_C } = times;
	if (to_s !== null && to_s < from_s) return;
	const windows = windowsAt(
		recoat.find(({ under }) => under === id)?.rows ?? [],
		at_C,
		entry.values['time factor'],
	);
	if (windows && !allows(windows, ['spray'], from_s / 3600, to_s === null ? null : to_s / 3600))
		source.fail(
			flash.place('from'),
			`${flash.name}: no window of ${id} over ${id} says spray then; mend the flash or its recoat windows`,
		);
}

function densityOf(source: Source, entry: MaterialEntry, reduced: boolean): Material['density_kg_per_L'] {
	const { ratio, density } = entry.values;
	if (ratio?.by === 'weight' && !entry.has('density'))
		source.fail(entry.at, `${entry.name}, density is missing: a ratio by weight needs it for each can`);
	const wanted = [...(reduced ? ['reducer' as const] : []), ...extras.filter(extra => ratio?.[extra])];
	for (const beside of wanted)
		if (density && !density.has(beside))
			source.fail(density.at, `${density.name}, ${beside} is missing: write "${beside}: 0.87 kg/L"`);
	const { base, hardener, reducer = 1, ...others } = density?.values ?? {};
	const standIn = Object.fromEntries(extras.filter(extra => ratio?.[extra]).map(extra => [extra, 1]));
	return base && hardener ? { ...standIn, ...others, base, hardener, reducer } : null;
}

/** Solids of the mix without its reducer: as written, or worked out from those of each can. */
function solidsIn(
	source: Source,
	entry: MaterialEntry,
	density_kg_per_L: Material['density_kg_per_L'],
): { share: number; tolerance: number } | undefined {
	const { ratio, solids } = entry.values;
	if (!ratio || !solids) return undefined;
	const { mix, ...cans } = solids.values;
	const needed = (['base', 'hardener', ...extras] as const).filter(can => ratio[can]);
	if (mix) return mix;
	const lacking = needed.filter(can => !solids.has(can));
	for (const can of lacking)
		source.fail(
			solids.at,
			`${solids.name}, ${can} is missing: write "${can}: 50%", or the solids of the mix alone`,
		);
	if (needed.some(can => !cans[can]) || (ratio.by === 'weight' && !density_kg_per_L)) return undefined;
	const parts = mixAmounts({ ratio: { ...ratio, reducer: 0 }, make_mL: 1, by: ratio.by, density_kg_per_L });
	const mean = (of: 'share' | 'tolerance') =>
		needed.reduce((sum, can) => sum + amountOf(parts, can) * (cans[can]?.[of] ?? 0), 0);
	const share = mean('share');
	if (share >= 0.01) return { share, tolerance: mean('tolerance') };
	source.fail(solids.at, `${solids.name}: found next to none; allowed: 1% to 100% of the mix`);
	return undefined;
}

/**
 * Stands in for what could not be read, so that the rest of a sheet can still be checked: a sheet in which
 * anything is wrong never becomes a job.
 */
const stopgap = {
	isocyanate: true,
	'pot life': { at_C: 21, hours: 1 },
	standing: 0,
	...{ strainer: usual.strainer, 'wet edge': usual['wet edge'] },
	...{ 'wet the tip': usual['wet the tip'], flush: usual.flush },
} satisfies Partial<Values>;

function flashOf(flash: Values['flash']): Material['flash'] {
	const { from_s, to_s, at_C } = (flash && flashTimesOf(flash)) ?? { from_s: 60, to_s: null, at_C: 21 };
	return {
		min_min: from_s / 60,
		max_min: to_s === null ? null : to_s / 60,
		at_C,
		touch: flash?.values.touch ?? ['tacky', 'dry'],
	};
}

function limitsOf(limits: Values['limits']): Material['limits'] {
	const { air, surface, paint, humidity, 'over dew point': margin_C } = limits?.values ?? {};
	return {
		air_C: air ?? [0, 40],
		...(surface && { surface_C: surface }),
		...(paint && { paint_C: paint }),
		humidity_max: humidity ?? 0,
		margin_C: margin_C ?? usual.margin_C,
	};
}

function solventOf(solvent: Values['solvent']): Material['solvent'] {
	const { share, vapour, lel, limit } = solvent?.values ?? {};
	if (share === undefined || vapour === undefined || lel === undefined) return null;
	return { share_of_mix: share, vapour_m3_per_L: vapour, lel, ...(limit !== undefined && { limit }) };
}

function cupOf(cup: Values['cup']): Material['cup'] {
	const { kind, runs, at: at_C } = cup?.values ?? {};
	return kind && runs ? { kind, seconds: runs, ...(at_C !== undefined && { at_C }) } : null;
}

/** Seconds given for paint that may never be sprayed at that temperature can never be read. */
function checkCup(source: Source, cup: Values['cup'], { limits }: Values): void {
	const at_C = cup?.values.at;
	const [low, high] = paintLimits_C(limitsOf(limits));
	if (cup && limits && at_C !== undefined && (at_C < low || at_C > high))
		source.fail(
			cup.place('at'),
			`${cup.name}, at: its limits allow no paint of that temperature; mend one of them`,
		);
}

/** Reducer in parts, and whether any coat has some. */
function reducing(
	source: Source,
	entry: MaterialEntry,
): { parts: number; reduced: boolean; coats: Material['coats'] } {
	const parts = reducerOf(source, entry);
	const coats = coatsOf(source, entry, parts ?? 0);
	const reduced = (parts ?? 0) > 0 || Object.values(coats).some(coat => coat.reducer_parts > 0);
	if (parts !== undefined) checkOrder(source, entry, reduced);
	return { parts: parts ?? 0, reduced, coats };
}

/**
 * A material of the sheet in base units, checked against itself.
 * @returns undefined where its ratio, solids or sag limit could not be read; what is wrong has been said
 */
export function materialOf(
	sheet: Source,
	{ id, entry, from, changed = [] }: Named<MaterialEntry>,
): Material | undefined {
	const source = from ?? sheet;
	const { parts, reduced, coats } = reducing(source, entry);
	const recoat = recoatOf(source, id, entry);
	checkFlash(source, id, entry, recoat);
	const dry = dryOf(source, entry);
	const cup = flowCupOf(source, entry);
	checkCup(source, cup, entry.values);
	const clocks = clocksOf(source, entry, coats);
	const { reducers } = bandsOf(source, entry);
	const density = densityOf(source, entry, reduced);
	const breathing = breathingOf(source, entry);
	const beside = extrasOf(source, entry);
	const solids = solidsIn(source, entry, density);
	const essential = whole(entry.values, ['ratio', 'sags above']);
	if (!essential || !solids) return undefined;
	const read = { ...stopgap, ...essential };
	const has = {
		...{ reducer: reduced, standing: read.standing !== 0 },
		...{ strainer: read.strainer !== 'none', cup: cup !== undefined },
	};
	const order = read.order?.map(({ value }) => value) ?? usualOrder(has);
	const assumed = assumedOf(entry);
	return {
		id,
		name: read.name ?? id,
		isocyanate: read.isocyanate,
		breathing,
		ratio: { by: read.ratio.by, base: read.ratio.base, hardener: read.ratio.hardener, ...beside },
		reducer_parts: parts,
		...(reducers && { reducers }),
		density_kg_per_L: density,
		order: stirred(order),
		solids: solids.share,
		solids_tolerance: solids.tolerance,
		coats,
		sag_um: read['sags above'],
		potLife: lifeOf(read['pot life']),
		standing_min: standingOf_min(read.standing),
		strainer: read.strainer === 'none' ? null : read.strainer,
		flash: flashOf(read.flash),
		...(clocks && { clocks }),
		wetEdge_s: read['wet edge'],
		wetTip_min: read['wet the tip'] / 60,
		flush_min: read.flush / 60,
		recoat,
		...dry,
		grit: read.grit ?? null,
		cup: cupOf(cup),
		limits: limitsOf(read.limits),
		factorPer10C: read['time factor'] ?? 2,
		solvent: solventOf(read.solvent),
		...(assumed.length > 0 && { assumed }),
		...(changed.length > 0 && { changed: [...changed] }),
	};
}
