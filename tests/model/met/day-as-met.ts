import { assign, type SnapshotFrom, setup } from 'xstate';
import { type Act, after, breaks, painted } from './acts.ts';
import { hornsFor, morning, type Place, placeOf, type Truth } from './truth.ts';

/**
 * The day as a painter meets it: what may be asked after each thing that is done, erred in, or breaks in.
 * Written from the rules, it shares nothing with the program.
 */

const places: readonly Place[] = [
	...(['account', 'oneGo', 'list', 'air', 'airNo'] as const),
	...(['baseCan', 'potFound', 'standing', 'straining', 'loading'] as const),
	...(['edge', 'wait', 'touch', 'bench', 'gear', 'atBench', 'ready', 'finish'] as const),
];

type Guarded = { guard?: (step: { context: Truth }) => boolean };
const to = (target: string, { guard }: Guarded = {}) => ({
	target,
	actions: 'happens' as const,
	...(guard && { guard }),
});
const where = (guard: (truth: Truth) => boolean): Guarded => ({ guard: ({ context }) => guard(context) });

/** How far a model goes. */
export type Bounds = {
	/** Slips and breaks that a day may have. */
	slips: number;
	/** Whether the first pot is mixed for the whole day, so that it outlasts the wait. */
	plenty: boolean;
};

