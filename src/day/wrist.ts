import type { Job } from '../job/job.ts';
import type { EventOf } from './records.ts';

/**
 * Whether a pattern that differs is first put down to the wrist: the gun is to be laid over for this face, the fan lies
 * the other way, and nobody was told of it yet. A cap turned for it would stay turned once the gun is laid over.
 */
export function doubtsWrist(
	{ faces }: Pick<Job, 'faces'>,
	{ feature, value, face: id, attempt, matched }: EventOf<'reading.taken'>,
): boolean {
	const tilt = faces.find(face => face.id === id)?.tilt ?? 0;
	const showsFan = (feature === 'pattern' || feature === 'card') && value !== 'round' && value !== 'bad';
	return !matched && tilt !== 0 && showsFan && attempt === 1;
}
