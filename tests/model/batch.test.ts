import { expect, test } from 'vitest';
import { batchWalk } from './alone.ts';
import type { BatchPair } from './day-key.ts';
import { orders, thinOrders } from './proofs.ts';
import { canReach } from './search.ts';

/** A batch alone, for every order of mixing that data sheets ask for, under everything that can be told of one. */

const mayBeUsed = ({ told: { unknown, stage } }: BatchPair) => !unknown && stage !== 'discarded';

test.each(orders)(
	'mixed as %s, %s, …: no batch is ready that was not read, stood and gone through in order',
	(...order) => {
		const { graph, broken, states } = batchWalk(order);
		expect(graph.whole).toBe(true);
		expect([...new Set(broken)]).toEqual([]);
		for (const { batch, told } of states.filter(
			({ batch }) => batch.matches('ready') || batch.matches('inCup'),
		)) {
			expect(told.inPot).toEqual(expect.arrayContaining(['base', 'hardener']));
			expect(told.open).toEqual([]);
			expect(batch.context.todo).toEqual([]);
		}
	},
);

test.each(orders)(
	'mixed as %s, %s, …: a batch whose contents are known comes to the cup, any other to the waste',
	(...order) => {
		const { graph, inCup, done, states } = batchWalk(order);
		const toCup = canReach(graph, inCup);
		const toWaste = canReach(graph, done);
		states.forEach((pair, index) => {
			expect(toCup[index] === 1, JSON.stringify([pair.batch.value, pair.told])).toBe(mayBeUsed(pair));
			expect(toWaste[index]).toBe(1);
		});
	},
);

test.each(thinOrders)(
	'a data sheet of %s and %s makes no batch: both base and hardener are read, or none is ready',
	(...order) => {
		const { broken, states } = batchWalk(order);
		expect(broken).toEqual([]);
		expect(states.filter(({ batch }) => batch.matches('ready') || batch.matches('inCup'))).toEqual([]);
	},
);