/** The chart of the day, for days with so many slips. */
export function dayAsMet(bounds: Bounds) {
	const mayErr = ({ slips }: Truth) => slips < bounds.slips;
	const slip = (target: string, also: (truth: Truth) => boolean = () => true) =>
		to(
			target,
			where(truth => mayErr(truth) && also(truth)),
		);
	const broken = Object.fromEntries(
		breaks.map(act => [act, [slip('#airLost', ({ airLost }) => airLost), slip('#hold')]]),
	);
	const unbroken = Object.fromEntries(breaks.map(act => [act, {}]));
	return setup({
		types: { context: {} as Truth, events: {} as { type: Act } },
		actions: {
			happens: assign(({ context, event: { type } }) => after(context, type)),
		},
	}).createMachine({
		context: morning,
		initial: 'list',
		on: broken,
		states: {
			/** Goes at once where the truth says. */
			onward: {
				always: places.map(place => ({ target: place, guard: ({ context }) => placeOf(context) === place })),
			},

			list: {
				on: {
					ANSWER_LIST: to('onward'),
					SAY_FILTER_MASK_LISTED: slip('list'),
					LEAVE_OPEN: slip('listOpen'),
				},
			},
			listOpen: { on: { ASK_AGAIN: to('listOn') } },
			listOn: { on: { ANSWER_LIST: to('onward'), LEAVE_OPEN: slip('listOpen') } },
			air: { on: { READ_AIR: to('onward'), READ_DAMP_AIR: slip('airNo') } },
			airNo: { on: { READ_AIR_AGAIN: to('air') } },

			bench: {
				on: {
					MIX: to(
						'baseCan',
						where(({ mixedOnce }) => !mixedOnce && !bounds.plenty),
					),
					MIX_PLENTY: to(
						'baseCan',
						where(({ mixedOnce }) => !mixedOnce && bounds.plenty),
					),
					PREPARE: to(
						'onward',
						where(({ mixedOnce }) => mixedOnce),
					),
				},
			},
			baseCan: { on: { TAKE_CAN: to('basePour'), TAKE_WRONG_CAN: slip('baseCan') } },
			basePour: { on: { POUR: to('baseLevel') } },
			baseLevel: { on: { READ_LEVEL: to('hardenerCan') } },
			hardenerCan: { on: { TAKE_CAN: to('hardenerPour'), TAKE_WRONG_CAN: slip('hardenerCan') } },
			hardenerPour: {
				on: {
					POUR: to('hardenerLevel'),
					POUR_NOTHING: slip('hardenerLevel'),
					POUR_TOO_MUCH: slip('hardenerLevel'),
				},
			},
			hardenerLevel: {
				on: {
					READ_LEVEL: [
						to(
							'hardenerPour',
							where(({ pot }) => pot === 'base'),
						),
						to(
							'overPoured',
							where(({ pot }) => pot === 'over'),
						),
						to('standing'),
					],
				},
			},
			overPoured: { on: { TOP_UP: to('standing') } },
			standing: { on: { STAND: to('straining') } },
			straining: { on: { STRAIN: to('loading') } },
			loading: { on: { FILL_CUP: to('onward') } },
			potFound: {
				on: {
					TELL_LEVEL: [
						to(
							'hardenerCan',
							where(({ pot }) => pot === 'base'),
						),
						to(
							'overPoured',
							where(({ pot }) => pot === 'over'),
						),
						to('onward'),
					],
					CANNOT_TELL_LEVEL: to(
						'bench',
						where(({ pot, plenty }) => pot !== 'base' && !plenty),
					),
				},
			},

			gear: {
				on: {
					GEAR: to('atBench'),
					SAY_FILTER_MASK: slip('gear'),
					SEE_WEAK_EXTRACTOR: slip('atBench'),
					LEAVE_UNTURNED: slip('gear', truth => truth.told !== hornsFor(truth)),
				},
			},
			atBench: {
				on: {
					READ_AT_BENCH: to('paper'),
					READ_OTHER_LETTER: slip('atBench'),
					READ_OTHER_SECOND: slip('atBench', ({ due }) => due === 'full'),
					LEAVE_UNTURNED: slip('atBench', truth => truth.told !== hornsFor(truth)),
				},
			},
			paper: {
				on: {
					SHOOT_PATTERN: [
						to(
							'ready',
							where(truth => truth.horns === hornsFor(truth)),
						),
						to('wrongWay'),
					],
					SAY_BAD_PATTERN: slip('spoiled'),
				},
			},
			wrongWay: { on: { TURN_HORNS: to('paper') } },
			spoiled: { on: { CLEAN_CAP: to('paper') } },

			ready: {
				on: {
					START: to('spraying'),
					STAND_IDLE: slip('atBench', ({ part, slips }) => part === null && slips === 0),
					TROUBLE: slip('trouble'),
				},
			},
			spraying: {
				on: { FINISH: to('onward'), RUN_LATE: slip('overdue'), TROUBLE: slip('trouble') },
			},
			overdue: { on: { FINISH: to('onward'), TROUBLE: slip('trouble') } },
			oneGo: { on: { IN_ONE_GO: to('onward'), STOPPED: to('onward') } },
			account: {
				on: {
					NONE: to(
						'accounted',
						where(({ wanted }) => wanted !== 'fault'),
					),
					PART: to('accounted'),
					ALL: to('accounted'),
				},
			},
			/** Goes at once where the account was wanted. */
			accounted: {
				always: [
					{ target: 'aside', guard: ({ context }) => context.wanted === 'fault' },
					{ target: 'closing', guard: ({ context }) => context.wanted === 'closing' },
					{ target: 'onward' },
				],
			},
			edge: { on: { WAIT_FOR_EDGE: to('loose'), SET_ASIDE: to('onward') } },
			/** The order of what is left is not foretold: only what must hold on the way, and how the day ends. */
			loose: { on: { ...unbroken, REST_OF_DAY: to('finish') } },

			wait: { on: { WAIT_OUT: to('onward'), TROUBLE: slip('trouble') } },
			touch: { on: { TACKY: to('onward'), STRINGS: slip('wait') } },
			finish: { on: { CLEAN_UP: to('closed') } },

			hold: {
				id: 'hold',
				on: {
					BACK: to('onward'),
					STAY_AWAY: to(
						'hold',
						where(({ broken, dry, apart, cup }) => broken !== null && !dry && !apart && cup),
					),
					CLOSE: [
						to(
							'account',
							where(truth => truth.broken !== null),
						),
						to('closing'),
					],
					AIR_LOST: to(
						'airLost',
						where(({ listed }) => !listed),
					),
				},
			},
			closing: {
				on: {
					SURE: to('closed'),
					NOT_YET: to(
						'hold',
						where(({ airLost }) => !airLost),
					),
				},
			},
			trouble: {
				on: {
					AIR_LOST: to('airLost'),
					GUN_FAULT: to('hold'),
					OUT_OF_PAINT: to(
						'hold',
						where(({ part, plenty }) => part === null && !plenty),
					),
					WET_FAULT: [
						to(
							'account',
							where(truth => truth.broken !== null),
						),
						to(
							'aside',
							where(truth => painted(truth) !== null),
						),
					],
				},
			},
			aside: { on: { SET_ASIDE: to('hold'), KEEP_ON: to('hold') } },
			airLost: { id: 'airLost', on: { BACK: to('airBack') } },
			airBack: {
				on: {
					AIR_BACK: to('onward'),
					AIR_NOT_BACK: to('airLost'),
					CLOSE: [
						to(
							'account',
							where(truth => truth.broken !== null),
						),
						to('closing'),
					],
				},
			},
			closed: { on: unbroken },
		},
	});
}

/** A moment of such a day. */
export type Moment = SnapshotFrom<ReturnType<typeof dayAsMet>>;
