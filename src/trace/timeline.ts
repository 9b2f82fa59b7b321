import type { DayRecord, EventOf } from '../day/records.ts';
import type { Job } from '../job/job.ts';
import { noPulls, type Pulls, pull, pulledUntil_s } from '../trade/pulls.ts';

type Of<Type extends DayRecord['type']> = DayRecord & EventOf<Type>;
type Timed<Type extends DayRecord['type']> = { at: number; day: number; seq: number; record: Of<Type> };

/** One pass over one face: from its first stroke to its last. */
export type Pass = {
	face: string;
	coat: number;
	day: number;
	began: number;
	ended: number;
	/** Times are the face's share of a stretch, not its own. */
	estimated: boolean;
	/** Seconds that a trigger line says the trigger was pulled; null: no line spoke. */
	pulled_s: number | null;
	extent: 'all' | 'part' | 'none';
	start: Of<'face.started'>;
};

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
	started: Of<'batch.started'>;
	/** Levels read after something went in: at its pour, or after a break in it. */
	pours: Timed<'batch.poured' | 'batch.found'>[];
	cans: Reading[];
	timed: Timed<'cup.timed'>[];
	stood: number | null;
	found: Timed<'batch.found'>[];
	/** Breaks and overrides between its start and its being ready. */
	breaks: number[];
	overrides: Timed<'override.given'>[];
	ready: number | null;
};

/** What the day files of one job say, sorted by what it is about. All instants in ms. */
export type Timeline = {
	job: Job;
	/** First and last instant of each day's spraying: opened and closed (or the last record); what it began with. */
	days: { opened: number; closed: number; rates: Of<'day.opened'>['rates'] }[];
	passes: Pass[];
	/** The passes of each coat on each face, `face#coat`, in order. */
	coats: Map<string, Pass[]>;
	readings: Reading[];
	air: AirRead[];
	changes: Change[];
	batches: Map<string, BatchStory>;
	/** Can mark by material and component. */
	cans: Map<string, string>;
	seen: Timed<'fault.seen'>[];
	stages: Timed<'stage.done'>[];
	films: Timed<'film.read'>[];
	judged: Timed<'face.judged'>[];
	reworks: Timed<'rework.done'>[];
};

type Open = {
	timeline: Timeline;
	spraying: Map<string, Pass>;
	/** What the trigger line says of each pass under way; a break ends that. */
	pulls: Map<Pass, Pulls>;
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

export const passKey = (face: string, coat: number) => `${face}#${coat}`;

function opened(open: Open, record: Of<'day.opened'>): void {
	open.timeline.job = record.sheet;
	open.timeline.days.push({ opened: open.at, closed: open.at, rates: record.rates });
	open.spraying.clear();
	open.pulls.clear();
	open.mixing = null;
	for (const { material, component, mark } of record.cans)
		open.timeline.cans.set(`${material}/${component}`, mark);
}

function spraying(open: Open, record: Of<'face.started'> | Of<'face.ended'>): void {
	const key = passKey(record.face, record.coat);
	if (record.type === 'face.started') {
		const began = open.at;
		const pass: Pass = {
			face: record.face,
			coat: record.coat,
			day: open.day,
			began,
			ended: began,
			estimated: false,
			pulled_s: null,
			extent: 'all',
			start: record,
		};
		open.spraying.set(key, pass);
		open.pulls.set(pass, noPulls);
		open.timeline.passes.push(pass);
		return;
	}
	const pass = open.spraying.get(key);
	if (!pass) return;
	open.spraying.delete(key);
	settlePulls(open, pass);
	const started = pass.began;
	const within = (at: string) => Math.min(open.at, Math.max(started, Date.parse(at)));
	pass.began = record.began ? within(record.began) : started;
	pass.ended = record.ended ? within(record.ended) : open.at;
	pass.estimated = record.estimated;
	pass.extent = record.extent;
}

/** What the trigger line said of a pass is told: it ended, or a break broke it off. */
function settlePulls({ pulls, at }: Open, pass: Pass): void {
	const said = pulls.get(pass);
	if (said) pass.pulled_s = pulledUntil_s(said, at);
	pulls.delete(pass);
}

function triggered({ pulls, at }: Open, on: boolean): void {
	for (const [pass, said] of pulls) pulls.set(pass, pull(said, on, at));
}

function started(open: Open, record: Of<'batch.started'>): void {
	const story: BatchStory = {
		letter: record.batch,
		material: record.material,
		day: open.day,
		started: record,
		pours: [],
		cans: [],
		timed: [],
		stood: null,
		found: [],
		breaks: [],
		overrides: [],
		ready: null,
	};
	open.timeline.batches.set(record.batch, story);
	open.mixing = story;
}

/** Whether a level tells that something went in: read at its pour, or found after a break. */
const isPour = (record: DayRecord): record is Of<'batch.poured' | 'batch.found'> =>
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
	if (record.type === 'break.began') story.breaks.push(open.at);
	if (record.type === 'override.given') story.overrides.push(timed(record, open));
	if (record.type === 'batch.ready' || record.type === 'batch.discarded') {
		story.ready = open.at;
		if (open.mixing === story) open.mixing = null;
	}
}

