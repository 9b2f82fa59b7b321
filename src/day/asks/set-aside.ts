import { faceOf, facesIn, inLineOf, type Moment } from '../moment.ts';
import type { DayEvent } from '../records.ts';

/**
 * Faces set aside for the fault of one of their part. Those that are sound keep all that was done to them; one with half
 * a coat on is not: it is told apart, and sanded flat too.
 */
export function setAside(moment: Moment, fault: string, why: string, faces: readonly string[]): DayEvent[] {
	const { part } = faceOf(moment, fault);
	const broken = facesIn(moment, 'part').filter(id => id !== fault && faces.includes(id));
	const whole = faces.filter(id => !broken.includes(id));
	return [
		{ type: 'part.setAside', part, faces: whole, faulty: [fault], why },
		...broken.map(
			(id): DayEvent => ({ type: 'part.setAside', part, faces: [id], faulty: [id], why: 'broken off' }),
		),
	];
}

/** Faces that leave the line with one that has a fault: those of its part in line, and itself, set aside as a sound one before. */
export const mayLeave = (moment: Moment, face: string): string[] => [
	...inLineOf(moment, faceOf(moment, face).part),
	...facesIn(moment, 'beside').filter(id => id === face),
];
