import type { DayMachineState } from '../../machines/day.ts';
import { faceNamed } from '../../machines/day-context.ts';
import { type Book, wasLong } from './book.ts';
import type { Instant } from './instant.ts';
import type { DayEvent, DayRecord, EventOf } from './records.ts';

/** What a record of a day of version 1 does not say, and today's charts ask for, said for it. */

type Before = { machine: DayMachineState; book: Book };

/** The window that a record says a face was in, where its chart does not stand in it yet. */
function movedTo({ machine }: Before, id: string, window: EventOf<'window.moved'>['to']): DayEvent[] {
	const face = faceNamed(machine.context, id);
	if (!face) return [];
	const { laid, window: stands } = face.context;
	const to = window === 'spray' && laid === 0 ? 'bare' : window;
	return stands.value === to ? [] : [{ type: 'window.moved', face: id, coat: laid + 1, to }];
}

/** A reason that does not say for which window it was given held for each; one for no step left them all out. */
function reasonsOf(before: Before, record: DayRecord & EventOf<'override.given'>): DayEvent[] {
	const { face: id, facts } = record;
	if (id === null) return [record];
	if (record.rule === 'window' && !record.window) {
		const windows = facts?.window ? [facts.window] : (['sand', 'scuff', 'wait'] as const);
		return windows.flatMap(window => [...movedTo(before, id, window), { ...record, window }]);
	}
	if (record.rule !== 'prep' || record.step) return [record];
	const face = faceNamed(before.machine.context, id);
	const { coats } = face?.context.rules ?? { coats: [] };
	const { prep = [] } = coats[face?.context.laid ?? 0] ?? {};
	return prep.length === 0 ? [record] : prep.map(step => ({ ...record, step }));
}

/**
 * A record of a day of version 1 as the events that today's charts take for it, in order; of any other day, itself.
 * @param now when the record was made
 */
export function asToday(before: Before, record: DayRecord, now: Instant): readonly DayEvent[] {
	if (before.book.opened.v !== 1) return [record];
	const { facts } = record;
	switch (record.type) {
		case 'face.started':
			return [
				...(facts?.window ? movedTo(before, record.face, facts.window) : []),
				{ ...record, facts: { thinned: true, fresh: true, ...facts } },
			];
		case 'override.given':
			return reasonsOf(before, record);
		case 'wait.ended':
		case 'rework.done':
			return [facts?.due === undefined ? { ...record, facts: { ...facts, due: true } } : record];
		case 'break.ended':
			return facts?.long === undefined
				? [{ ...record, facts: { ...facts, long: wasLong(before.book, now) } }]
				: [record];
		default:
			return [record];
	}
}
