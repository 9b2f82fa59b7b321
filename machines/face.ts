import { and, assign, not, setup } from 'xstate';
import type { DayEvent, EventOf } from '../src/day/records.ts';
import type { Horns, Prep, Window } from '../src/job/job.ts';

/** What one coat of a face asks for before and while it is laid. */
export type CoatRule = {
	material: string;
	horns: Horns;
	/** What fits on paper with the gun held as for this face: tall where the stroke runs side to side. */
	pattern: 'tall' | 'wide';
	fanHeight_mm: number;
	/** Work recorded on the face before this coat. */
	prep: readonly Prep[];
	/** Laid on a coat of the same stage, so the tape tab is touched first. */
	touch: boolean;
};

/**
 * A step told of: the one at a place of the list before the coming coat, from 0; null: none of the list. What tells no
 * place is of an older day, and speaks of every step of its name.
 */
export type StepTold = { step: Prep; place?: number | null | undefined };

export type FaceInput = {
	id: string;
	part: string;
	coats: readonly CoatRule[];
	/** Where earlier days left it. */
	before?: {
		laid: number;
		done: readonly StepTold[];
		aside: boolean;
		/** Set aside without a fault of its own; older days do not say, and counted each face as one with a fault. */
		beside?: boolean | undefined;
		rework?: readonly string[];
	};
};

type FaceContext = {
	rules: FaceInput;
	/** Coats on the face. */
	laid: number;
	/** Some of the next coat is on already. */
	partly: boolean;
	/** Preparation done since the last coat. */
	done: readonly Prep[];
	/** Steps before the next coat that are done, or left out with a reason, by their places in its list. */
	places: readonly number[];
	/** The tape tab of the last coat was touched and allows the next. */
	touched: boolean;
	/** Rules overridden, with a logged reason, for the next coat. */
	overrides: readonly string[];
	/** Steps left out and recoat windows passed over with a reason: it holds for no other. */
	passedOver: readonly (Prep | Window)[];
	/** Steps of the rework line done. */
	rework: readonly string[];
	/** Set aside on an older day, which counted the line as every step of its names. */
	byName: boolean;
};

type Started = EventOf<'face.started'>;

const shut: readonly Window[] = ['wait', 'scuff', 'sand'];

type Coming = Pick<FaceContext, 'rules' | 'laid'>;

/** The steps before the coming coat, in order. One beyond the plan repeats the last. */
const stepsBefore = ({ rules, laid }: Coming): readonly Prep[] =>
	(rules.coats[laid] ?? rules.coats.at(-1))?.prep ?? [];

/** The place of the step that the coming coat wants next; -1: all are done, or left out with a reason. */
export const openPlace = (context: FaceContext): number =>
	stepsBefore(context).findIndex((_, at) => !context.places.includes(at));

/** Each step is done, or left out, in its place: it is the one that the coat wants next. */
const isInPlace = (context: FaceContext, step: Prep | undefined, place: StepTold['place']): boolean =>
	typeof place !== 'number' || (place === openPlace(context) && step === stepsBefore(context)[place]);

/** Places that steps told of take. */
const placesOf = (coming: Coming, told: readonly StepTold[]): number[] =>
	stepsBefore(coming).flatMap((step, at) =>
		told.some(one => one.step === step && (one.place === undefined || one.place === at)) ? [at] : [],
	);

const withAll = <Item extends string | number>(list: readonly Item[], more: readonly Item[]) =>
	[...new Set([...list, ...more])].sort();

/** Steps that a reason leaves out: what stood on the screen. A record that does not say it is of an older day, and leaves out all. */
const leftOutBy = (
	context: FaceContext,
	{ rule, step, place }: EventOf<'override.given'>,
): readonly StepTold[] => {
	if (rule !== 'prep') return [];
	return step ? [{ step, place }] : stepsBefore(context).map(one => ({ step: one }));
};

/** Recoat windows that a reason passes over, by the same rule: nor is work left out asked for again by its window. */
const passedBy = (context: FaceContext, event: EventOf<'override.given'>): readonly (Prep | Window)[] => {
	if (event.rule !== 'window') return leftOutBy(context, event).map(({ step }) => step);
	return event.facts?.window ? [event.facts.window] : shut;
};

