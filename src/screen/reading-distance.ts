/** Minutes of arc that a capital should fill, for glass and a visor (NUREG-0700 §1.3.1-4 asks for 16 at least). */
export const wantedMinutes = 40;

/**
 * How far off a letter can be read: height = 6.283 × distance × minutes / 21600 (NUREG-0700 §1.3.1-4).
 *
 * @param screen_mm height of the picture
 * @param rows rows of text on it
 * @param glyphRows height of a capital in rows; half a row for each pixel of block letters
 * @param minutes angle that the letter should fill, minutes of arc
 * @returns metres
 */
export function readingDistance_m(
	screen_mm: number,
	rows: number,
	glyphRows: number,
	minutes = wantedMinutes,
): number {
	const height_mm = (screen_mm / rows) * glyphRows;
	return (height_mm * 21600) / (6.283 * minutes) / 1000;
}

/** The rows that a capital must be high to be read from a distance in metres. */
export function rowsForDistance(
	screen_mm: number,
	rows: number,
	distance_m: number,
	minutes = wantedMinutes,
): number {
	return (6.283 * distance_m * 1000 * minutes) / 21600 / (screen_mm / rows);
}
