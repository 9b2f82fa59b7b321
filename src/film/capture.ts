import type { Fan } from '../trade/fan.ts';
import { integrate } from '../trade/quadrature.ts';
import { type Lines, lineAt } from './lines.ts';
import { type Profile, reached, turned } from './profile.ts';

/** Lines' worth of film that meets a face: K. Both edges are alike, so each line is counted from one of them. */
export function linesWorth(lines: Lines, profile: Profile): number {
	const { count, first_mm, spacing_mm } = lines;
	const whole = Math.max(0, Math.ceil((profile.half_mm - first_mm) / spacing_mm));
	const near = Math.min(count, whole);
	let sum = (count - near) / 2;
	for (let index = 0; index < near; index++) sum += profile.from(lineAt(lines, index));
	return 2 * sum;
}

/** Share of a corner pass, straight at the corner, that each of its two sides may get. */
const slant = Math.SQRT1_2;

/** Lines' worth of one corner pass at 45° that meets one of its sides. */
export const cornerWorth = (profile: Profile, height_mm: number): number => profile.from(height_mm * slant);

/** Film of the corner pass on a side, at a distance from the corner, as the profile has it, per mm. */
export const cornerAt = (profile: Profile, y_mm: number): number => profile.at(y_mm * slant) * slant;

/**
 * Length of full film that a stroke leaves on a face, mm: all of it where the gun goes half a fan's depth past each end.
 * @param along_mm the face along the stroke
 * @param lead_mm how far the gun goes past each end
 */
export function fullLength_mm(fan: Fan, along_mm: number, lead_mm: number): number {
	const half = fan.depth_mm / 2;
	if (lead_mm >= half) return along_mm;
	const ends = turned(fan, 90);
	const short = Math.min(along_mm, half - lead_mm);
	const missed = integrate(x => 0.5 - ends.from(x + lead_mm), 0, short);
	return along_mm - 2 * missed;
}

/** Share of the full film at a place, x along the stroke and y from its line. */
export const alongAt = (fan: Fan, along_mm: number, lead_mm: number, x_mm: number, y_mm: number): number =>
	reached(fan, x_mm + lead_mm, y_mm) - reached(fan, x_mm - along_mm - lead_mm, y_mm);