/** Whether a reason was given for a recoat window as it is, or for leaving out the work that it asks for. */
export const windowPassedOver = ({ passedOver }: FaceContext, window: Window | undefined): boolean =>
	passedOver.some(one => one === window);

const reworkLine = ['set-up', 'sand', 'clean'] as const;

/** Whether the coat under it lets a coat on: by its window, by work on the face, or under a reason. */
export const letsOn = (context: FaceContext, window: Window | undefined): boolean =>
	window === 'spray' ||
	(window === 'scuff' && (context.done.includes('scuff') || context.done.includes('sand'))) ||
	(window === 'sand' && context.done.includes('sand')) ||
	windowPassedOver(context, window);

function mayStart(context: FaceContext, event: Started): boolean {
	const { rules, laid, done, touched, overrides } = context;
	const rule = rules.coats[laid];
	const may = (name: string) => overrides.includes(name);
	return (
		event.coat === laid + 1 &&
		event.from === 'start' &&
		(rule !== undefined || may('coats')) &&
		letsOn(context, event.facts?.window) &&
		openPlace(context) < 0 &&
		(touched || !rule?.touch || done.includes('sand') || may('touch'))
	);
}

/** Inside its wet edge a face broken off goes on; past it only where the coats around and under it let it. */
const mayFinish = (context: FaceContext, event: Started) =>
	event.from === 'part' &&
	event.coat === context.laid + 1 &&
	(event.facts?.wet === true || letsOn(context, event.facts?.window));

const fresh = {
	partly: false,
	done: [],
	places: [],
	touched: false,
	overrides: [],
	passedOver: [],
	rework: [],
	byName: false,
};

/** What its own line does to a face with a fault, in order. */
const ownWork = ['sand', 'wipe', 'tack'] as const;

/** Places that this work takes: each step where it is the one that the coat wants next. */
const placesOfOwnWork = (coming: Coming): number[] => {
	const steps = stepsBefore(coming);
	const done = ownWork.reduce((at, step) => (steps[at] === step ? at + 1 : at), 0);
	return [...steps.keys()].slice(0, done);
};

