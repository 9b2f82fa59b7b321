import type { DayEvent, UnknownWhy } from './records.ts';

/** Why an event that ended the knowledge of the gun did so. */
export function whyUnknown(event: DayEvent): UnknownWhy {
	switch (event.type) {
		case 'break.began':
			return event.kind === 'restart' ? 'restart' : 'break';
		case 'wait.began':
			return 'wait';
		case 'face.late':
			return 'late';
		case 'batch.loaded':
			return event.refill ? 'refill' : 'batch';
		case 'cup.emptied':
			return 'cleaned';
		case 'fault.seen':
			return 'gun-fault';
		default:
			return 'break';
	}
}
