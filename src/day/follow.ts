import { batchInHand } from '../../machines/day-context.ts';
import { orderFor } from '../plan/order.ts';
import { pourOrder } from '../trade/mix.ts';
import { isSettled, stopsAt, windowsMoved } from './allowed.ts';
import { tooLittleToTime } from './asks/flow-cup.ts';
import { beginCheck } from './asks/gun-items.ts';
import { lateAt } from './asks/spraying.ts';
import { beginList } from './begin-list.ts';
import { isOtherGun } from './guns.ts';
import { type Instant, isLater, isoAt } from './instant.ts';
import {
	activityOf,
	contextOf,
	faceBook,
	faceOf,
	jobOf,
	laidOn,
	type Moment,
	nextCoat,
	settingsOf,
} from './moment.ts';
import { nextStep, type Step } from './next.ts';
import { pending, roundCoat } from './order.ts';
import { deadPots } from './paint.ts';
import type { DayEvent, EventOf } from './records.ts';
import { windowsDue } from './windows-due.ts';
import { waitReasoned } from './work.ts';

/** Records that follow from where the day stands, without any key: at most one step of them at a time. */

/** A face back from its rework line has had the coat that its line ends with. */
const resprayed = (moment: Moment): DayEvent[] =>
	moment.state.book.resprayed.map(face => ({ type: 'rework.done', face, step: 'respray' }));

function orderDue(moment: Moment): DayEvent[] {
	const first = pending(moment)[0];
	if (!first) return [];
	const { stage, ofStage } = nextCoat(moment, first.face);
	const coat = roundCoat(jobOf(moment), stage, ofStage[0]);
	const planned = moment.state.book.orders.some(order => order.stage === stage && order.coat === coat);
	if (planned) return [];
	return [
		{
			type: 'day.planned',
			stage,
			coat,
			faces: orderInForce(moment, stage, coat),
			order: jobOf(moment).order,
		},
	];
}

/** Faces of a coat in the order that the sheet fixes. */
const orderInForce = (moment: Moment, stage: number, coat: number): string[] =>
	orderFor(jobOf(moment), stage).coats.find(one => one.coat === coat)?.faces ?? [];

/** Steps that are the next planned thing while the gun is known; any other is a break in itself. */
const keepsGun: readonly Step['kind'][] = ['ready', 'stray', 'turn', 'load', 'empty', 'touch', 'dry', 'wait'];

const discardDead = (moment: Moment): DayEvent[] =>
	deadPots(moment).map(batch => ({ type: 'batch.discarded', batch, why: 'past its life' }));

/** Air outside the limits may be a slip, read again at once: nothing is given up for it until it is settled. */
const isAirDoubted = (moment: Moment): boolean =>
	pending(moment).some(({ face }) =>
		stopsAt(moment, face).some(stop => stop.by === 'air' && stop.is === 'out'),
	);

function fromBench(moment: Moment): DayEvent[] {
	const { gun } = contextOf(moment);
	const dead = activityOf(moment) === 'bench' ? discardDead(moment) : [];
	if (dead.length > 0 && !isAirDoubted(moment)) return dead;
	const order = orderDue(moment);
	if (order.length > 0) return order;
	const step = nextStep(moment);
	if (activityOf(moment) === 'ready' && !keepsGun.includes(step.kind))
		return [{ type: 'gun.unknown', why: 'break' }];
	if (step.kind === 'prep' && gun.matches('shortCheckDue')) return [{ type: 'gun.unknown', why: 'break' }];
	const isForGun = step.kind === 'check' || step.kind === 'turn';
	if (isForGun && !gun.matches('fullCheckDue') && isOtherGun(moment, step.face))
		return [{ type: 'gun.unknown', why: 'break' }];
	switch (step.kind) {
		case 'list':
			return [beginList(moment, step.list)];
		case 'wait':
			return [
				{
					type: 'wait.began',
					face: step.face,
					coat: step.face ? laidOn(moment, step.face) + 1 : null,
					due: isoAt(Math.ceil(step.due)),
					why: step.why,
				},
			];
		case 'turn':
			return [{ type: 'gun.unknown', why: step.why }];
		case 'check':
			return [beginCheck(moment, step.face, gun.matches('shortCheckDue') ? 'short' : 'full')];
		default:
			return [];
	}
}

function fromMix(moment: Moment): DayEvent[] {
	const [batch, machine] = batchInHand(contextOf(moment)) ?? [];
	const book = batch === undefined ? undefined : moment.state.book.batches.get(batch);
	if (batch === undefined || !machine || !book) return [];
	const dead = discardDead(moment);
	if (dead.length > 0) return dead;
	if (machine.matches('doomed')) return [{ type: 'batch.discarded', batch, why: 'contents unknown' }];
	if (machine.matches('cup')) return tooLittleToTime(moment, batch, book, volumeOf(moment, batch));
	if (!machine.matches('mixed')) return [];
	return [{ type: 'batch.ready', batch, volume_mL: volumeOf(moment, batch) }];
}

/** What was read into the pot, as a volume. */
function volumeOf(moment: Moment, letter: string): number {
	const batch = moment.state.book.batches.get(letter);
	const material = batch && jobOf(moment).materials[batch.material];
	const density = batch?.by === 'weight' ? material?.density_kg_per_L : null;
	const volume = pourOrder.reduce(
		(sum, component) => sum + (batch?.amounts[component] ?? 0) / (density?.[component] ?? 1),
		0,
	);
	return Math.max(1, volume);
}

