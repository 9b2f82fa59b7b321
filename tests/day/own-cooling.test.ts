import { expect, test } from 'vitest';
import type { Face } from '../../src/job/job.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/**
 * A film cools its own face: 107 µm wet at 37.5 % solids takes 3.8 K of 1 mm steel (constants from memory, sums by hand). Said
 * as advice once the air was read, where it would take more of the margin over the dew point than is wanted of it, 3 K.
 */

function read(humidity: number, substrate: Face['substrate'] | null, surface_C = 21) {
	const job = smallJob();
	const faces = job.faces.map(face => ({ ...face, ...(substrate && { substrate }) }));
	const day = rehearsed({ job: { ...job, faces } });
	Object.assign(day.painter.world.air, { humidity, surface_C });
	day.until(() => day.ofType('air.read').length > 0);
	return day;
}
const said = 'Dew point margin 5.7 °C: fast reducer may take 3.8 °C.';

test('is said beside the next question, in so many words as a screen has, and stops nothing', () => {
	const day = read(0.7, 'metal');
	expect(day.line().lines.join('|')).toBe(said);
	expect(said.replaceAll(' °C', '').split(' ').length).toBeLessThanOrEqual(12);
	expect(day.ofType('air.read')[0]).toMatchObject({ spray: true, reasons: [] });
	day.toEnd();
	expect(day.ofType('face.ended')).toHaveLength(6);
	expect(day.ofType('override.given')).toEqual([]);
	expect(day.findings()).toEqual([]);
});

test.each([
	['where enough of the margin is left', 0.4, 'metal', 21],
	['where the sheet does not say what a face is made of', 0.7, null, 21],
	['where the air says no already', 0.84, 'metal', 20],
] as const)('is not said %s', (_, humidity, substrate, surface_C) => {
	expect(read(humidity, substrate, surface_C).line().lines.join(' ')).not.toContain('reducer may take');
});

test('a face that gives much heat is cooled by less: plastic, 2.7 K', () => {
	expect(read(0.72, 'plastic').line().lines.join(' ')).toContain('fast reducer may take 2.7 °C.');
});
