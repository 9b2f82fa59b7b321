import { wanted_um } from '../job/on-work.ts';
import { paceOf } from '../trade/film.ts';
import { plannedPull_s, pulledUntil_s } from '../trade/pulls.ts';
import { sagLimit_um } from '../trade/sag.ts';
import { format } from '../trade/shown.ts';
import { tookSaid } from '../words/took.ts';
import { faceBook, faceOf, type Moment, materialOf, nextCoat, unitsOf } from './moment.ts';
import { isTimed, usualOf } from './takes.ts';

/** A share of the planned time by which it may differ before anything is said of it. This project's own choice. */
const tolerance = 0.25;

/** The film of a face whose pulls are known, were it finished now: the one wanted × its pace; null where it is right. */
function filmLine(moment: Moment, id: string, took_s: number, given_s: number): string | null {
	const coat = nextCoat(moment, id);
	const material = materialOf(moment, coat.material);
	const limit_um = sagLimit_um(material.sag_um, coat.attitude ?? faceOf(moment, id).attitude);
	const should_s = plannedPull_s(given_s, coat, usualOf(moment.state.book.opened, coat.material));
	const mean_um = wanted_um(material, coat.kind);
	if (mean_um === null) return null;
	const { pace, wet_um, runs } = paceOf({ took_s, should_s, wet_um: mean_um, limit_um }, tolerance);
	if (pace === 'right') return null;
	const film = `about ${format(wet_um, 'film', unitsOf(moment))} wet by the sheet's flow`;
	if (pace === 'fast') return `Last face: fast, ${film}. Look for thin places.`;
	return `Last face: slow, ${film}. ${runs ? 'It may run.' : 'Look at its edges.'}`;
}

/**
 * A line about faces that end now: of one face with a trigger line, the film that its pulls come to; else how long
 * it was from key to key, and no more. Null where nothing is out of the way.
 */
export function paceLine(moment: Moment, faces: readonly string[]): string | null {
	const { opened } = moment.state.book;
	const passes = faces.flatMap(id => faceBook(moment, id).pass ?? []);
	const [first] = passes;
	const [id] = faces;
	if (!first || id === undefined) return null;
	const pulled_s = faces.length === 1 ? pulledUntil_s(first.pulls, moment.now.wall) : null;
	if (pulled_s !== null && pulled_s > 0) return filmLine(moment, id, pulled_s, first.spray_s);
	const took_s = (moment.now.wall - first.began.wall) / 1000;
	const planned_s = passes.reduce((sum, { spray_s }) => sum + spray_s, 0);
	if (Math.abs(took_s / planned_s - 1) <= tolerance) return null;
	const isUsual = faces.every(one => isTimed(opened, nextCoat(moment, one).material));
	return `Last ${faces.length > 1 ? 'stretch' : 'face'}: took ${tookSaid(took_s, planned_s, isUsual)}.`;
}
