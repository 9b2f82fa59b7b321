import type { DayRecord } from '../../day/records.ts';
import { noPulls, type Pulls, pull, pulledUntil_s } from '../../trade/pulls.ts';
import { type Day, faceIn, plannedCoat, type RecordOf, seconds } from './day.ts';

export type Pass = {
	began: string;
	ended: string;
	/** How much of the coat was on when it ended; `unsaid`: nobody said. */
	extent: 'all' | 'part' | 'none' | 'unsaid';
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
	passes: Pass[];
};

type Started = RecordOf<'face.started'>;
type Open = { started: Started; pulls: Pulls };

const keyOf = ({ face, coat }: { face: string; coat: number }) => `${coat}#${face}`;

function passOf({ started: { at: began }, pulls }: Open, ended: string, broken: boolean): Pass {
	const pulled_s = pulledUntil_s(pulls, Date.parse(ended));
	const took_s = pulled_s ?? seconds(began, ended);
	return { began, ended, extent: 'unsaid', took_s, pulled: pulled_s !== null, estimated: false, broken };
}

function coatRow(day: Day, { face, coat, ...started }: Started): CoatRow {
	const plan = plannedCoat(day.job, face, coat);
	const air = started.air === null ? undefined : day.records[started.air - 1];
	const read = air?.type === 'air.read' ? air : null;
	return {
		face,
		coat,
		stage: plan ? (day.job.stages[plan.stage]?.name ?? '') : '',
		material: plan?.material ?? '',
		kind: plan?.kind ?? '',
		stroke: plan?.stroke ?? '',
		horns: plan?.horns ?? '',
		began: started.at,
		ended: started.at,
		took_s: 0,
		should_s: plan?.spray_s ?? started.spray_s,
		extent: 'unsaid',
		pulled: false,
		estimated: false,
		late: false,
		cup: started.cup,
		check: started.check,
		window: started.window,
		overrides: started.overrides,
		air_C: read?.airC ?? null,
		humidity: read?.humidity ?? null,
		surface_C: read?.surfaceC ?? null,
		passes: [],
	};
}

/** What a coat comes to from its passes: those of which nothing was laid count no time. */
function summed(row: CoatRow): CoatRow {
	const { passes } = row;
	const laid = passes.filter(({ extent }) => extent !== 'none');
	return {
		...row,
		began: (laid[0] ?? passes[0])?.began ?? row.began,
		ended: (laid.at(-1) ?? passes.at(-1))?.ended ?? row.ended,
		took_s: laid.reduce((sum, { took_s }) => sum + took_s, 0),
		extent: passes.at(-1)?.extent ?? 'unsaid',
		pulled: laid.length > 0 && laid.every(({ pulled }) => pulled),
		estimated: laid.some(({ estimated }) => estimated),
		cup: [...row.cup].sort(),
	};
}

/** Every coat sprayed on the day, in the order begun. */
export function coatRows(day: Day): CoatRow[] {
	const rows = new Map<string, CoatRow>();
	const open = new Map<string, Open>();
	const close = (face: string, at: string, broken: boolean) => {
		const found = open.get(face);
		open.delete(face);
		if (found) rows.get(keyOf(found.started))?.passes.push(passOf(found, at, broken));
	};
	const ended = (record: RecordOf<'face.ended'>) => {
		close(record.face, record.at, false);
		const pass = rows.get(keyOf(record))?.passes.at(-1);
		if (!pass) return;
		pass.extent = record.extent;
		if (!record.estimated) return;
		pass.estimated = true;
		pass.pulled = false;
		pass.began = record.began ?? pass.began;
		pass.ended = record.ended ?? pass.ended;
		pass.took_s = seconds(pass.began, pass.ended);
	};
	const take = (record: DayRecord): void => {
		switch (record.type) {
			case 'face.started': {
				const row = rows.get(keyOf(record)) ?? coatRow(day, record);
				row.cup = [...new Set([...row.cup, ...record.cup])];
				row.overrides = [...new Set([...row.overrides, ...record.overrides])];
				rows.set(keyOf(record), row);
				open.set(record.face, { started: record, pulls: noPulls });
				return;
			}
			case 'face.ended':
				ended(record);
				return;
			case 'face.late': {
				const row = rows.get(keyOf(record));
				if (row) row.late = true;
				return;
			}
			case 'break.began':
				for (const face of open.keys()) close(face, record.at, true);
				return;
			case 'part.setAside':
				for (const face of record.faces) close(face, record.at, true);
				return;
			case 'trigger.on':
			case 'trigger.off':
				for (const one of open.values())
					one.pulls = pull(one.pulls, record.type === 'trigger.on', Date.parse(record.at));
				return;
			default:
		}
	};
	for (const record of day.records) take(record);
	const end = day.records.at(-1)?.at ?? day.opened.at;
	for (const face of open.keys()) close(face, end, true);
	return [...rows.values()].map(summed);
}

/** Faces in the order of the sheet, then any that the sheet does not know. */
export const facesOf = (day: Day, rows: readonly { face: string }[]): string[] => [
	...day.job.faces.map(({ id }) => id).filter(id => rows.some(({ face }) => face === id)),
	...new Set(rows.map(({ face }) => face).filter(face => !faceIn(day.job, face))),
];
