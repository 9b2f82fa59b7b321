import { knownOf } from '../../machines/day-context.ts';
import { windowsMoved } from './allowed.ts';
import { following } from './follow.ts';
import { type Instant, isoAt } from './instant.ts';
import type { DayEvent, DayRecord } from './records.ts';
import { type DayState, fold } from './state.ts';
import { whyUnknown } from './why-unknown.ts';

/** From what happened to the records of one key, and to the state that they leave. */

/** A record says so where one ends what was known of the gun. */
const isKnown = ({ machine }: DayState): boolean => knownOf(machine.context) !== null;

/** What happens, as the next record of a day. */
export const recordOf = ({ book }: DayState, event: DayEvent, now: Instant): DayRecord => ({
	seq: book.last.seq + 1,
	run: now.run,
	at: isoAt(now.wall),
	mono: now.mono,
	...(now.up !== undefined && { up: now.up }),
	...event,
});

export type Done = { state: DayState; records: DayRecord[] };

/** More records than one key can ever make: a rule that follows on itself. */
const tooMany = 200;

/**
 * What one key makes: its own records, what they end, and what follows on them by itself.
 * @throws Error where an event cannot happen in this state
 */
export function transact(start: DayState, events: readonly DayEvent[], now: Instant): Done {
	let state = start;
	const records: DayRecord[] = [];
	const put = (event: DayEvent) => {
		const known = isKnown(state);
		const record = recordOf(state, event, now);
		state = fold(state, record);
		records.push(record);
		if (known && !isKnown(state) && event.type !== 'gun.unknown')
			put({ type: 'gun.unknown', why: whyUnknown(event) });
	};
	const step_ms = now.wall - start.book.now.wall;
	if (step_ms < 0 && events.length > 0) put({ type: 'clock.set', stepMs: step_ms });
	if (events.length > 0 && events[0]?.type !== 'break.began')
		for (const moved of windowsMoved({ state, now })) put(moved);
	for (const event of events) put(event);
	/** What was just said of a clock that jumped holds for what follows. */
	const after = () => following({ state, now: records.length > 0 ? state.book.now : now });
	for (let next = after(); next.length > 0; next = after()) {
		for (const event of next) put(event);
		if (records.length > tooMany) throw new Error(`${records.at(-1)?.type} follows on itself without end`);
	}
	return { state, records };
}
