import type { DayRecord, EventType } from '../day/records.ts';
import type { Job } from '../job/job.ts';
import type { RecordOf } from '../records/of-type.ts';
import { coatKey, type Pass as DayPass, passesOf, put } from '../records/passes.ts';

type Timed<Type extends EventType> = { at: number; day: number; seq: number; record: RecordOf<Type> };

/** A pass on the timeline of a job. */
export type Pass = DayPass & { day: number; began: number; ended: number };

export type Reading = Timed<'reading.taken'>;
export type AirRead = Timed<'air.read'>;
/** Something that was done or happened and may have changed a thing. */
export type Change = Timed<
	'break.began' | 'gun.unknown' | 'gun.set' | 'override.given' | 'fault.seen' | 'batch.loaded'
>;

export type BatchStory = {
	letter: string;
	material: string;
	day: number;
	started: RecordOf<'batch.started'>;
	/** Levels read after something went in: at its pour, or after a break in it. */
	pours: Timed<'batch.poured' | 'batch.found'>[];
	cans: Reading[];
	timed: Timed<'cup.timed'>[];
	stood: number | null;
	/** Stirred, strained. */
	steps: string[];
	/** Thrown away: nothing of it is left to look at. */
	discarded: boolean;
	found: Timed<'batch.found'>[];
	/** Breaks and overrides between its start and its being ready. */
	breaks: number[];
	overrides: Timed<'override.given'>[];
	ready: number | null;
};

/** One day of a job. What is in doubt on one day is looked for there: a job has very many of them. */
export type DayLine = {
	/** First and last instant of its spraying: opened and closed (or the last record). */
	opened: number;
	closed: number;
	/** What it began with. */
	rates: RecordOf<'day.opened'>['rates'];
	passes: Pass[];
	readings: Reading[];
	air: AirRead[];
	changes: Change[];
};

/** What the day files of one job say, sorted by what it is about. All instants in ms. */
export type Timeline = {
	job: Job;
	days: DayLine[];
	passes: Pass[];
	/** The same by coat on a face, by face and by batch in the cup, each in order. */
	coats: Map<string, Pass[]>;
	faces: Map<string, Pass[]>;
	cups: Map<string, Pass[]>;
	/** Touch tests by the face that they speak for. */
	touches: Map<string, Reading[]>;
	batches: Map<string, BatchStory>;
	/** Can mark by material and component. */
	cans: Map<string, string[]>;
	seen: Timed<'fault.seen'>[];
	/** What was done to a face, by its name. */
	stages: Map<string, Timed<'stage.done'>[]>;
	/** Film readings by coat on a face. */
	films: Map<string, Timed<'film.read'>[]>;
	judged: Timed<'face.judged'>[];
	reworks: Map<string, Timed<'rework.done'>[]>;
	/** The last that is recorded of the job. */
	last: number;
};

/** A pass before another: as they were begun, and in the order of the files. */
export const inOrder = (a: Pass, b: Pass): number =>
	a.began - b.began || a.start.seq - b.start.seq || a.day - b.day;

type Open = {
	timeline: Timeline;
	/** Instants of the day's records. */
	instants: Map<DayRecord, number>;
	mixing: BatchStory | null;
	day: number;
	/** Instant of the record in hand. */
	at: number;
};

/** Less than any clock tells apart, ms, and more than is lost in a number of this size. */
const nextTo_ms = 2 ** -10;

/** What was recorded later happened later, in the same millisecond too, and where the clock was set back between. */
const instantAfter = (last: number, record: DayRecord): number =>
	Math.max(Date.parse(record.at), last + nextTo_ms);

const timed = <Record extends DayRecord>(record: Record, { day, at }: Open) => ({
	at,
	day,
	seq: record.seq,
	record,
});

const touched = ({ face, faces }: RecordOf<'reading.taken'>): ReadonlySet<string> =>
	new Set([...(face ? [face] : []), ...(faces ?? [])]);

function opened(open: Open, record: RecordOf<'day.opened'>): void {
	open.timeline.job = record.sheet;
	open.timeline.days.push({
		opened: open.at,
		closed: open.at,
		rates: record.rates,
		passes: [],
		readings: [],
		air: [],
		changes: [],
	});
	open.mixing = null;
	const { cans } = open.timeline;
	for (const { material, component } of record.cans) cans.delete(`${material}/${component}`);
	for (const { material, component, mark } of record.cans) put(cans, `${material}/${component}`, mark);
}

/** A pass as the timeline has it: its share of a stretch lies within the records of it. */
function placed(pass: DayPass, { day, instants }: Open): Pass {
	const { start, end } = pass;
	const first = instants.get(start) ?? Date.parse(start.at);
	const last = (end && instants.get(end)) ?? first;
	const within = (at: string) => Math.min(last, Math.max(first, Date.parse(at)));
	return {
		...pass,
		day,
		began: end?.began ? within(end.began) : first,
		ended: end?.ended ? within(end.ended) : last,
	};
}

function started(open: Open, record: RecordOf<'batch.started'>): void {
	const story: BatchStory = {
		letter: record.batch,
		material: record.material,
		day: open.day,
		started: record,
		pours: [],
		cans: [],
		timed: [],
		stood: null,
		steps: [],
		discarded: false,
		found: [],
		breaks: [],
		overrides: [],
		ready: null,
	};
	open.timeline.batches.set(record.batch, story);
	open.mixing = story;
}

