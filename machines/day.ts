import { and, assign, initialTransition, not, type SnapshotFrom, setup, stateIn } from 'xstate';
import type { DayEvent } from '../src/day/records.ts';
import { batchMachine } from './batch.ts';
import {
	batchInHand,
	batchMoves,
	type DayContext,
	type DayInput,
	faceNamed,
	facesMove,
	knownOf,
	materialsNext,
	noneIsStranded,
	of,
	ruleFor,
	same,
	stepFaces,
} from './day-context.ts';
import { faceMachine, windowReasoned } from './face.ts';
import { gunMachine } from './gun.ts';
import { featureAsked, gunCheckMachine } from './gun-check.ts';
import { transition } from './step.ts';
import { mayCheckGun, maySpray } from './stops.ts';

/** A reason was given for the recoat window that a face is in. */
const hasReason = (context: DayContext, id: string | null): boolean => {
	const face = faceNamed(context, id);
	return face !== undefined && windowReasoned(face.context);
};

const mixing: readonly string[] = ['stir', 'can', 'level', 'adrift', 'doomed', 'strain', 'cup', 'mixed'];

/**
 * The day: which of list, mixing, gun check, ready, spraying, wait or hold the painter is in, and whether the gun
 * is known. Everything that spans faces, batches and the check is decided here. Its events are the day file's
 * records; it knows no clock, only the facts stamped on them.
 */
