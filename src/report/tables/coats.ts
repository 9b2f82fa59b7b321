import { byCoat, type Pass, passesOf } from '../../records/passes.ts';
import { type Day, faceIn, plannedCoat, seconds } from './day.ts';

export type PassRow = {
	began: string;
	ended: string;
	extent: Pass['extent'];
	/** Seconds that the trigger was pulled, else those between its ends. */
	took_s: number;
	/** A trigger line says how long it was pulled. */
	pulled: boolean;
	/** Its share of a stretch, not timed by itself. */
	estimated: boolean;
	broken: boolean;
};

/** One coat on one face, with everything it was sprayed under. */
export type CoatRow = {
	face: string;
	coat: number;
	stage: string;
	material: string;
	kind: string;
	stroke: string;
	horns: string;
	began: string;
	ended: string;
	took_s: number;
	should_s: number;
	extent: Pass['extent'];
	/** … in each of its passes: only then its film can be worked out. */
	pulled: boolean;
	estimated: boolean;
	late: boolean;
	cup: readonly string[];
	check: number;
	window: string;
	overrides: readonly string[];
	air_C: number | null;
	humidity: number | null;
	surface_C: number | null;
	passes: PassRow[];
};

function passRow({ start, broken, end, extent, estimated, pulled_s }: Pass, last: string): PassRow {
	const share = estimated ? end : null;
	const began = share?.began ?? start.at;
	const ended = share?.ended ?? (broken ?? end)?.at ?? last;
	const own_s = estimated ? null : pulled_s;
	const took_s = own_s ?? seconds(began, ended);
	return { began, ended, extent, took_s, pulled: own_s !== null, estimated, broken: !end || broken !== null };
}

/** One coat from its passes: those of which nothing was laid count no time. */
function coatRow(day: Day, first: Pass, passes: readonly Pass[], last: string): CoatRow {
	const { face, coat, start } = first;
	const plan = plannedCoat(day.job, face, coat);
	const air = start.air === null ? undefined : day.records[start.air - 1];
	const read = air?.type === 'air.read' ? air : null;
	const rows = passes.map(pass => passRow(pass, last));
	const laid = rows.filter(({ extent }) => extent !== 'none');
	return {
		face,
		coat,
		stage: plan ? (day.job.stages[plan.stage]?.name ?? '') : '',
		material: plan?.material ?? '',
		kind: plan?.kind ?? '',
		stroke: plan?.stroke ?? '',
		horns: plan?.horns ?? '',
		began: (laid[0] ?? rows[0])?.began ?? start.at,
		ended: (laid.at(-1) ?? rows.at(-1))?.ended ?? start.at,
		took_s: laid.reduce((sum, { took_s }) => sum + took_s, 0),
		should_s: plan?.spray_s ?? start.spray_s,
		extent: rows.at(-1)?.extent ?? 'unsaid',
		pulled: laid.length > 0 && laid.every(({ pulled }) => pulled),
		estimated: laid.some(({ estimated }) => estimated),
		late: passes.some(({ late }) => late !== null),
		cup: [...new Set(passes.flatMap(pass => pass.start.cup))].sort(),
		check: start.check,
		window: start.window,
		overrides: [...new Set(passes.flatMap(pass => pass.start.overrides))],
		air_C: read?.airC ?? null,
		humidity: read?.humidity ?? null,
		surface_C: read?.surfaceC ?? null,
		passes: rows,
	};
}

/** Every coat sprayed on the day, in the order begun. */
export function coatRows(day: Day): CoatRow[] {
	const last = day.records.at(-1)?.at ?? day.opened.at;
	return [...byCoat(passesOf(day.records)).values()].flatMap(passes =>
		passes[0] ? [coatRow(day, passes[0], passes, last)] : [],
	);
}

/** Faces in the order of the sheet, then any that the sheet does not know. */
export const facesOf = (day: Day, rows: readonly { face: string }[]): string[] => [
	...day.job.faces.map(({ id }) => id).filter(id => rows.some(({ face }) => face === id)),
	...new Set(rows.map(({ face }) => face).filter(face => !faceIn(day.job, face))),
];
