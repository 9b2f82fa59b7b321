import { alongToAcross, type Fan, type Stroke, strokeFilm_um } from './fan.ts';
import { positive } from './range.ts';

export type Attitude = 'upright' | 'flat' | 'underside';

/**
 * Wet film above which paint moves on a face: nothing pulls it sideways on flat work, where it floods instead.
 * @param sag_um the material's limit on an upright face
 * @returns µm; Infinity for flat work
 * Source: common practice, no source, for the underside (taken as upright).
 */
export const sagLimit_um = (sag_um: number, attitude: Attitude): number =>
	attitude === 'flat' ? Number.POSITIVE_INFINITY : positive('sag limit', sag_um, 'µm');

export type AlongStroke = {
	/** Film on the line, in times of what the same stroke lays with the fan across it. */
	times: number;
	/** The highest wet film on that line. */
	wet_um: number;
	/** It is over what the face holds, and moves. */
	runs: boolean;
	/** Flat work: it does not run, but stands over the upright limit. */
	floods: boolean;
};

/**
 * What a stroke with the fan along it would lay on its one line, against what the face can hold.
 * @param given fan, stroke, the sag limit of the material on an upright face (µm) and the face's attitude
 * @throws RangeError outside the ranges of the fan model
 */
export function alongStrokeVerdict(
	given: Fan & Stroke & { sag_um: number; attitude: Attitude },
): AlongStroke {
	const wet_um = strokeFilm_um(given, given, 90, 0);
	return {
		times: alongToAcross(given),
		wet_um,
		runs: wet_um > sagLimit_um(given.sag_um, given.attitude),
		floods: given.attitude === 'flat' && wet_um > given.sag_um,
	};
}
