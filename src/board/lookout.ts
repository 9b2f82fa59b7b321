import { placeAt } from '../day/ask.ts';
import { underWay } from '../day/asks/spraying.ts';
import { activityOf, type Moment, settingsOf } from '../day/moment.ts';
import { freshUi } from '../day/prompt.ts';
import type { DayRecord } from '../day/records.ts';
import type { DayState } from '../day/state.ts';

/**
 * When somebody should look in on a painter who is alone: at the end of what the step that was last answered allows.
 * What the program does by itself meanwhile, a hold among it, gives no more time; a wait that it begins does.
 */
export type Lookout = {
	/** When the painter last answered, ms since 1970. */
	answered: number;
	/** When somebody should look in; Infinity: never, for the day is closed or not sprayed alone. */
	calls: number;
	/** The breathing air was lost, and is not said to be back. */
	isLost: boolean;
};

const min_ms = 60_000;

/** Longest silence of a step, min. This project's own choice; no setting takes it away. */
export const allowed_min = { pass: 3, wait: 10, step: 10, bench: 30 };

/** Work away from the screen: a hold, sanding and masking, a part's own rework, cleaning up. */
const atBench = /^(?:hold|prep|rework|finish|list\.clean-up)\b/;

/** What the clock or the program makes by itself. */
const byItself: readonly DayRecord['type'][] = [
	...(['check.began', 'clock.set', 'day.planned', 'face.late', 'gun.checked', 'trigger.off'] as const),
	...(['trigger.on', 'wait.began', 'wait.ended', 'window.moved', 'window.set'] as const),
];

/** Whether a person made a record: of what may have come by itself the careful answer is no. */
function isAnswer(record: DayRecord): boolean {
	switch (record.type) {
		case 'break.began':
			return record.by === 'painter';
		case 'rework.done':
			return record.step !== 'respray';
		case 'batch.discarded':
			return record.why !== 'past its life' && record.why !== 'contents unknown';
		case 'gun.unknown':
			return record.why === 'gun-fault';
		default:
			return !byItself.includes(record.type);
	}
}

const waitEnd = ({ book }: DayState): number => Date.parse(book.wait?.due ?? '') + allowed_min.wait * min_ms;

/** Until when a step that was answered at an instant may go on in silence, ms. */
function silentUntil(moment: Moment, answered: number, wasLost: boolean): number {
	if (!settingsOf(moment).alone) return Number.POSITIVE_INFINITY;
	switch (activityOf(moment)) {
		case 'closed':
			return Number.POSITIVE_INFINITY;
		case 'wait':
			return waitEnd(moment.state);
		case 'spraying': {
			const { began, total_s } = underWay(moment);
			return began + total_s * 1000 + allowed_min.pass * min_ms;
		}
		default: {
			if (moment.state.book.break?.kind === 'air-lost') return wasLost ? step(answered) : answered;
			const { state } = placeAt(moment, freshUi).prompt;
			return atBench.test(state) ? answered + allowed_min.bench * min_ms : step(answered);
		}
	}
}
const step = (answered: number): number => answered + allowed_min.step * min_ms;

/**
 * After the records of one key, or of what came by itself.
 * @param before null: the day was just opened
 */
export function lookoutAfter(before: Lookout | null, key: readonly DayRecord[], state: DayState): Lookout {
	const moment: Moment = { state, now: state.book.now };
	const isLost = state.book.break?.kind === 'air-lost';
	if (before && !key.some(isAnswer)) {
		const isWait = activityOf(moment) === 'wait';
		return { ...before, isLost, calls: isWait ? Math.max(before.calls, waitEnd(state)) : before.calls };
	}
	const answered = Date.parse(state.book.last.at);
	return { answered, calls: silentUntil(moment, answered, before?.isLost ?? false), isLost };
}
