import type { Component } from '../../job/job.ts';
import { grams, levels, mixAmounts, pourOrder, rescaleForOver } from '../../trade/mix.ts';
import { fromUnit, inUnit, type Quantity } from '../../trade/quantity.ts';
import { entryUnit } from '../../trade/shown.ts';
import type { BatchBook } from '../book.ts';
import { type Moment, materialOf, settingsOf, unitsOf } from '../moment.ts';
import type { Prompt, Reply } from '../prompt.ts';

/** Which level the pot should show, and how far the one read is off. */

type Lot = Pick<BatchBook, 'ratio' | 'by' | 'make_mL' | 'material'>;

/** Parts that the batch is made of, in the unit it is poured in. */
function wholeOf(moment: Moment, { ratio, by, make_mL, material }: Lot): Record<Component, number> {
	const { density_kg_per_L } = materialOf(moment, material);
	const amounts = mixAmounts({ ratio, make_mL, by, density_kg_per_L });
	if (by === 'weight' && density_kg_per_L) return grams(amounts, density_kg_per_L);
	return { base: amounts.base_mL, hardener: amounts.hardener_mL, reducer: amounts.reducer_mL };
}

export const sum = (parts: Partial<Record<Component, number>>) =>
	Object.values(parts).reduce((total, part) => total + part, 0);

/** The level or weight that the pot should show once a component is in, going by what is in it already. */
export function wantedLevel(moment: Moment, batch: BatchBook, component: Component): number {
	const whole = wholeOf(moment, batch);
	const order: Component[] = ['base', 'hardener', 'reducer'];
	if (sum(batch.amounts) === 0) return levels(whole, [component])[0]?.level ?? 0;
	const { total, ratio } = rescaleForOver(batch.ratio, batch.amounts, sum(whole), order);
	const share = ratio[component] / sum(ratio);
	const missing = Math.max(0, share * total - (batch.amounts[component] ?? 0));
	return batch.level + missing;
}

export const kindOf = ({ by }: Pick<BatchBook, 'by'>): Quantity => (by === 'weight' ? 'mass' : 'volume');
export const levelField = (batch: BatchBook, level: number) =>
	batch.by === 'weight' ? { mass_g: level } : { level_mL: level };

/** One step of what can be keyed, in mL or g. */
function stepOf(moment: Moment, batch: Pick<BatchBook, 'by'>): number {
	const { symbol, step } = entryUnit(kindOf(batch), unitsOf(moment));
	return fromUnit(step, kindOf(batch), symbol);
}

/** By how much two readings of one level may differ. */
export const slackOf = (moment: Moment, batch: BatchBook): number =>
	Math.max(settingsOf(moment).pourTolerance * batch.level, stepOf(moment, batch) / 2 + 1e-9, 1);

/** More of a part than this no pour may be off by, unless it cannot be keyed any closer. */
const coarse = 0.05;

/**
 * By how much a pour may be off: a share of all that is wanted of the component; a mark of the pot beside it where
 * that is still within 5 %, for no eye reads closer.
 */
export function pourSlack(moment: Moment, batch: BatchBook, component: Component, wanted: number): number {
	const part = (batch.amounts[component] ?? 0) + wanted - batch.level;
	const step = stepOf(moment, batch) + 1e-9;
	return Math.max(settingsOf(moment).pourTolerance * part, Math.min(step, coarse * part), step / 2);
}

/** Some of a component is wanted, and none of it is in. */
const isFirst = (batch: BatchBook, component: Component, wanted: number): boolean =>
	wanted > batch.level && (batch.amounts[component] ?? 0) === 0;

/** Wrong by less than can be keyed is right; a level that has not risen is no pour, however little was wanted. */
export function compare(
	moment: Moment,
	batch: BatchBook,
	component: Component,
	level: number,
): 'short' | 'right' | 'over' {
	const wanted = wantedLevel(moment, batch, component);
	if (isFirst(batch, component, wanted) && level <= batch.level) return 'short';
	const slack = pourSlack(moment, batch, component, wanted);
	return level < wanted - slack ? 'short' : level > wanted + slack ? 'over' : 'right';
}

/** The level told: at the least one step above what the pot shows, where anything is to go in. */
export function levelTold(moment: Moment, batch: BatchBook, component: Component): number {
	const wanted = wantedLevel(moment, batch, component);
	return isFirst(batch, component, wanted) ? Math.max(wanted, batch.level + stepOf(moment, batch)) : wanted;
}

/** A part of a batch that is too little for the marks, so that its ratio cannot be read off, in mL or g; null: none is. */
export function littlePart(moment: Moment, lot: Lot): { component: Component; amount: number } | null {
	const half = stepOf(moment, lot) / 2;
	const whole = wholeOf(moment, lot);
	const parts = pourOrder.map(component => ({ component, amount: whole[component] }));
	return parts.find(({ amount }) => amount > 0 && half > coarse * amount) ?? null;
}

export function numberOf(
	moment: Moment,
	batch: BatchBook,
	reply: (level: number) => Reply,
	least = 0,
): NonNullable<Prompt['number']> {
	const kind = kindOf(batch);
	const { unit, symbol, step } = entryUnit(kind, unitsOf(moment));
	return {
		of: batch.by === 'weight' ? 'mass_g' : 'level_mL',
		unit,
		min: Math.floor(inUnit(least, kind, symbol)),
		max: Math.ceil(inUnit(50_000, kind, symbol)),
		step,
		reply: value => reply(fromUnit(value, kind, symbol)),
	};
}
