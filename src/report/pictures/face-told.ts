import { type Face, gunFor } from '../../job/job.ts';
import type { Trace } from '../../trace/trace.ts';
import type { Report } from '../page/context.ts';
import type { CoatRow } from '../tables/coats.ts';
import { faceIn, plannedCoat } from '../tables/day.ts';
import { type Departure, departureOf } from './departure.ts';
import type { FaceAsked } from './face.ts';

/** How a coat of a face stands: laid whole or in part today, on a day before, or to come. */
export type CoatTold = {
	coat: number;
	material: string;
	stands: 'all' | 'part' | 'before' | 'due';
	over: boolean;
};

/** A face in question of one fault: its place in the order of looking, 0 the one asked about. */
export type Suspect = { fault: string; look: number; likely: boolean; judged: string | null };

/** All that a picture of a face tells of it. */
export type FaceTold = {
	id: string;
	part: string;
	/** null: the day's sheet knows no such face, or no coat for it. */
	asked: FaceAsked | null;
	coats: CoatTold[];
	/** Of the coats whose film is known, the one furthest from its target. */
	film: Departure | null;
	faults: { fault: string; coat: number | null }[];
	aside: boolean;
	suspect: Suspect[];
};

const standing = ({ extent }: CoatRow): CoatTold['stands'] =>
	extent === 'all' ? 'all' : extent === 'none' ? 'due' : 'part';

function coatsOf({ day, tables }: Report, id: string, face: Face | undefined): CoatTold[] {
	const rows = tables.coats.filter(row => row.face === id);
	const before = new Set((day.opened.before.faces[id]?.coats ?? []).map(({ coat }) => coat));
	const most = Math.max(0, face?.coats.length ?? 0, ...before, ...rows.map(({ coat }) => coat));
	return Array.from({ length: most }, (_, nth) => {
		const coat = nth + 1;
		const row = rows.find(one => one.coat === coat);
		const stands = row ? standing(row) : before.has(coat) ? 'before' : 'due';
		const over =
			(row?.overrides.length ?? 0) > 0 || tables.overrides.some(one => one.face === id && one.coat === coat);
		return { coat, material: plannedCoat(day.job, id, coat)?.material ?? '', stands, over };
	});
}

/** The coat that a face is drawn for: the last that is on it, else its first. */
function asked(
	{ day: { job } }: Report,
	face: Face | undefined,
	coats: readonly CoatTold[],
): FaceAsked | null {
	const last = coats.findLast(({ stands }) => stands !== 'due')?.coat ?? 1;
	const coat = face && plannedCoat(job, face.id, last);
	return face && coat ? { face, coat, gun: gunFor(job, coat) } : null;
}

/** The faces that may have got a fault too, in the order of looking, each once. */
export const lookedAt = ({ inspect, exposed }: Trace, asked: string): string[] =>
	[...new Set([...inspect, ...exposed].map(({ face }) => face))].filter(face => face !== asked);

function suspectOf({ traces, tables }: Report, id: string): Suspect[] {
	return traces.flatMap(({ fault, face, coat, trace }) => {
		if (!trace?.exposed.some(spot => spot.face === id)) return [];
		const look = face === id ? 0 : lookedAt(trace, face).indexOf(id) + 1;
		const verdicts = tables.work.filter(
			row => row.face === id && row.coat !== null && ['cleared', 'rework', 'accepted'].includes(row.did),
		);
		const own = face === id ? [{ face, coat }] : [];
		const likely = [...trace.likely, ...own].some(spot => spot.face === id);
		return [{ fault, look, likely, judged: verdicts.at(-1)?.did ?? null }];
	});
}

/** One that runs, else the one furthest from its target. */
const worst = (films: readonly Departure[]): Departure | null =>
	films.toSorted(
		(one, other) =>
			Number(other.lies === 'runs') - Number(one.lies === 'runs') ||
			Math.abs(Math.log(other.share)) - Math.abs(Math.log(one.share)),
	)[0] ?? null;

/** What is told of every face with anything to show, parts together in the order of the sheet. */
export function facesTold(report: Report): FaceTold[] {
	const { day, tables } = report;
	const ids = [...new Set([...day.job.faces.map(({ id }) => id), ...report.faces])];
	return ids.map(id => {
		const face = faceIn(day.job, id);
		const coats = coatsOf(report, id, face);
		const films = tables.film.filter(row => row.face === id).flatMap(row => departureOf(row) ?? []);
		return {
			id,
			part: face?.part ?? id.split('/')[0] ?? id,
			asked: asked(report, face, coats),
			coats,
			film: worst(films),
			faults: tables.faults.filter(row => row.face === id),
			aside: tables.aside.some(({ faces }) => faces.includes(id)),
			suspect: suspectOf(report, id),
		};
	});
}
