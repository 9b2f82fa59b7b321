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
