import { and, assign, initialTransition, not, setup } from 'xstate';
import type { DayEvent, EventOf } from '../src/day/records.ts';
import type { Horns, Prep, Window } from '../src/job/job.ts';
import { transition } from './step.ts';
import { type WindowState, windowMachine } from './window.ts';

/** Work that takes dust off a face, in order. */
export type Cleaning = Extract<Prep, 'wipe' | 'tack'>;

/** What one coat of a face asks for before and while it is laid. */
export type CoatRule = {
	material: string;
	horns: Horns;
	/** What fits on paper with the gun held as for this face: tall where the stroke runs side to side. */
	pattern: 'tall' | 'wide';
	fanHeight_mm: number;
	/** Work recorded on the face before this coat. */
	prep: readonly Prep[];
	/** What takes the dust off a face again that was sanded though no step of the sheet says so; an older day has none. */
	cleaned?: readonly Cleaning[] | undefined;
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
	/** Work after the last coat. */
	finishing?: readonly Prep[] | undefined;
	/** Where earlier days left it. */
	before?: {
		laid: number;
		done: readonly StepTold[];
		/** Steps left out with a reason: it marks the coat that it was given for on the next day too. */
		leftOut?: readonly StepTold[];
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
	/** What takes off the dust of a sanding that is no step of the list, as far as no step left in it does. */
	dusty: readonly Cleaning[];
	/** The tape tab of the last coat was touched and allows the next. */
	touched: boolean;
	/** Rules overridden, with a logged reason, for the next coat. */
	overrides: readonly string[];
	/** The recoat window that it has come into. */
	window: WindowState;
	/** Steps of the rework line done. */
	rework: readonly string[];
	/** Told aside as older days tell it, which counted the line as every step of its names; read while it is aside. */
	byName: boolean;
};

type Coming = Pick<FaceContext, 'rules' | 'laid' | 'overrides'>;

/** A coat is to come: one of the plan, or one more with a reason. */
const isComing = ({ rules, laid, overrides }: Coming): boolean =>
	laid < rules.coats.length || overrides.includes('coats');

/** The steps before the coming coat, or after the last one, in order. A coat beyond the plan repeats the last. */
export function stepsBefore({ rules, laid, overrides }: Coming): readonly Prep[] {
	if (!isComing({ rules, laid, overrides })) return rules.finishing ?? [];
	return (rules.coats[laid] ?? rules.coats.at(-1))?.prep ?? [];
}

type Listed = { step: Prep; place: number };

/** The steps of that list that are neither done nor left out, in order. */
const stepsLeft = (coming: Coming & Pick<FaceContext, 'places'>): readonly Listed[] =>
	stepsBefore(coming)
		.map((step, place) => ({ step, place }))
		.filter(({ place }) => !coming.places.includes(place));

/** What a sanding that is no step of the list leaves to be done, beyond what the list still has. */
function dustOn(coming: Coming & Pick<FaceContext, 'places'>): readonly Cleaning[] {
	const { rules, laid } = coming;
	const { cleaned = [] } = rules.coats[laid] ?? rules.coats.at(-1) ?? {};
	return cleaned.filter(step => !stepsLeft(coming).some(left => left.step === step));
}

const abrades = (step: Prep): boolean => step === 'sand' || step === 'scuff';

/** The dust on a face after work told of it. */
const dustAfter = (
	coming: Coming & Pick<FaceContext, 'places' | 'dusty'>,
	{ step, place }: StepTold,
): readonly Cleaning[] =>
	abrades(step) && place === null ? dustOn(coming) : coming.dusty.filter(one => one !== step);

/** The place of the step that the coming coat wants next; -1: all are done, or left out with a reason. */
export const openPlace = (context: FaceContext): number => stepsLeft(context)[0]?.place ?? -1;

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

/** The step that a reason leaves out, as it stood on the screen. */
const leftOutBy = ({ step, place }: EventOf<'override.given'>): readonly StepTold[] =>
	step ? [{ step, place }] : [];

/** A reason was given for the recoat window as it stands, or for leaving out the work that it asks for. */
export const windowReasoned = ({ window }: Pick<FaceContext, 'window'>): boolean =>
	window.context.reasons.some(reason => reason === window.value);

const reworkLine = ['set-up', 'sand', 'clean'] as const;
export type ReworkStep = (typeof reworkLine)[number];

/** The step of a part's own line that comes next; null: it has been gone through. */
export const reworkLeft = (done: readonly string[]): ReworkStep | null => reworkLine[done.length] ?? null;

/** What stands between a face and its next coat as far as the face itself can tell. */
export type FaceStop =
	/** `step`: of its own line; null: it is out of line beside a face that has one. */
	| { by: 'aside'; step: ReworkStep | null }
	| { by: 'coats' }
	| { by: 'window'; is: Exclude<Window, 'spray'> }
	/** `place` null: no step of the list; it takes off the dust of a sanding that is none either. */
	| { by: 'prep'; step: Prep; place: number | null }
	/** Tacking that nothing but the coat follows: it is left for last, for dust settles on what was tacked before. */
	| { by: 'tack'; step: 'tack'; place: number | null }
	| { by: 'touch' };

/** The recoat window that keeps the coat off; null where it lets it on, by itself, by work on the face, or under a reason. */
export function shutBy(context: FaceContext): Exclude<Window, 'spray'> | null {
	const { done, window } = context;
	if (windowReasoned(context)) return null;
	if (window.matches('wait')) return 'wait';
	if (window.matches('scuff') && !done.includes('scuff') && !done.includes('sand')) return 'scuff';
	return window.matches('sand') && !done.includes('sand') ? 'sand' : null;
}

const isCleaning = ({ step }: { step: Prep }): boolean => step === 'wipe' || step === 'tack';

/** What a window asks for, once no step left in the list but wiping and tacking comes before it: neither is done in vain. */
function windowWork(left: readonly Listed[], shut: Exclude<Window, 'spray'> | null): FaceStop[] {
	return (shut === 'scuff' || shut === 'sand') && left.every(isCleaning) ? [{ by: 'window', is: shut }] : [];
}

/** The work that comes next on a face: of the sheet's list, for its window, or against the dust of what is in no list. */
function workStops(context: FaceContext, shut: Exclude<Window, 'spray'> | null): FaceStop[] {
	const left = stepsLeft(context);
	const asked = windowWork(left, shut);
	if (asked.length > 0) return asked;
	const dusty = isComing(context) ? context.dusty : [];
	const [next] = left;
	if (dusty.includes('wipe') && (!next || next.step === 'tack'))
		return [{ by: 'prep', step: 'wipe', place: null }];
	if (!next) return dusty.includes('tack') ? [{ by: 'tack', step: 'tack', place: null }] : [];
	const { step, place } = next;
	return step === 'tack' && left.length === 1 ? [{ by: 'tack', step, place }] : [{ by: 'prep', step, place }];
}

/**
 * In the order in which it is put right. A face partly on is gone on with inside its wet edge; past it only where the
 * coats around and under it let it.
 */
export function faceStops(face: { value: unknown; context: FaceContext }, wet: boolean): readonly FaceStop[] {
	const { context } = face;
	const { rules, laid, touched, overrides } = context;
	if (face.value === 'aside') return [{ by: 'aside', step: reworkLeft(context.rework) }];
	if (face.value === 'beside') return [{ by: 'aside', step: null }];
	const shut = shutBy(context);
	const window: FaceStop[] = shut ? [{ by: 'window', is: shut }] : [];
	if (face.value === 'part') return wet ? [] : window;
	const wantsTouch = (rules.coats[laid] ?? rules.coats.at(-1))?.touch === true;
	const isTouched = touched || context.done.includes('sand') || overrides.includes('touch');
	return [
		...(isComing(context) ? [] : [{ by: 'coats' as const }]),
		...(shut === 'wait' ? window : []),
		...workStops(context, shut),
		...(wantsTouch && !isTouched ? [{ by: 'touch' as const }] : []),
	];
}

const fresh = {
	partly: false,
	done: [],
	places: [],
	dusty: [],
	touched: false,
	overrides: [],
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
		isNextCoat: ({ context, event }) => event.type === 'face.started' && event.coat === context.laid + 1,
		fromStart: ({ event }) => event.type === 'face.started' && event.from === 'start',
		fromPart: ({ event }) => event.type === 'face.started' && event.from === 'part',
		isThisCoat: ({ context, event }) => event.type === 'face.ended' && event.coat === context.laid + 1,
		sprayedAll: ({ event }) => event.type === 'face.ended' && event.extent === 'all',
		partIsOn: ({ context, event }) =>
			event.type === 'face.ended' && (event.extent === 'part' || context.partly),
		isNextStep: ({ context, event }) =>
			event.type === 'stage.done' && isInPlace(context, event.stage, event.place),
		mayPassOver: ({ context, event }) =>
			event.type === 'override.given' &&
			isInPlace(context, event.step, event.place) &&
			(event.rule !== 'prep' || event.step !== undefined) &&
			(event.rule !== 'window' || context.window.can(event)),
		touchAllows: ({ event }) => event.type === 'reading.taken' && event.feature === 'touch' && event.matched,
		isNextRework: ({ context, event }) =>
			event.type === 'rework.done' && event.facts?.due === true && event.step === reworkLeft(context.rework),
		isLastRework: ({ context, event }) =>
			event.type === 'rework.done' &&
			event.facts?.due === true &&
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
			dusty: ({ context, event }) =>
				event.type === 'stage.done'
					? dustAfter(context, { step: event.stage, place: event.place })
					: context.dusty,
		}),
		touch: assign({ touched: true }),
		override: assign(({ context, event }) => {
			if (event.type !== 'override.given') return {};
			const { overrides, laid, rules } = context;
			const isOneMore = event.rule === 'coats' && laid >= rules.coats.length && !overrides.includes('coats');
			const leftOut = leftOutBy(event);
			const after = {
				rules,
				laid,
				overrides: overrides.includes(event.rule) ? overrides : [...overrides, event.rule],
				/** One coat more has a list of its own. */
				places: isOneMore ? [] : withAll(context.places, placesOf(context, leftOut)),
			};
			const isLeftOut = (one: Prep) => leftOut.some(({ step, place }) => step === one && place === null);
			const dusty = context.dusty.filter(
				one => !isLeftOut(one) && (!isOneMore || dustOn(after).includes(one)),
			);
			return { ...after, dusty };
		}),
		stepWindow: assign({
			window: ({ context, event }) => transition(windowMachine, context.window, event)[0],
		}),
		/** Air read anew is judged anew. */
		judgeAir: assign({ overrides: ({ context }) => context.overrides.filter(rule => rule !== 'air') }),
		rework: assign({
			rework: ({ context, event }) =>
				event.type === 'rework.done' ? [...context.rework, event.step] : context.rework,
		}),
		lineAnew: assign({ rework: [] }),
		noteTelling: assign({
			byName: ({ event }) => event.type === 'part.setAside' && event.faulty === undefined,
		}),
		/** Nothing stays wiped and tacked beside what is sanded yet: both are done again with the others of its coat. */
		backInLine: assign(({ context }) => {
			const names = ownWork.map(step => ({ step }));
			const coming = { ...context, overrides: [] };
			const places = context.byName ? placesOf(coming, names) : placesOfOwnWork(coming);
			return { ...fresh, done: ownWork, places, dusty: dustOn({ ...coming, places }) };
		}),
	},
}).createMachine({
	id: 'face',
	context: ({ input }) => {
		const before = input.before ?? { laid: 0, done: [], aside: false };
		const { laid, done, leftOut = [], beside, rework = [] } = before;
		const names = withAll(
			[],
			done.map(({ step }) => step),
		);
		const coming = { rules: input, laid, overrides: [] };
		const places = placesOf(coming, [...done, ...leftOut]);
		const dustBy = (dusty: readonly Cleaning[], told: StepTold) =>
			dustAfter({ ...coming, places, dusty }, told);
		return {
			...fresh,
			...coming,
			done: names,
			places,
			dusty: done.reduce(dustBy, fresh.dusty),
			overrides: leftOut.length > 0 ? ['prep'] : [],
			rework,
			byName: beside === undefined,
			window: initialTransition(windowMachine, { bare: laid === 0 })[0],
		};
	},
	initial: 'placing',
	on: { 'air.read': { actions: 'judgeAir' }, 'window.moved': { actions: 'stepWindow' } },
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
				'face.started': { guard: and(['isNextCoat', 'fromStart']), target: 'spraying' },
				'stage.done': { guard: 'isNextStep', actions: 'prepare' },
				'reading.taken': { guard: 'touchAllows', actions: 'touch' },
				'override.given': { guard: 'mayPassOver', actions: ['override', 'stepWindow'] },
				'part.setAside': [
					{ guard: 'isSound', target: 'beside' },
					{ target: 'aside', actions: 'noteTelling' },
				],
			},
		},
		spraying: {
			on: {
				'face.ended': [
					{ guard: and(['isThisCoat', 'sprayedAll']), target: 'open', actions: ['count', 'stepWindow'] },
					{ guard: and(['isThisCoat', 'partIsOn']), target: 'part', actions: ['keepPart', 'stepWindow'] },
					{ guard: 'isThisCoat', target: 'open' },
				],
				'break.began': 'broken',
			},
		},
		/** Broken off: nobody has said yet how much of the coat is on. */
		broken: {
			on: {
				'face.ended': [
					{ guard: and(['isThisCoat', 'sprayedAll']), target: 'open', actions: ['count', 'stepWindow'] },
					{ guard: and(['isThisCoat', 'partIsOn']), target: 'part', actions: ['keepPart', 'stepWindow'] },
					{ guard: 'isThisCoat', target: 'open' },
				],
			},
		},
		part: {
			on: {
				'face.started': { guard: and(['isNextCoat', 'fromPart']), target: 'spraying' },
				'override.given': { guard: 'mayPassOver', actions: ['override', 'stepWindow'] },
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
				/** A fault once more: what its line has done is undone. */
				'part.setAside': { guard: not('isSound'), actions: ['lineAnew', 'noteTelling'] },
				'rework.done': [
					{ guard: 'isLastRework', target: 'open', actions: ['backInLine', 'stepWindow'] },
					{ guard: 'isNextRework', actions: 'rework' },
				],
			},
		},
	},
});
