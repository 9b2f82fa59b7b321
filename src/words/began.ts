/**
 * When a break began: seen by nobody, when the program last ran; where the clock was set back since, when it was
 * noticed.
 * @returns an instant as the records write it
 */
export const beganAt = ({ at, since }: { at: string; since?: string | undefined }): string =>
	since !== undefined && since < at ? since : at;
