import { filmTurned } from '../film/map.ts';
import { sagLimit_um } from '../trade/sag.ts';
import { type Face, gunFor, type Job, laidAs, type PlannedCoat } from './job.ts';
import { linesOn, wanted_um } from './on-work.ts';

export type TurnedFan = {
	/** Film on its lines, in times of what is wanted, and how many lines there are. */
	times: number;
	strokes: number;
	/** The highest wet film on them. */
	wet_um: number;
	/** Share of the face that is left bare between them. */
	bare: number;
	/** It is over what the face holds, and moves. */
	runs: boolean;
	/** Flat work: it does not run, but stands over the upright limit. */
	floods: boolean;
};

/**
 * What a coat of a face would come to with the fan along its strokes: this face's fan and lines, this coat's film.
 * @returns null where the material has no such coat
 */
export function turnedFan(job: Job, face: Face, coat: PlannedCoat): TurnedFan | null {
	const material = job.materials[coat.material];
	const mean_um = material ? wanted_um(material, coat.kind) : null;
	if (!material || mean_um === null) return null;
	const laid = linesOn(gunFor(job, coat), laidAs(face, coat), coat.stroke);
	const { most, bare } = filmTurned(laid);
	const wet_um = most * mean_um;
	return {
		...{ times: most, strokes: laid.lines.count, wet_um, bare },
		runs: wet_um > sagLimit_um(material.sag_um, face.attitude),
		floods: face.attitude === 'flat' && wet_um > material.sag_um,
	};
}