export const dayMachine = setup({
	types: { context: {} as DayContext, events: {} as DayEvent, input: {} as DayInput },
	guards: {
		maySpray,
		mayCheckGun,
		isList: ({ event }) => event.type === 'check.began' && event.list !== 'gun-check',
		checkPassed: ({ context: { check, checked, cup }, event }) =>
			event.type === 'gun.checked' &&
			check?.matches('passed') === true &&
			event.check === checked?.no &&
			event.size === checked.size &&
			event.horns === checked.rule.horns &&
			same(event.cup, cup),
		isAskedFor: ({ context: { check }, event }) =>
			event.type === 'reading.taken' && check !== null && event.feature === featureAsked(check.context),
		passesOver: ({ context: { check }, event }) =>
			event.type === 'override.given' && event.face === null && check?.can(event) === true,
		patternStillToCome: ({ context }) => context.check?.matches('passed') !== true,
		isFaultOfGun: ({ event }) => event.type === 'fault.seen' && event.gun === true,
		/** No face is sprayed with it, and no check of it is under way. */
		gunIsAside: ({ context }) => knownOf(context) === null && context.check === null,
		settled: ({ event }) => event.facts?.settled === true,
		listClosed: ({ context }) => context.check?.matches('passed') === true,
		isNewBatch: ({ context, event }) =>
			event.type === 'batch.started' &&
			context.batches[event.batch] === undefined &&
			context.rules.materials[event.material] !== undefined &&
			batchInHand(context) === undefined,
		batchMoves: ({ context, event }) =>
			'batch' in event && typeof event.batch === 'string' && batchMoves(context.batches[event.batch], event),
		/** A refill is paint from a pot that the cup is filled from already. */
		isToldAsItIs: ({ context, event }) =>
			event.type === 'batch.loaded' && event.refill === context.cup.includes(event.batch),
		isMixing: ({ context }) => mixing.includes(batchInHand(context)?.[1].value ?? ''),
		isReadingOfBatch: ({ context, event }) =>
			event.type === 'reading.taken' &&
			event.feature === 'can' &&
			batchInHand(context)?.[1].matches('can') === true,
		passesOverPaint: ({ context, event }) =>
			event.type === 'override.given' && event.face === null && batchMoves(batchInHand(context)?.[1], event),
		isTiming: ({ context }) => batchInHand(context)?.[1].matches('cup') === true,
		facesMove: ({ context, event }) => facesMove(context, event),
		noneIsStranded: ({ context, event }) => noneIsStranded(context, event),
		/** The next step of a face's own line; that it was sprayed again, or is not, is told when it is back in line. */
		isNextOfLine: ({ context, event }) =>
			event.type === 'rework.done' &&
			(event.step === 'respray' || event.step === 'no-coat' || facesMove(context, event)),
		stillSpraying: ({ context, event }) =>
			stepFaces(context.faces, event).some(face => face.matches('spraying')),
		/** By the clock, or by a reason for the recoat window as it stands. */
		waitIsOver: ({ context, event }) =>
			event.type === 'wait.ended' && (event.facts?.due === true || hasReason(context, event.face)),
		wasLong: ({ event }) => event.facts?.long === true,
		wasShort: ({ event }) => event.facts?.long === false,
		gunKnown: ({ context }) => knownOf(context) !== null,
		isTouch: ({ event }) => event.type === 'reading.taken' && event.feature === 'touch',
		isOneGo: ({ event }) => event.type === 'reading.taken' && event.feature === 'one-go',
		/** A face set aside was found still soft. */
		isSetUp: ({ event }) => event.type === 'reading.taken' && event.feature === 'set-up',
		isAccount: ({ event }) =>
			event.type === 'reading.taken' && (event.feature === 'last-face' || event.feature === 'which-face'),
		/** Of every face broken off it is known how much is on. */
		allAccounted: ({ context }) => !context.faces.some(face => face.matches('broken')),
	},
	actions: {
		/** Whatever was known of the gun no longer is; a list begun is dropped, a pass is broken off. */
		breakOff: assign(({ context, event }) => {
			const inHand = batchInHand(context);
			return {
				gun: transition(gunMachine, context.gun, event)[0],
				check: null,
				faces: stepFaces(context.faces, event),
				batches: inHand
					? { ...context.batches, [inHand[0]]: transition(batchMachine, inHand[1], event)[0] }
					: context.batches,
			};
		}),
		stepGun: assign({ gun: ({ context, event }) => transition(gunMachine, context.gun, event)[0] }),
		/** In the middle of a pass nothing is planned: whatever makes the gun unknown is a break. */
		loseGun: assign({
			gun: ({ context }) => transition(gunMachine, context.gun, { type: 'gun.unknown', why: 'break' })[0],
		}),
		begin: assign(({ context, event }) => {
			const began = of(event, 'check.began');
			/** A list is for no face: it goes by everything that is sprayed next. */
			const face = began?.list === 'gun-check' ? faceNamed(context, began.face) : undefined;
			const rule = face && ruleFor(face);
			const materials = rule ? [rule.material] : materialsNext(context);
			return {
				list: began?.list ?? null,
				checked: rule && began?.size ? { no: began.check, size: began.size, rule, passedOver: [] } : null,
				check: initialTransition(gunCheckMachine, {
					items: began?.items ?? [],
					isocyanate: materials.some(id => context.rules.materials[id]?.isocyanate === true),
					pattern: rule?.pattern ?? null,
				})[0],
			};
		}),
		stepCheck: assign({
			check: ({ context, event }) => context.check && transition(gunCheckMachine, context.check, event)[0],
		}),
		/** A reason given for the open item marks what is sprayed under the list or the check. */
		notePassedOver: assign(({ context, event }) => {
			if (event.type !== 'override.given') return {};
			const { checked, passedOver } = context;
			return checked
				? { checked: { ...checked, passedOver: [...checked.passedOver, event.rule] } }
				: { passedOver: passedOver.includes(event.rule) ? passedOver : [...passedOver, event.rule] };
		}),
		closeList: assign(({ context }) => ({
			check: null,
			listsDone: context.list ? [...context.listsDone, context.list] : context.listsDone,
		})),
		/** After so long an absence nothing that was looked at before spraying need still be so. */
		askListAgain: assign({
			listsDone: ({ context }) => context.listsDone.filter(list => list !== 'before-spraying'),
		}),
		knowGun: assign(({ context: { gun, checked } }) => ({
			gun: checked
				? transition(gunMachine, gun, {
						type: 'gun.found',
						found: {
							horns: checked.rule.horns,
							fanHeight_mm: checked.rule.fanHeight_mm,
							check: checked.no,
							passedOver: checked.passedOver,
						},
					})[0]
				: gun,
			check: null,
		})),
		startBatch: assign(({ context, event }) => {
			const started = of(event, 'batch.started');
			const order = started && context.rules.materials[started.material]?.order;
			if (!started || !order) return {};
			const batch = initialTransition(batchMachine, { material: started.material, order })[0];
			return { batches: { ...context.batches, [started.batch]: batch } };
		}),
		stepBatch: assign(({ context, event }) => {
			const named = event.type !== 'override.given' && 'batch' in event ? event.batch : null;
			const letter = named ?? batchInHand(context)?.[0] ?? null;
			const batch = letter === null ? undefined : context.batches[letter];
			if (letter === null || !batch) return {};
			return { batches: { ...context.batches, [letter]: transition(batchMachine, batch, event)[0] } };
		}),
		fillCup: assign({
			cup: ({ context: { cup }, event }) =>
				event.type === 'batch.loaded' && !cup.includes(event.batch) ? [...cup, event.batch] : cup,
		}),
		emptyCup: assign(({ context, event }) => ({
			cup: [],
			batches: Object.fromEntries(
				Object.entries(context.batches).map(([letter, batch]) => [
					letter,
					context.cup.includes(letter) ? transition(batchMachine, batch, event)[0] : batch,
				]),
			),
		})),
		/** The record is in its place here and changes nothing that the machines know. */
		keep: () => {},
		/** Of a pass that is told to have been broken off nobody need say that it stopped. */
		stepFaces: assign({
			faces: ({ context, event }) => stepFaces(context.faces, event),
			late: ({ context, event }) => context.late && !(event.type === 'face.ended' && event.extent !== 'all'),
		}),
		markLate: assign({ late: true }),
		answerLate: assign({ late: false }),
	},
}).createMachine({
	id: 'day',
	context: ({ input }) => ({
		rules: input,
		faces: input.faces.map(face => initialTransition(faceMachine, face)[0]),
		batches: {},
		cup: [],
		check: null,
		checked: null,
		gun: initialTransition(gunMachine)[0],
		listsDone: [],
		passedOver: [],
		list: null,
		late: false,
	}),
	initial: 'bench',
	on: {
		'break.began': { guard: not(stateIn('#day.closed')), target: '.hold', actions: 'breakOff' },
		'air.read': { actions: 'stepFaces' },
		'day.planned': { actions: 'keep' },
		'window.set': { actions: 'keep' },
		'window.moved': { guard: 'facesMove', actions: 'stepFaces' },
		'clock.set': { actions: 'keep' },
		'trigger.on': { actions: 'keep' },
		'trigger.off': { actions: 'keep' },
		'fault.seen': [
			{ guard: not('isFaultOfGun'), actions: 'keep' },
			{ guard: 'gunIsAside', actions: 'stepGun' },
		],
		'film.read': { actions: 'keep' },
		'photo.kept': { actions: 'keep' },
	},
	states: {
		/** Between things, the gun not known. */
		bench: {
			/** A batch broken off is gone on with first: what its pot holds cannot wait. */
			always: { guard: 'isMixing', target: 'mix' },
			on: {
				'check.began': [
					{ guard: 'isList', target: 'list', actions: 'begin' },
					{ guard: 'mayCheckGun', target: 'check', actions: 'begin' },
				],
				'batch.started': { guard: 'isNewBatch', target: 'mix', actions: 'startBatch' },
				'batch.stood': { guard: 'batchMoves', target: 'mix', actions: 'stepBatch' },
				'batch.loaded': {
					guard: and(['batchMoves', 'isToldAsItIs']),
					actions: ['stepBatch', 'stepGun', 'fillCup'],
				},
				'batch.discarded': { guard: 'batchMoves', actions: 'stepBatch' },
				'cup.emptied': { actions: ['stepGun', 'emptyCup'] },
				'gun.unknown': { actions: 'stepGun' },
				'reading.taken': [
					{ guard: 'isTouch', actions: 'stepFaces' },
					{ guard: 'isOneGo', actions: 'answerLate' },
					{ guard: 'isAccount', actions: 'keep' },
					{ guard: 'isSetUp', actions: 'keep' },
				],
				'face.ended': { guard: 'facesMove', actions: 'stepFaces' },
				'edge.left': { actions: 'keep' },
				'stage.done': { guard: 'facesMove', actions: 'stepFaces' },
				'part.setAside': { guard: and(['facesMove', 'noneIsStranded']), actions: 'stepFaces' },
				'rework.done': { guard: 'isNextOfLine', actions: 'stepFaces' },
				'override.given': { guard: 'facesMove', actions: 'stepFaces' },
				'wait.began': { target: 'wait', actions: 'stepGun' },
				'day.closed': { guard: 'allAccounted', target: 'closed' },
			},
		},
		list: {
			always: { guard: 'listClosed', target: 'bench', actions: 'closeList' },
			on: {
				'reading.taken': { guard: 'isAskedFor', actions: 'stepCheck' },
				'item.answered': { actions: 'stepCheck' },
				'override.given': { guard: 'passesOver', actions: ['notePassedOver', 'stepCheck'] },
			},
		},
		mix: {
			always: { guard: not('isMixing'), target: 'bench' },
			on: {
				'batch.stepped': { guard: 'batchMoves', actions: 'stepBatch' },
				'reading.taken': { guard: 'isReadingOfBatch', actions: 'stepBatch' },
				'batch.poured': { guard: 'batchMoves', actions: 'stepBatch' },
				'batch.found': { guard: 'batchMoves', actions: 'stepBatch' },
				'cup.timed': { guard: 'isTiming', actions: 'stepBatch' },
				'override.given': { guard: 'passesOverPaint', actions: 'stepBatch' },
				'batch.ready': { guard: 'batchMoves', actions: 'stepBatch' },
				'batch.discarded': { guard: 'batchMoves', actions: 'stepBatch' },
			},
		},
		check: {
			on: {
				'reading.taken': { guard: 'isAskedFor', actions: 'stepCheck' },
				'item.answered': { actions: 'stepCheck' },
				'override.given': { guard: 'passesOver', actions: ['notePassedOver', 'stepCheck'] },
				/** A cap turned or a knob moved on instruction: its pattern is read after it. */
				'gun.set': { guard: 'patternStillToCome', actions: 'keep' },
				'gun.checked': { guard: and(['checkPassed', 'settled']), target: 'ready', actions: 'knowGun' },
			},
		},
		/** The gun known: the next face, or what ends the knowledge. */
		ready: {
			on: {
				'face.started': { guard: 'maySpray', target: 'spraying', actions: 'stepFaces' },
				'gun.unknown': { target: 'bench', actions: 'stepGun' },
				'batch.loaded': {
					guard: and(['batchMoves', 'isToldAsItIs']),
					target: 'bench',
					actions: ['stepBatch', 'stepGun', 'fillCup'],
				},
				'cup.emptied': { target: 'bench', actions: ['stepGun', 'emptyCup'] },
				'reading.taken': [
					{ guard: 'isTouch', actions: 'stepFaces' },
					{ guard: 'isAccount', actions: 'keep' },
				],
				'part.setAside': { guard: and(['facesMove', 'noneIsStranded']), actions: 'stepFaces' },
				'rework.done': { guard: 'isNextOfLine', actions: 'stepFaces' },
				'override.given': { guard: 'facesMove', actions: 'stepFaces' },
				'wait.began': { target: 'wait', actions: 'stepGun' },
			},
		},
		spraying: {
			on: {
				/** A stretch: all its faces are started with one key. */
				'face.started': { guard: 'maySpray', actions: 'stepFaces' },
				'face.ended': [
					{ guard: and(['facesMove', 'stillSpraying']), actions: 'stepFaces' },
					{ guard: and(['facesMove', 'gunKnown']), target: 'ready', actions: 'stepFaces' },
					{ guard: 'facesMove', target: 'bench', actions: 'stepFaces' },
				],
				'face.late': { actions: ['markLate', 'stepGun'] },
				'gun.unknown': { actions: 'loseGun' },
			},
		},
		wait: {
			on: {
				'reading.taken': { guard: 'isSetUp', actions: 'keep' },
				'wait.ended': { guard: 'waitIsOver', target: 'bench' },
				'check.began': { guard: 'isList', target: 'list', actions: 'begin' },
				'batch.started': { guard: 'isNewBatch', target: 'mix', actions: 'startBatch' },
				'batch.stood': { guard: 'batchMoves', target: 'mix', actions: 'stepBatch' },
				'batch.discarded': { guard: 'batchMoves', actions: 'stepBatch' },
				'cup.emptied': { actions: 'emptyCup' },
				'gun.unknown': { actions: 'keep' },
				'stage.done': { guard: 'facesMove', actions: 'stepFaces' },
				'rework.done': { guard: 'isNextOfLine', actions: 'stepFaces' },
				'override.given': { guard: 'facesMove', actions: 'stepFaces' },
				'day.closed': { guard: 'allAccounted', target: 'closed' },
			},
		},
		hold: {
			on: {
				'break.ended': [
					{ guard: 'wasLong', target: 'bench', actions: 'askListAgain' },
					{ guard: 'wasShort', target: 'bench' },
				],
				'gun.unknown': { actions: 'keep' },
				'reading.taken': { guard: 'isAccount', actions: 'keep' },
				'face.ended': { guard: 'facesMove', actions: 'stepFaces' },
				'part.setAside': { guard: and(['facesMove', 'noneIsStranded']), actions: 'stepFaces' },
				'batch.discarded': { guard: 'batchMoves', actions: 'stepBatch' },
				'cup.emptied': { actions: 'emptyCup' },
				'day.closed': { guard: 'allAccounted', target: 'closed' },
			},
		},
		closed: {
			on: {
				'face.judged': { actions: 'keep' },
				'part.setAside': { guard: 'noneIsStranded', actions: 'stepFaces' },
			},
		},
	},
});
export type DayMachineState = SnapshotFrom<typeof dayMachine>;
