import type { Component } from '../../job/job.ts';
import { markFor, mostOff } from '../../trade/marks.ts';
import { missingOf, partsPoured, pourOrder, sumOf } from '../../trade/mix.ts';
import { fromUnit, inUnit, type Quantity } from '../../trade/quantity.ts';
import { entryStep, entryUnit } from '../../trade/shown.ts';
import type { BatchBook } from '../book.ts';
import { type Moment, materialOf, settingsOf, unitsOf } from '../moment.ts';
import type { Prompt, Reply } from '../prompt.ts';
import { isBelieved } from './doubted.ts';

/** Which level the pot should show, and how far the one read is off. */

type Lot = Pick<BatchBook, 'ratio' | 'by' | 'make_mL' | 'material'> & { finer?: boolean };

/** Parts that the batch is made of, in the unit it is poured in. */
const wholeOf = (moment: Moment, { material, ...lot }: Lot) =>
	partsPoured({ ...lot, density_kg_per_L: materialOf(moment, material).density_kg_per_L });

/** The whole batch as it was begun, in the unit it is poured in. */
export const plannedOf = (moment: Moment, batch: BatchBook): number => sumOf(wholeOf(moment, batch));

/** The level or weight that the pot should show once a component is in, going by what is in it already. */
export const wantedLevel = (moment: Moment, batch: BatchBook, component: Component): number =>
	batch.level + missingOf(batch.ratio, plannedOf(moment, batch), batch.amounts, component);

export const kindOf = ({ by }: Pick<BatchBook, 'by'>): Quantity => (by === 'weight' ? 'mass' : 'volume');
export const levelField = (batch: BatchBook, level: number) =>
	batch.by === 'weight' ? { mass_g: level } : { level_mL: level };

/** Into how many a painter who has them divides the marks of a pot. */
export const finely = 10;

/** The unit that a level is keyed in, and one mark of the pot in it. */
function marksOf(moment: Moment, lot: Pick<Lot, 'by' | 'finer'>) {
	const asked = entryUnit(kindOf(lot), unitsOf(moment));
	return lot.finer ? { ...asked, step: asked.step / finely } : asked;
}

/** One mark of the pot, or one digit of the scale, in mL or g. */
function stepOf(moment: Moment, lot: Pick<Lot, 'by' | 'finer'>): number {
	return entryStep(kindOf(lot), unitsOf(moment)) / (lot.finer ? finely : 1);
}

/** A level read, in the unit it was keyed in: it may lie between two marks. */
export const asRead = (moment: Moment, batch: BatchBook, level: number): number =>
	Number(inUnit(level, kindOf(batch), marksOf(moment, batch).symbol).toFixed(3));

/** A level to the mark, in the unit it is keyed in. */
export function toMark(moment: Moment, batch: BatchBook, level: number): { to: number; unit: string } {
	const { unit, symbol, step } = marksOf(moment, batch);
	return {
		to: Number((Math.round(inUnit(level, kindOf(batch), symbol) / step) * step).toFixed(3)),
		unit,
	};
}

/** By how much two readings of one level may differ. */
export const slackOf = (moment: Moment, batch: BatchBook): number =>
	Math.max(settingsOf(moment).pourTolerance * batch.level, stepOf(moment, batch) / 2 + 1e-9, 1);

/** All of a component that goes in, whatever of it is in already. */
const partOf = (batch: BatchBook, component: Component, wanted: number): number =>
	(batch.amounts[component] ?? 0) + wanted - batch.level;

/**
 * By how much a pour may be off: a share of all that is wanted of the component; a mark of the pot beside it, for no
 * eye reads closer, but never more than 5 % of the part.
 */
export function pourSlack(moment: Moment, batch: BatchBook, component: Component, wanted: number): number {
	const part = partOf(batch, component, wanted);
	return (
		Math.max(settingsOf(moment).pourTolerance * part, Math.min(stepOf(moment, batch), mostOff * part)) + 1e-9
	);
}

/** Some of a component is wanted, and none of it is in. */
const isFirst = (batch: BatchBook, component: Component, wanted: number): boolean =>
	wanted > batch.level && (batch.amounts[component] ?? 0) === 0;

/** A level that has not risen is no pour, however little was wanted. */
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

/** The level told is a mark, and never one that would be found short: the other parts can be made to fit more. */
export function levelTold(moment: Moment, batch: BatchBook, component: Component): number {
	const wanted = wantedLevel(moment, batch, component);
	return markFor(wanted, stepOf(moment, batch), partOf(batch, component, wanted));
}

/**
 * Three marks among which the one told stands, in their order and in the unit on the screen: the level before this pour,
 * and one beside it that no right pour shows.
 * @param isAbove the latter is looked for above the one told
 * @returns null where they are not three: then the figure is keyed
 */
export function linesOf(
	moment: Moment,
	batch: BatchBook,
	component: Component,
	isAbove: boolean,
): [number, number, number] | null {
	const mark = stepOf(moment, batch);
	const told = levelTold(moment, batch, component);
	/** Lines of a cup lie so far apart that an eye tells them: a tenth of the pour. */
	const apart = Math.max(1, Math.round((told - batch.level) / 10 / mark)) * mark;
	const isWrong = (level: number) => compare(moment, batch, component, level) !== 'right';
	if (isWrong(told)) return null;
	const next = (by: number): number => {
		let level = told + by;
		while (!isWrong(level)) level += by;
		return level;
	};
	const below = next(-apart);
	const other = isAbove || below <= batch.level + mark ? next(apart) : below;
	const lines = [batch.level, told, other]
		.map(level => toMark(moment, batch, level).to)
		.sort((a, b) => a - b);
	const [first, second, third] = [...new Set(lines)];
	return first === undefined || second === undefined || third === undefined ? null : [first, second, third];
}

/** A part of a batch that is too little for the marks, so that half of one is over 5 % of it, in mL or g; null: none is. */
export function littlePart(moment: Moment, lot: Lot): { component: Component; amount: number } | null {
	const half = stepOf(moment, lot) / 2;
	const whole = wholeOf(moment, lot);
	const parts = pourOrder.map(component => ({ component, amount: whole[component] ?? 0 }));
	return parts.find(({ amount }) => amount > 0 && half > mostOff * amount) ?? null;
}

/**
 * A level in the unit on the screen that can hardly be meant; one that has not risen is no slip.
 * @param least the lowest that is to be looked for, mL or g
 * @param most the highest, likewise
 */
export function isSlip(
	moment: Moment,
	batch: BatchBook,
	value: number,
	least: number,
	most = least,
): boolean {
	const level = fromUnit(value, kindOf(batch), marksOf(moment, batch).symbol);
	const isMeant = isBelieved(level, Math.min(Math.max(level, least), most));
	return level !== batch.level && !isMeant;
}

export function numberOf(
	moment: Moment,
	batch: BatchBook,
	reply: (level: number) => Reply,
	least = 0,
): NonNullable<Prompt['number']> {
	const kind = kindOf(batch);
	const { unit, symbol, step } = marksOf(moment, batch);
	return {
		of: batch.by === 'weight' ? 'mass_g' : 'level_mL',
		unit,
		min: Math.floor(inUnit(least, kind, symbol)),
		max: Math.ceil(inUnit(50_000, kind, symbol)),
		step,
		reply: value => reply(fromUnit(value, kind, symbol)),
	};
}
