import { assign, type SnapshotFrom, setup } from 'xstate';
import type { DayEvent } from '../src/day/records.ts';
import type { Window } from '../src/job/job.ts';

type WindowContext = {
	/** No coat is on as the day begins. */
	isBare: boolean;
	/** Windows passed over with a reason, for the coat to come, and those that ask for work left out with one. */
	reasons: readonly Window[];
};

/** The window that a reason is given for, as it stands on the screen; no other reason names one. */
const reasonIn = (event: DayEvent): Window | null =>
	event.type === 'override.given' ? (event.window ?? null) : null;

/** The windows that ask for work, by the step that does it. */
const askedBy: { readonly [step: string]: Window } = { scuff: 'scuff', sand: 'sand' };

/** Work that was left out with a reason: no window asks for it again. No other reason names a step. */
const leftOutIn = (event: DayEvent): Window | null =>
	event.type === 'override.given' ? (askedBy[event.step ?? ''] ?? null) : null;

const withOne = (windows: readonly Window[], window: Window | null): readonly Window[] =>
	[...new Set(window === null ? windows : [...windows, window])].sort();

const toward = (event: DayEvent) => (event.type === 'window.moved' ? event.to : null);

/**
 * The recoat window that a face has come into; *bare*: no coat is on. No clock is read here: the day tells when one has
 * moved. A pass shuts it. A reason is for the window that stands; one given in a wait ends with that wait, also where
 * another follows on it at once, for between them it was open.
 */
export const windowMachine = setup({
	types: { context: {} as WindowContext, events: {} as DayEvent, input: {} as { bare: boolean } },
	guards: {
		isBare: ({ context }) => context.isBare,
		toBare: ({ event }) => toward(event) === 'bare',
		toWait: ({ event }) => toward(event) === 'wait',
		toSpray: ({ event }) => toward(event) === 'spray',
		toScuff: ({ event }) => toward(event) === 'scuff',
		sprayedAll: ({ event }) => event.type === 'face.ended' && event.extent === 'all',
		sprayedPart: ({ event }) => event.type === 'face.ended' && event.extent === 'part',
		leavesOut: ({ event }) => leftOutIn(event) !== null,
		waits: ({ event }) => reasonIn(event) === 'wait',
		wantsScuffing: ({ event }) => reasonIn(event) === 'scuff',
		wantsSanding: ({ event }) => reasonIn(event) === 'sand',
	},
	actions: {
		passOver: assign({ reasons: ({ context, event }) => withOne(context.reasons, reasonIn(event)) }),
		leaveOut: assign({ reasons: ({ context, event }) => withOne(context.reasons, leftOutIn(event)) }),
		endWait: assign({ reasons: ({ context }) => context.reasons.filter(window => window !== 'wait') }),
		forget: assign({ reasons: [] }),
	},
}).createMachine({
	id: 'window',
	context: ({ input }) => ({ isBare: input.bare, reasons: [] }),
	initial: 'placing',
	on: {
		'window.moved': [
			{ guard: 'toBare', target: '.bare' },
			{ guard: 'toWait', target: '.wait' },
			{ guard: 'toSpray', target: '.spray' },
			{ guard: 'toScuff', target: '.scuff' },
			{ target: '.sand' },
		],
		'face.ended': [
			{ guard: 'sprayedAll', target: '.wait', actions: 'forget' },
			{ guard: 'sprayedPart', target: '.wait' },
		],
		'override.given': { guard: 'leavesOut', actions: 'leaveOut' },
		'rework.done': { actions: 'forget' },
	},
	states: {
		placing: { always: [{ guard: 'isBare', target: 'bare' }, { target: 'wait' }] },
		bare: {},
		wait: { exit: 'endWait', on: { 'override.given': { guard: 'waits', actions: 'passOver' } } },
		spray: {},
		scuff: { on: { 'override.given': { guard: 'wantsScuffing', actions: 'passOver' } } },
		sand: { on: { 'override.given': { guard: 'wantsSanding', actions: 'passOver' } } },
	},
});

export type WindowState = SnapshotFrom<typeof windowMachine>;
