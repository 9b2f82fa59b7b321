import type { DayRecord } from '../day/records.ts';
import type { FaultData } from '../trace/faults.ts';
import { type Trace, TraceError, trace } from '../trace/trace.ts';
import type { FaultRow } from './tables/happenings.ts';
import { usableZone } from './times.ts';

/** A fault on a face and what came of tracing it; `why`: it starts no trace, or none could be made. */
export type Traced = { fault: string; face: string; coat: number; trace: Trace | null; why: string | null };

/** A day whose zone this machine does not know is told in UTC. */
function inKnownZone(day: readonly DayRecord[]): readonly DayRecord[] {
	const [first, ...rest] = day;
	return first?.type === 'day.opened' ? [{ ...first, zone: usableZone(first.zone) }, ...rest] : day;
}

/**
 * Traces every fault seen on a face of a day, each once.
 * @param days all days that may bear on it, oldest first, the day itself the last
 * @param faults of the day
 */
export function tracesOf(
	days: readonly (readonly DayRecord[])[],
	faults: readonly FaultRow[],
	data: FaultData,
): Traced[] {
	const told = days.map(inKnownZone);
	const asked = new Map<string, { fault: string; face: string; coat: number }>();
	for (const { fault, face, coat } of faults)
		if (face !== null && coat !== null) asked.set(`${fault} ${coat} ${face}`, { fault, face, coat });
	return [...asked.values()].map(question => {
		try {
			return { ...question, trace: trace({ days: told, ...question }, data), why: null };
		} catch (error) {
			if (error instanceof TraceError || error instanceof RangeError)
				return { ...question, trace: null, why: error.message };
			throw error;
		}
	});
}
