import type { DayEvent } from '../../src/day/records.ts';
import type { Property } from './properties.ts';

/** Which properties an event puts to the test where a day stands: what a walk counts as a case of each. */

const byType: Partial<Record<DayEvent['type'], readonly Property[]>> = {
	'face.started': [1, 2, 3, 4, 11, 13, 14, 15, 16],
	'gun.checked': [1, 2, 11, 15],
	'check.began': [1, 11, 13, 14],
	'reading.taken': [2, 11],
	'item.answered': [11],
	'override.given': [11, 16],
	'face.ended': [14, 15],
	'stage.done': [3, 16],
	'part.setAside': [14, 17],
	'rework.done': [14, 17],
	'batch.started': [13],
	'batch.poured': [13],
	'batch.found': [13],
	'batch.stepped': [13],
	'batch.stood': [13],
	'batch.ready': [13],
	'cup.timed': [13],
	'batch.loaded': [4, 13],
	'batch.discarded': [4, 13],
	'cup.emptied': [4, 13],
	'gun.set': [4],
	'gun.unknown': [4],
	'fault.seen': [4],
	'face.late': [1, 4],
	'wait.began': [1, 4],
	'break.began': [1, 4, 5],
	'break.ended': [1],
};

/** What is counted, in words. */
export const cases: Readonly<Record<Property, string>> = {
	1: 'starts, passes, checks begun, breaks and waits put',
	2: 'starts, passes and readings put',
	3: 'starts, and work recorded on a face, put',
	4: 'causes, and starts after them, put',
	5: 'breaks put, in every state',
	6: 'events put in hold and wait, and what leads to ready or spraying',
	7: 'times asked what stands before a face',
	8: 'restarts put, in every state',
	9: 'events put',
	11: 'items, reasons, checks, passes and starts put',
	13: 'steps of mixing, loads, checks begun and starts put',
	14: 'starts, ends, settings aside and steps back in line put',
	15: 'passes, starts and ends put',
	16: 'steps, reasons and starts put',
	17: 'settings aside and steps of a line put',
};

/** @param value the activity of the day in which the event is put */
export function atStake(event: DayEvent, value: string): readonly Property[] {
	const own = byType[event.type] ?? [];
	const restart = event.type === 'break.began' && event.kind === 'restart';
	const away = value === 'hold' || value === 'wait';
	const toGun = event.type === 'face.started' || event.type === 'gun.checked';
	return [9, ...own, ...(restart ? ([8] as const) : []), ...(away || toGun ? ([6] as const) : [])];
}
