import type { DayRecord, EventType } from '../../day/records.ts';
import { everyType } from '../../records/every.ts';
import type { RecordOf } from '../../records/of-type.ts';
import { beganAt } from '../../words/began.ts';
import { type Day, ofType, seconds } from './day.ts';

/** What befell the day beside the spraying: air, breaks, waits, faults, work on faces. */

export type AirRow = {
	at: string;
	air_C: number;
	humidity: number;
	surface_C: number;
	dew_point_C: number;
	margin_C: number;
	spray: boolean;
	reasons: readonly string[];
};

export const airRows = (day: Day): AirRow[] =>
	ofType(day, 'air.read').map(({ at, airC, humidity, surfaceC, dewPointC, spray, reasons }) => ({
		at,
		air_C: airC,
		humidity,
		surface_C: surfaceC,
		dew_point_C: dewPointC,
		margin_C: surfaceC - dewPointC,
		spray,
		reasons,
	}));

export type BreakRow = {
	began: string;
	/** null: never ended on this day. */
	ended: string | null;
	lasted_s: number | null;
	/** What began it, and who noticed. */
	kind: string;
	by: string;
	/** What else came while it lasted, in order. */
	also: readonly string[];
};

/** Breaks, each from what began it to its end: what comes while one lasts is part of it. */
export function breakRows(day: Day): BreakRow[] {
	const rows: BreakRow[] = [];
	let lasts = false;
	for (const record of day.records) {
		const last = rows.at(-1);
		if (record.type === 'break.began') {
			if (lasts && last) last.also = [...last.also, record.kind];
			else
				rows.push({
					began: beganAt(record),
					ended: null,
					lasted_s: null,
					kind: record.kind,
					by: record.by,
					also: [],
				});
			lasts = true;
		}
		if (record.type === 'break.ended' && lasts && last) {
			last.ended = record.at;
			last.lasted_s = seconds(last.began, record.at);
			lasts = false;
		}
	}
	return rows;
}

export type WaitRow = {
	began: string;
	ended: string | null;
	due: string;
	why: string;
	face: string | null;
	coat: number | null;
	/** It ended before it was due. */
	cut: boolean;
};

/** Whether a wait that lasts goes on through a record. */
const waits = everyType({
	ends: ['wait.ended', 'wait.began', 'break.began', 'face.started', 'check.began', 'day.closed'],
	byClock: ['window.set', 'window.moved', 'edge.left', 'clock.set', 'face.late', 'batch.discarded'],
	readIn: ['air.read', 'reading.taken', 'item.answered', 'override.given', 'day.planned', 'gun.set'],
	mixedIn: ['batch.started', 'batch.stepped', 'batch.poured', 'batch.found', 'batch.stood', 'batch.ready'],
	cup: [
		'cup.timed',
		'batch.loaded',
		'cup.emptied',
		'gun.unknown',
		'gun.checked',
		'trigger.on',
		'trigger.off',
	],
	workedIn: ['stage.done', 'rework.done', 'fault.seen', 'part.setAside'],
	after: ['face.judged', 'film.read', 'photo.kept'],
	notIn: ['day.opened', 'face.ended', 'break.ended'],
});
const ending = new Set<EventType>(waits.ends);
const endsWait = ({ type }: DayRecord): boolean => ending.has(type);

export const waitRows = (day: Day): WaitRow[] =>
	ofType(day, 'wait.began').map(({ at, seq, due, why, face, coat }) => {
		const end = day.records.find(record => record.seq > seq && endsWait(record));
		return {
			began: at,
			ended: end?.at ?? null,
			due,
			why,
			face,
			coat,
			cut: end !== undefined && end.type !== 'wait.ended' && end.at < due,
		};
	});

export type FaultRow = {
	at: string;
	fault: string;
	face: string | null;
	coat: number | null;
	gun: boolean;
	remedy: string | null;
};

export const faultRows = (day: Day): FaultRow[] =>
	ofType(day, 'fault.seen').map(({ at, fault, face, coat, gun, remedy }) => ({
		at,
		fault,
		face: face ?? null,
		coat: coat ?? null,
		gun: gun === true,
		remedy: remedy ?? null,
	}));

export type AsideRow = { at: string; part: string; faces: readonly string[]; why: string };

export const asideRows = (day: Day): AsideRow[] =>
	ofType(day, 'part.setAside').map(({ at, part, faces, why }) => ({ at, part, faces, why }));

/** Work on a face that is not spraying, rework and looking over among it. */
export type WorkRow = { at: string; face: string; coat: number | null; did: string; detail: string };

type Worked = RecordOf<'stage.done' | 'rework.done' | 'face.judged' | 'photo.kept'>;
const isWork = (record: DayRecord): record is Worked =>
	['stage.done', 'rework.done', 'face.judged', 'photo.kept'].includes(record.type);

const verdicts: ReadonlySet<string> = new Set(['cleared', 'rework', 'accepted']);
/** Whether a row of the work says how a coat was judged. */
export const isVerdict = (did: string): boolean => verdicts.has(did);

function workRow(record: Worked): WorkRow {
	const { at, face } = record;
	switch (record.type) {
		case 'stage.done':
			return {
				at,
				face,
				coat: null,
				did: record.stage,
				detail: record.grit === null ? '' : `${record.grit} grit`,
			};
		case 'rework.done':
			return { at, face, coat: null, did: `rework: ${record.step}`, detail: '' };
		case 'face.judged':
			return { at, face, coat: record.coat, did: record.verdict, detail: record.reason };
		case 'photo.kept':
			return { at, face, coat: record.coat, did: 'photo', detail: record.where };
	}
}

export const workRows = (day: Day): WorkRow[] => day.records.filter(isWork).map(workRow);
