import type { Component } from '../../job/job.ts';
import { grams, levels, mixAmounts, rescaleForOver } from '../../trade/mix.ts';
import { fromUnit, inUnit, type Quantity } from '../../trade/quantity.ts';
import { entryUnit } from '../../trade/shown.ts';
import type { BatchBook } from '../book.ts';
import { type Moment, materialOf, settingsOf, unitsOf } from '../moment.ts';
import type { Prompt, Reply } from '../prompt.ts';

/** Which level the pot should show, and how far the one read is off. */

/** Parts that the batch is made of, in the unit it is poured in. */
function wholeOf(moment: Moment, { ratio, by, make_mL, material }: BatchBook): Record<Component, number> {
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

export const kindOf = (batch: BatchBook): Quantity => (batch.by === 'weight' ? 'mass' : 'volume');
export const levelField = (batch: BatchBook, level: number) =>
	batch.by === 'weight' ? { mass_g: level } : { level_mL: level };

/** By how much a level read may differ from another: at the least half a step of what can be keyed. */
export function slackOf(moment: Moment, batch: BatchBook, level: number): number {
	const { symbol, step } = entryUnit(kindOf(batch), unitsOf(moment));
	return Math.max(
		settingsOf(moment).pourTolerance * level,
		fromUnit(step / 2, kindOf(batch), symbol) + 1e-9,
		1,
	);
}

/** Wrong by less than the marks show is right. */
export function compare(
	moment: Moment,
	batch: BatchBook,
	level: number,
	wanted: number,
): 'short' | 'right' | 'over' {
	const slack = slackOf(moment, batch, wanted);
	return level < wanted - slack ? 'short' : level > wanted + slack ? 'over' : 'right';
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
