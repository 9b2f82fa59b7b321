import { and, assign, not, setup, stateIn } from 'xstate';
import type { DayEvent } from '../src/day/records.ts';
import type { Component, MixStep } from '../src/job/job.ts';

export type BatchInput = { material: string; order: readonly MixStep[] };

type BatchContext = {
	material: string;
	/** Steps as the data sheet orders them. */
	order: readonly MixStep[];
	/** Steps still to do, the present one first. */
	todo: readonly MixStep[];
	/** Components whose level was read; what the pot holds. */
	poured: readonly Component[];
	/** The can in hand was read for the present pour. */
	inHand: boolean;
	/** What was passed over with a reason, which marks what is sprayed from it: its flow cup seconds, the marks of its pot. */
	passedOver: readonly string[];
};

const pours: readonly (MixStep | undefined)[] = ['base', 'hardener', 'reducer', 'accelerator', 'flattener'];
export const isPour = (step: MixStep | undefined): step is Component => pours.includes(step);

/** What an event says of the level of the pour in hand, if it says anything of it. */
function foundOf({ todo }: BatchContext, event: DayEvent) {
	return 'component' in event && event.component === todo[0] ? event.found : null;
}

/**
 * After too much of one, what is in the pot already is topped up to the larger batch, in the order of the data sheet;
 * the stirring of the base in its can, before the first pour, is over.
 */
function afterOver({ order, todo }: BatchContext): MixStep[] {
	const [over, ...rest] = todo;
	return order
		.slice(order.findIndex(isPour))
		.filter(step => step !== over && (rest.includes(step) || isPour(step)))
		.filter((step, index, all) => step !== 'stir' || all[index - 1] !== 'stir');
}

/**
 * One mixed lot, from the first can to the last drop. Each pour is two readings: the mark on the can in the hand,
 * then the level reached. A break asks for the level before anything else.
 */
export const batchMachine = setup({
	types: { context: {} as BatchContext, events: {} as DayEvent, input: {} as BatchInput },
	guards: {
		stirs: ({ context }) => context.todo[0] === 'stir',
		pours: ({ context }) => isPour(context.todo[0]),
		stands: ({ context }) => context.todo[0] === 'stand',
		strains: ({ context }) => context.todo[0] === 'strain',
		timesCup: ({ context }) => context.todo[0] === 'cup',
		isThisStep: ({ context, event }) => event.type === 'batch.stepped' && event.step === context.todo[0],
		rightCan: ({ event }) => event.type === 'reading.taken' && event.feature === 'can' && event.matched,
		right: ({ context, event }) => foundOf(context, event) === 'right',
		over: ({ context, event }) => foundOf(context, event) === 'over',
		short: ({ context, event }) => foundOf(context, event) === 'short',
		unchanged: ({ event }) => event.type === 'batch.found' && event.found === 'before',
		canWasRead: ({ context }) => context.inHand,
		onlyBase: ({ context }) =>
			context.todo[0] === 'base' && context.poured.every(component => component === 'base'),
		potIsEmpty: ({ context }) => context.poured.length === 0,
		stoodLongEnough: ({ event }) => event.type === 'batch.stood' && event.facts?.stood === true,
		fits: ({ event }) => event.type === 'cup.timed' && event.fits,
		overridesCup: ({ event }) => event.type === 'override.given' && event.rule === 'cup',
		/** Before the first step: what is read by which marks is settled once for all pours. */
		overridesMarks: ({ context: { order, todo, passedOver }, event }) =>
			event.type === 'override.given' &&
			event.rule === 'marks' &&
			todo.length === order.length &&
			passedOver.length === 0,
		bothRead: ({ context }) => context.poured.includes('base') && context.poured.includes('hardener'),
	},
	actions: {
		passOver: assign({
			passedOver: ({ context, event }) =>
				event.type === 'override.given' ? [...context.passedOver, event.rule] : context.passedOver,
		}),
		takeCan: assign({ inHand: true }),
		putCanDown: assign({ inHand: false }),
		stepDone: assign(({ context }) => ({ todo: context.todo.slice(1), inHand: false })),
		noteLevel: assign({
			poured: ({ context: { poured, todo } }) => [
				...new Set([...poured, ...todo.slice(0, 1).filter(isPour)]),
			],
		}),
		makeLarger: assign(({ context }) => ({ todo: afterOver(context), inHand: false })),
	},
}).createMachine({
	id: 'batch',
	context: ({ input: { material, order } }) => ({
		material,
		order,
		todo: order,
		poured: [],
		inHand: false,
		passedOver: [],
	}),
	initial: 'next',
	on: {
		'batch.discarded': { guard: not(stateIn('#batch.inCup')), target: '.discarded' },
		'override.given': { guard: 'overridesMarks', actions: 'passOver' },
	},
	states: {
		next: {
			always: [
				{ guard: 'stirs', target: 'stir' },
				{ guard: 'pours', target: 'can' },
				{ guard: 'stands', target: 'standing' },
				{ guard: 'strains', target: 'strain' },
				{ guard: 'timesCup', target: 'cup' },
				{ target: 'mixed' },
			],
		},
		stir: {
			on: {
				'batch.stepped': { guard: 'isThisStep', target: 'next', actions: 'stepDone' },
				'break.began': [{ guard: 'potIsEmpty' }, { target: 'adrift' }],
			},
		},
		can: {
			on: {
				'reading.taken': { guard: 'rightCan', target: 'level', actions: 'takeCan' },
				'break.began': [{ guard: 'potIsEmpty' }, { target: 'adrift' }],
			},
		},
		level: {
			on: {
				'batch.poured': [
					{ guard: 'right', target: 'next', actions: ['noteLevel', 'stepDone'] },
					{ guard: 'over', target: 'next', actions: ['noteLevel', 'makeLarger'] },
					{ guard: 'short', actions: 'noteLevel' },
				],
				'break.began': 'adrift',
			},
		},
		/** Broken off: what the pot holds is asked before anything else. */
		adrift: {
			on: {
				'batch.found': [
					{ guard: 'unchanged', target: 'next', actions: 'putCanDown' },
					{ guard: and(['canWasRead', 'right']), target: 'next', actions: ['noteLevel', 'stepDone'] },
					{ guard: and(['canWasRead', 'over']), target: 'next', actions: ['noteLevel', 'makeLarger'] },
					{ guard: and(['canWasRead', 'short']), target: 'next', actions: ['noteLevel', 'putCanDown'] },
					{ guard: and(['canWasRead', 'onlyBase']), target: 'next', actions: 'putCanDown' },
					{ target: 'doomed' },
				],
			},
		},
		/** Nobody knows what is in it: it can only be discarded. */
		doomed: {},
		standing: {
			on: { 'batch.stood': { guard: 'stoodLongEnough', target: 'next', actions: 'stepDone' } },
		},
		strain: {
			on: {
				'batch.stepped': { guard: 'isThisStep', target: 'next', actions: 'stepDone' },
				'break.began': 'adrift',
			},
		},
		cup: {
			on: {
				'cup.timed': { guard: 'fits', target: 'next', actions: 'stepDone' },
				'override.given': { guard: 'overridesCup', target: 'next', actions: ['passOver', 'stepDone'] },
				'break.began': 'adrift',
			},
		},
		mixed: { on: { 'batch.ready': { guard: 'bothRead', target: 'ready' } } },
		ready: { on: { 'batch.loaded': 'inCup' } },
		inCup: { on: { 'batch.loaded': 'inCup', 'cup.emptied': 'ready' } },
		discarded: {},
	},
});