/** One side of a part: how many coats are on it, and what the next one still needs. */
export const faceMachine = setup({
	types: { context: {} as FaceContext, events: {} as DayEvent, input: {} as FaceInput },
	guards: {
		mayStart: ({ context, event }) => event.type === 'face.started' && mayStart(context, event),
		mayFinish: ({ context, event }) => event.type === 'face.started' && mayFinish(context, event),
		isThisCoat: ({ context, event }) => event.type === 'face.ended' && event.coat === context.laid + 1,
		sprayedAll: ({ event }) => event.type === 'face.ended' && event.extent === 'all',
		partIsOn: ({ context, event }) =>
			event.type === 'face.ended' && (event.extent === 'part' || context.partly),
		isNextStep: ({ context, event }) =>
			event.type === 'stage.done' && isInPlace(context, event.stage, event.place),
		mayPassOver: ({ context, event }) =>
			event.type === 'override.given' && isInPlace(context, event.step, event.place),
		touchAllows: ({ event }) => event.type === 'reading.taken' && event.feature === 'touch' && event.matched,
		isNextRework: ({ context, event }) =>
			event.type === 'rework.done' && event.step === reworkLine[context.rework.length],
		isLastRework: ({ context, event }) =>
			event.type === 'rework.done' &&
			event.step === 'clean' &&
			context.rework.length === reworkLine.length - 1,
		isSound: ({ context, event }) =>
			event.type === 'part.setAside' && event.faulty?.includes(context.rules.id) === false,
		isOfAnother: ({ context, event }) => event.type === 'rework.done' && event.face !== context.rules.id,
		wasAside: ({ context }) => context.rules.before?.aside === true,
		wasBeside: ({ context }) => context.rules.before?.beside === true,
	},
	actions: {
		count: assign(({ context }) => ({ ...fresh, laid: context.laid + 1 })),
		keepPart: assign({ partly: true }),
		prepare: assign({
			done: ({ context, event }) =>
				event.type === 'stage.done' ? withAll(context.done, [event.stage]) : context.done,
			places: ({ context, event }) =>
				event.type === 'stage.done'
					? withAll(context.places, placesOf(context, [{ step: event.stage, place: event.place }]))
					: context.places,
		}),
		touch: assign({ touched: true }),
		override: assign({
			overrides: ({ context, event }) =>
				event.type === 'override.given' && !context.overrides.includes(event.rule)
					? [...context.overrides, event.rule]
					: context.overrides,
			passedOver: ({ context, event }) =>
				event.type === 'override.given'
					? withAll(context.passedOver, passedBy(context, event))
					: context.passedOver,
			places: ({ context, event }) =>
				event.type === 'override.given'
					? withAll(context.places, placesOf(context, leftOutBy(context, event)))
					: context.places,
		}),
		/** Air read anew is judged anew. */
		judgeAir: assign({ overrides: ({ context }) => context.overrides.filter(rule => rule !== 'air') }),
		rework: assign({
			rework: ({ context, event }) =>
				event.type === 'rework.done' ? [...context.rework, event.step] : context.rework,
		}),
		noteTelling: assign({
			byName: ({ event }) => event.type === 'part.setAside' && event.faulty === undefined,
		}),
		backInLine: assign(({ context }) => ({
			...fresh,
			done: ownWork,
			places: context.byName
				? placesOf(
						context,
						ownWork.map(step => ({ step })),
					)
				: placesOfOwnWork(context),
		})),
	},
}).createMachine({
	id: 'face',
	context: ({ input }) => {
		const { laid, done, aside, beside, rework = [] } = input.before ?? { laid: 0, done: [], aside: false };
		const names = withAll(
			[],
			done.map(({ step }) => step),
		);
		return {
			...fresh,
			rules: input,
			laid,
			done: names,
			places: placesOf({ rules: input, laid }, done),
			rework,
			byName: aside && beside === undefined,
		};
	},
	initial: 'placing',
	on: { 'air.read': { actions: 'judgeAir' } },
	states: {
		placing: {
			always: [
				{ guard: 'wasBeside', target: 'beside' },
				{ guard: 'wasAside', target: 'aside' },
				{ target: 'open' },
			],
		},
		open: {
			on: {
				'face.started': { guard: 'mayStart', target: 'spraying' },
				'stage.done': { guard: 'isNextStep', actions: 'prepare' },
				'reading.taken': { guard: 'touchAllows', actions: 'touch' },
				'override.given': { guard: 'mayPassOver', actions: 'override' },
				'part.setAside': [
					{ guard: 'isSound', target: 'beside' },
					{ target: 'aside', actions: 'noteTelling' },
				],
			},
		},
		spraying: {
			on: {
				'face.ended': [
					{ guard: and(['isThisCoat', 'sprayedAll']), target: 'open', actions: 'count' },
					{ guard: and(['isThisCoat', 'partIsOn']), target: 'part', actions: 'keepPart' },
					{ guard: 'isThisCoat', target: 'open' },
				],
				'break.began': 'broken',
			},
		},
		/** Broken off: nobody has said yet how much of the coat is on. */
		broken: {
			on: {
				'face.ended': [
					{ guard: and(['isThisCoat', 'sprayedAll']), target: 'open', actions: 'count' },
					{ guard: and(['isThisCoat', 'partIsOn']), target: 'part', actions: 'keepPart' },
					{ guard: 'isThisCoat', target: 'open' },
				],
			},
		},
		part: {
			on: {
				'face.started': { guard: 'mayFinish', target: 'spraying' },
				'override.given': { guard: 'mayPassOver', actions: 'override' },
				/** Half a coat is no sound one. */
				'part.setAside': { target: 'aside', actions: 'noteTelling' },
			},
		},
		/** Out of line with a face of its part that has a fault; nothing is done to it. */
		beside: {
			on: {
				'part.setAside': { guard: not('isSound'), target: 'aside', actions: 'noteTelling' },
				'rework.done': { guard: 'isOfAnother', target: 'open' },
			},
		},
		aside: {
			on: {
				'rework.done': [
					{ guard: 'isLastRework', target: 'open', actions: 'backInLine' },
					{ guard: 'isNextRework', actions: 'rework' },
				],
			},
		},
	},
});
