import type { DayRecord } from '../day/records.ts';
import { bursts_mL, standardLosses } from '../film/losses.ts';
import type { Job } from '../job/job.ts';

/** Readings of the gun that a burst on paper is sprayed for. */
const onPaper = ['pattern', 'card', 'pattern-height', 'flooded'];

/**
 * Paint that a record's burst on paper took, at the flow of the coat that it was sprayed for.
 * @returns mL; 0 where it tells of no burst
 */
export function burst_mL({ gun, faces }: Job, record: DayRecord): number {
	if (record.type !== 'reading.taken' || !onPaper.includes(record.feature)) return 0;
	const coats = faces.find(({ id }) => id === record.face)?.coats ?? [];
	const { flow_mL_per_min = gun.flow_mL_per_min } = coats[(record.coat ?? 0) - 1] ?? {};
	return bursts_mL(gun.losses ?? standardLosses, flow_mL_per_min, 1);
}
