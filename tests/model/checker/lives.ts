import type { Day } from './day.ts';
import { type Finding, finding } from './finding.ts';
import { allOf, type NoteOf } from './notes.ts';
import { lifeAt } from './pot-life.ts';
import { leastStanding_min } from './pots.ts';

/** The least that a pass of this paint takes by the sheet, s. */
const shortestPass_s = (day: Day, material: string): number =>
	Math.min(
		...day.sheet.faces.flatMap(({ coats }) =>
			coats.filter(coat => coat.material === material).map(({ spray_s }) => spray_s),
		),
	);

function livesTooShort(day: Day, started: NoteOf<'batch.started'>): Finding[] {
	const paint = day.sheet.materials[started.material];
	const air = allOf(day.notes.slice(0, started.n), 'air.read').at(-1);
	if (!paint || !air) return [];
	const life_s = 3600 * lifeAt(paint, air.airC);
	const stands_min = leastStanding_min(paint);
	const needs_s = stands_min * 60 + shortestPass_s(day, started.material);
	if (needs_s < life_s) return [];
	const says = `it stands ${stands_min} min and lives ${(life_s / 60).toFixed(1)} min at ${air.airC} °C`;
	return [finding(22, started, `batch ${started.batch} is mixed in vain: ${says}`)];
}

/** No batch is begun whose standing leaves no pass in its life at the temperature read (property 22). */
export function batchesLive(day: Day): Finding[] {
	return allOf(day.notes, 'batch.started').flatMap(started => livesTooShort(day, started));
}
