import { comfortable_mm_per_s } from '../film/speed.ts';
import { type CoatKind, type Face, fanFor_mm, gunFor, type Job, type PlannedCoat } from './job.ts';

/** How one kind of coat is sprayed under one fan: the knob it wants, and the speeds of its faces. */
export type CoatSpeeds = {
	material: string;
	kind: CoatKind;
	fanHeight_mm: number;
	gun: Job['gun'];
	flow_mL_per_min: number;
	slowest_mm_per_s: number;
	fastest_mm_per_s: number;
	coats: { face: Face; coat: PlannedCoat }[];
};

/** The kinds of coat that a job lays, each with its knob and its speeds. A job planned under older sums says none. */
export function coatSpeeds(job: Job): CoatSpeeds[] {
	const found = new Map<string, CoatSpeeds>();
	for (const face of job.faces)
		for (const coat of face.coats) {
			const { material, kind, speed_mm_per_s, flow_mL_per_min } = coat;
			if (speed_mm_per_s === undefined || flow_mL_per_min === undefined) continue;
			const fanHeight_mm = fanFor_mm(face, coat);
			const gun = gunFor(job, coat);
			const key = [material, kind, fanHeight_mm, gun.pressure_kPa, gun.flow_mL_per_min].join('\u0000');
			const known = found.get(key) ?? {
				...{ material, kind, fanHeight_mm, gun, flow_mL_per_min, coats: [] },
				...{ slowest_mm_per_s: speed_mm_per_s, fastest_mm_per_s: speed_mm_per_s },
			};
			known.slowest_mm_per_s = Math.min(known.slowest_mm_per_s, speed_mm_per_s);
			known.fastest_mm_per_s = Math.max(known.fastest_mm_per_s, speed_mm_per_s);
			known.coats.push({ face, coat });
			found.set(key, known);
		}
	return [...found.values()];
}

/** What a hand keeps, mm/s, by the sheet. */
export const rangeOf = ({ gun }: Pick<Job, 'gun'>): readonly [number, number] =>
	gun.speeds_mm_per_s ?? comfortable_mm_per_s;

/** A flow that is not the gun's: the knob is turned for it. */
export const turnsKnob = ({ gun }: Pick<Job, 'gun'>, flow_mL_per_min: number): boolean =>
	Math.abs(flow_mL_per_min / gun.flow_mL_per_min - 1) > 1e-6;