function take(open: Open, record: DayRecord): void {
	const { timeline, day } = open;
	open.at = instantAfter(open.at, record);
	const last = timeline.days[day];
	switch (record.type) {
		case 'day.opened':
			opened(open, record);
			return;
		case 'face.started':
		case 'face.ended':
			if (last) last.closed = open.at;
			spraying(open, record);
			return;
		case 'day.closed':
			if (last) last.closed = open.at;
			return;
		case 'reading.taken': {
			const reading = timed(record, open);
			timeline.readings.push(reading);
			if (record.feature === 'can' && record.batch) timeline.batches.get(record.batch)?.cans.push(reading);
			return;
		}
		case 'air.read':
			timeline.air.push(timed(record, open));
			return;
		case 'batch.started':
			started(open, record);
			return;
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
			if (record.gun) timeline.changes.push(timed(record, open));
			return;
		case 'trigger.on':
		case 'trigger.off':
			triggered(open, record.type === 'trigger.on');
			return;
		case 'break.began':
		case 'override.given':
			if (open.mixing) mixing(open, record);
			if (record.type === 'break.began') for (const pass of open.pulls.keys()) settlePulls(open, pass);
			timeline.changes.push(timed(record, open));
			return;
		case 'gun.unknown':
		case 'gun.set':
		case 'batch.loaded':
			timeline.changes.push(timed(record, open));
			return;
		case 'stage.done':
			timeline.stages.push(timed(record, open));
			return;
		case 'film.read':
			timeline.films.push(timed(record, open));
			return;
		case 'rework.done':
			timeline.reworks.push(timed(record, open));
			return;
		case 'face.judged':
			timeline.judged.push(timed(record, open));
			return;
	}
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
		readings: [],
		air: [],
		changes: [],
		batches: new Map(),
		cans: new Map(),
		seen: [],
		stages: [],
		films: [],
		judged: [],
		reworks: [],
	};
	const open: Open = { timeline, spraying: new Map(), pulls: new Map(), mixing: null, day: 0, at: 0 };
	for (const [day, records] of days.entries()) {
		open.day = day;
		open.at = 0;
		if (records[0]?.type !== 'day.opened')
			throw new RangeError(`day ${day + 1} does not begin with the opening of a day: read it whole`);
		for (const record of records) take(open, record);
	}
	timeline.passes.sort((a, b) => a.began - b.began || a.start.seq - b.start.seq);
	for (const pass of timeline.passes) {
		const key = passKey(pass.face, pass.coat);
		const known = timeline.coats.get(key);
		if (known) known.push(pass);
		else timeline.coats.set(key, [pass]);
	}
	return timeline;
}