/** The next records that no key is needed for. */
export function following(moment: Moment): DayEvent[] {
	const activity = activityOf(moment);
	if (activity === 'closed') return [];
	const windows = windowsDue(moment);
	if (windows.length > 0) return windows;
	const moved = windowsMoved(moment);
	if (moved.length > 0) return moved;
	switch (activity) {
		case 'bench':
		case 'ready': {
			const back = resprayed(moment);
			return back.length > 0 ? back : fromBench(moment);
		}
		case 'mix':
			return fromMix(moment);
		case 'check':
			return checkDone(moment);
		case 'wait':
			return sooner(moment);
		default:
			return [];
	}
}

const endOf = ({ face, coat, due }: EventOf<'wait.began'>): EventOf<'wait.ended'> => ({
	type: 'wait.ended',
	face,
	coat,
	due,
});

/** A wait for a window that was overridden ends at once. No reason shortens the others: standing, a wet tab, rework. */
function sooner(moment: Moment): DayEvent[] {
	const { wait } = moment.state.book;
	if (!wait?.face || (wait.why !== 'window' && wait.why !== 'flash')) return [];
	if (!waitReasoned(moment, wait.face)) return [];
	return [{ ...endOf(wait), facts: { due: false } }];
}

function checkDone(moment: Moment): DayEvent[] {
	const { check, cup, checked } = contextOf(moment);
	const { check: book } = moment.state.book;
	if (!check?.matches('passed') || !book?.face || !book.size || !checked || !isSettled(moment)) return [];
	return [
		{
			type: 'gun.checked',
			check: book.no,
			size: book.size,
			face: book.face,
			coat: book.coat ?? 1,
			cup: [...cup],
			horns: checked.rule.horns,
			tilt: faceOf(moment, book.face).tilt,
			facts: { settled: true },
		},
	];
}

/** A moment at which the clock alone makes a record. */
export type Deadline = { at: number; events: DayEvent[] };

/** The earliest of them; null: nothing is due by itself. */
export function deadlineOf(moment: Moment): Deadline | null {
	const { book } = moment.state;
	switch (activityOf(moment)) {
		case 'wait': {
			const { wait } = book;
			if (!wait) return null;
			return { at: Date.parse(wait.due), events: [{ ...endOf(wait), facts: { due: true } }] };
		}
		case 'list':
			return book.check?.list === 'before-spraying' ? silent(moment) : null;
		case 'ready':
			return silent(moment);
		case 'check': {
			const settled = book.backSince ? settledWall(moment) : null;
			const silence = silent(moment);
			return contextOf(moment).check?.matches('passed') && settled !== null && settled < silence.at
				? { at: settled, events: [] }
				: silence;
		}
		case 'spraying':
			return sprayingDeadline(moment);
		default:
			return null;
	}
}

/** When so long a silence is a break: whoever was there may have gone, and somebody else have come. */
function silent(moment: Moment): Deadline {
	const { check, heard, checked } = moment.state.book;
	const isCheck = activityOf(moment) === 'check';
	const { silence_min, checkTakes_min, listSilence_min } = settingsOf(moment);
	const isList = activityOf(moment) === 'list';
	const quiet = heard.wall + (isList ? listSilence_min : silence_min) * 60_000;
	const began = isCheck ? check?.began : isList ? undefined : checked?.began;
	const isBefore = began !== undefined && !sprayedSince(moment, began);
	const whole = isBefore ? began.wall + checkTakes_min * 60_000 : Number.POSITIVE_INFINITY;
	return { at: Math.min(quiet, whole), events: unseenBreak('silence', heard) };
}

/** A pass ended since a check began. */
const sprayedSince = (moment: Moment, began: Instant): boolean =>
	jobOf(moment).faces.some(({ id }) => {
		const { laid, part } = faceBook(moment, id);
		return [laid.at(-1)?.ended, part?.since].some(ended => ended !== undefined && !isLater(began, ended));
	});

const settledWall = (moment: Moment): number => {
	const { backSince } = moment.state.book;
	return backSince ? backSince.wall + settingsOf(moment).settle_s * 1000 : moment.now.wall;
};

/** `since`: the earliest that a break can have begun which is noticed only now. */
const unseenBreak = (kind: 'overdue' | 'trigger-pause' | 'silence', since: Instant): DayEvent[] => [
	{ type: 'break.began', kind, by: 'program', since: isoAt(since.wall) },
];

function sprayingDeadline(moment: Moment): Deadline {
	const { book } = moment.state;
	const { farOverdue_s, triggerPause_s } = settingsOf(moment);
	const late = lateAt(moment);
	const face = contextOf(moment).faces.find(one => one.matches('spraying'))?.context;
	const began = (face && faceBook(moment, face.rules.id).pass?.began) ?? moment.now;
	const own: Deadline = contextOf(moment).late
		? { at: late + farOverdue_s * 1000, events: unseenBreak('overdue', began) }
		: {
				at: late,
				events: face ? [{ type: 'face.late', face: face.rules.id, coat: face.laid + 1 }] : [],
			};
	const paused_ms = book.triggerOff ? book.triggerOff.wall + triggerPause_s * 1000 : Number.POSITIVE_INFINITY;
	return book.triggerOff && paused_ms < own.at
		? { at: paused_ms, events: unseenBreak('trigger-pause', book.triggerOff) }
		: own;
}