/** Whether a level tells that something went in: read at its pour, or found after a break. */
const isPour = (record: DayRecord): record is RecordOf<'batch.poured' | 'batch.found'> =>
	record.type === 'batch.poured' ||
	(record.type === 'batch.found' && record.found !== 'before' && record.found !== 'unknown');

function mixing(open: Open, record: DayRecord): void {
	const letter = 'batch' in record && typeof record.batch === 'string' ? record.batch : null;
	const story = letter ? open.timeline.batches.get(letter) : open.mixing;
	if (!story) return;
	if (isPour(record)) story.pours.push(timed(record, open));
	if (record.type === 'cup.timed') story.timed.push(timed(record, open));
	if (record.type === 'batch.found') story.found.push(timed(record, open));
	if (record.type === 'batch.stood') story.stood = open.at;
	if (record.type === 'batch.stepped') story.steps.push(record.step);
	if (record.type === 'batch.discarded') story.discarded = true;
	if (record.type === 'break.began') story.breaks.push(open.at);
	if (record.type === 'override.given') story.overrides.push(timed(record, open));
	if (record.type === 'batch.ready' || record.type === 'batch.discarded') {
		story.ready = open.at;
		if (open.mixing === story) open.mixing = null;
	}
}

/** What only the passes tell. */
type Passes = 'face.late' | 'trigger.on' | 'trigger.off';
/** What looking back makes nothing of. */
type Unread = Asked | Timing | Kept;
type Asked = 'check.began' | 'item.answered' | 'gun.checked' | 'day.planned';
type Timing = 'clock.set' | 'window.set' | 'window.moved' | 'wait.began' | 'wait.ended' | 'break.ended';
type Kept = 'cup.emptied' | 'edge.left' | 'part.setAside' | 'photo.kept';

function take(open: Open, record: DayRecord): void {
	const { timeline, day } = open;
	open.at = instantAfter(open.at, record);
	open.instants.set(record, open.at);
	const last = timeline.days[day];
	switch (record.type) {
		case 'day.opened':
			opened(open, record);
			return;
		case 'face.started':
		case 'face.ended':
		case 'day.closed':
			if (last) last.closed = open.at;
			return;
		case 'reading.taken': {
			const reading = timed(record, open);
			last?.readings.push(reading);
			if (record.feature === 'touch')
				for (const face of touched(record)) put(timeline.touches, face, reading);
			if (record.feature === 'can' && record.batch) timeline.batches.get(record.batch)?.cans.push(reading);
			return;
		}
		case 'air.read':
			last?.air.push(timed(record, open));
			return;
		case 'batch.started':
			started(open, record);
			return;
		case 'batch.stepped':
		case 'batch.poured':
		case 'cup.timed':
		case 'batch.found':
		case 'batch.stood':
		case 'batch.ready':
		case 'batch.discarded':
			mixing(open, record);
			return;
		case 'fault.seen':
			timeline.seen.push(timed(record, open));
			if (record.gun) last?.changes.push(timed(record, open));
			return;
		case 'break.began':
		case 'override.given':
			if (open.mixing) mixing(open, record);
			last?.changes.push(timed(record, open));
			return;
		case 'gun.unknown':
		case 'gun.set':
		case 'batch.loaded':
			last?.changes.push(timed(record, open));
			return;
		case 'stage.done':
			put(timeline.stages, record.face, timed(record, open));
			timeline.last = Math.max(timeline.last, open.at);
			return;
		case 'film.read':
			put(timeline.films, coatKey(record), timed(record, open));
			return;
		case 'rework.done':
			put(timeline.reworks, record.face, timed(record, open));
			return;
		case 'face.judged':
			timeline.judged.push(timed(record, open));
			return;
		default:
			record satisfies RecordOf<Passes | Unread>;
	}
}

/** Puts a pass with those of its day, its coat, its face and its batches. */
function sorted({ days, coats, faces, cups }: Timeline, pass: Pass): void {
	days[pass.day]?.passes.push(pass);
	put(coats, coatKey(pass), pass);
	put(faces, pass.face, pass);
	for (const letter of new Set(pass.start.cup)) put(cups, letter, pass);
}

/**
 * Sorts the records of a job's days by what they are about; one walk, in the order of the files.
 * @param days day files of one job, oldest first
 * @throws RangeError for a day that does not begin with `day.opened`
 */
export function timelineOf(days: readonly (readonly DayRecord[])[]): Timeline {
	const first = days[0]?.[0];
	if (first?.type !== 'day.opened')
		throw new RangeError('the day file does not begin with the opening of a day: nothing to trace in it');
	const timeline: Timeline = {
		job: first.sheet,
		days: [],
		passes: [],
		coats: new Map(),
		faces: new Map(),
		cups: new Map(),
		touches: new Map(),
		batches: new Map(),
		cans: new Map(),
		seen: [],
		stages: new Map(),
		films: new Map(),
		judged: [],
		reworks: new Map(),
		last: 0,
	};
	const open: Open = { timeline, instants: new Map(), mixing: null, day: 0, at: 0 };
	for (const [day, records] of days.entries()) {
		open.day = day;
		open.at = 0;
		if (records[0]?.type !== 'day.opened')
			throw new RangeError(`day ${day + 1} does not begin with the opening of a day: read it whole`);
		open.instants.clear();
		for (const record of records) take(open, record);
		for (const pass of passesOf(records)) timeline.passes.push(placed(pass, open));
		timeline.last = Math.max(timeline.last, timeline.days[day]?.closed ?? 0);
	}
	timeline.passes.sort(inOrder);
	for (const pass of timeline.passes) sorted(timeline, pass);
	return timeline;
}
