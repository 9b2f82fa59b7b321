import type { Component } from '../job/job.ts';
import type { BatchBook } from './book.ts';
import type { Instant } from './instant.ts';
import type { EventOf } from './records.ts';

/** What the readings of a pot say of the batch in it. */

type Opened = Pick<EventOf<'day.opened'>, 'cans'>;

/** A pot stands there: half mixed, or with more than a drop of paint left in it. */
export const hasPot = ({ pot_mL }: BatchBook): boolean => pot_mL === null || pot_mL > 0.5;

/** The mark read on a can: once the hardener is in the hand, it can go in at any moment. */
export function canTaken(
	batch: BatchBook,
	{ feature, value, matched }: EventOf<'reading.taken'>,
	{ cans }: Opened,
	at: Instant,
): Partial<BatchBook> {
	if (feature !== 'can' || !matched) return {};
	const can = cans.find(({ mark, material }) => mark === value && material === batch.material);
	return can?.component === 'hardener' ? { inHandSince: batch.inHandSince ?? at } : {};
}

const levelOf = (record: { level_mL?: number | undefined; mass_g?: number | undefined }) =>
	record.level_mL ?? record.mass_g ?? 0;

/** What is in the pot once a level of this component was read, in the unit it was poured in. */
export const amountsAt = (
	{ amounts, level: before }: Pick<BatchBook, 'amounts' | 'level'>,
	component: Component,
	level: number,
): BatchBook['amounts'] => ({
	...amounts,
	[component]: (amounts[component] ?? 0) + Math.max(0, level - before),
});

/** A level read: by so much more of a component is in, and the can is put down. Hardener counts from its can in the hand. */
export function levelRead(
	batch: BatchBook,
	record: EventOf<'batch.poured'> | EventOf<'batch.found'>,
	at: Instant,
): Partial<BatchBook> {
	const { component, found } = record;
	if (found === 'before') return { inHandSince: null };
	if (found === 'unknown') return {};
	const level = levelOf(record);
	return {
		amounts: amountsAt(batch, component, level),
		level,
		hardened: component === 'hardener' ? (batch.hardened ?? batch.inHandSince ?? at) : batch.hardened,
		inHandSince: null,
	};
}
