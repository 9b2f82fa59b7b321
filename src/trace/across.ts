import type { DayRecord } from '../day/records.ts';
import { beganAt } from '../words/began.ts';
import type { FaultData } from './faults.ts';
import { type Timeline, timelineOf } from './timeline.ts';
import { likeliest } from './trace.ts';

type Day = readonly DayRecord[];

/** What a logged event is called when it is counted. */
type Event =
	| 'start of the day'
	| 'break'
	| 'wait'
	| 'cap turn'
	| 'knob'
	| 'batch'
	| 'refill'
	| 'gun fault'
	| 'override';

export type Recurring = {
	fault: string;
	/** Faces it was seen on, and days on which they were sprayed. */
	faces: number;
	days: number;
	/** What came last before the faces were started, most often first. */
	after: { event: Event; faces: number }[];
	/** Likeliest causes of its first face in each job, most often first. */
	causes: { code: string; jobs: number }[];
};

/** The question of where faults begin, put to all days of a shop. */
export type Across = {
	days: number;
	jobs: number;
	faults: Recurring[];
	/** First readings by feature. None that ever differed is a warning sign and not a success. */
	readings: { feature: string; first: number; differed: number; warning: boolean }[];
	/** Breaks by hour of the day, in the shop's own time. */
	breaks: { hour: number; count: number }[];
};

/** So many first readings without one that differs are more than chance and care explain. Own choice. */
const suspiciouslyMany = 50;

type Tally = {
	days: number;
	jobs: number;
	faults: Map<
		string,
		{ faces: number; days: Set<string>; after: Map<Event, number>; causes: Map<string, number> }
	>;
	readings: Map<string, { first: number; differed: number }>;
	breaks: number[];
};

const eventOf = (record: DayRecord): Event | null => {
	switch (record.type) {
		case 'day.opened':
			return 'start of the day';
		case 'break.began':
			return 'break';
		case 'wait.began':
			return 'wait';
		case 'override.given':
			return 'override';
		case 'fault.seen':
			return record.gun ? 'gun fault' : null;
		case 'batch.loaded':
			return record.refill ? 'refill' : 'batch';
		case 'gun.unknown':
			return record.why === 'cap-turn' ? 'cap turn' : record.why === 'knob' ? 'knob' : null;
		default:
			return null;
	}
};

const add = <Key>(counts: Map<Key, number>, key: Key): void => {
	counts.set(key, (counts.get(key) ?? 0) + 1);
};

const hours = new Map<string, Intl.DateTimeFormat>();

function hourIn(zone: string, at: string): number {
	let format = hours.get(zone);
	if (!format) {
		format = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', hourCycle: 'h23', timeZone: zone });
		hours.set(zone, format);
	}
	return Number(format.format(Date.parse(at)));
}

/** One walk over a day: readings, breaks, and what came last before each coat. */
function walk(tally: Tally, day: Day): Map<string, Event> {
	const before = new Map<string, Event>();
	let last: Event = 'start of the day';
	let zone = 'UTC';
	for (const record of day) {
		if (record.type === 'day.opened') zone = record.zone;
		last = eventOf(record) ?? last;
		if (record.type === 'face.started') before.set(`${record.face}#${record.coat}`, last);
		if (record.type === 'break.began') {
			const hour = hourIn(zone, beganAt(record));
			tally.breaks[hour] = (tally.breaks[hour] ?? 0) + 1;
		}
		if (record.type === 'reading.taken' && record.attempt === 1) {
			const counts = tally.readings.get(record.feature) ?? { first: 0, differed: 0 };
			counts.first++;
			if (!record.matched) counts.differed++;
			tally.readings.set(record.feature, counts);
		}
	}
	return before;
}

function faultTally(tally: Tally, fault: string) {
	const known = tally.faults.get(fault);
	if (known) return known;
	const made = {
		faces: 0,
		days: new Set<string>(),
		after: new Map<Event, number>(),
		causes: new Map<string, number>(),
	};
	tally.faults.set(fault, made);
	return made;
}

function addJob(tally: Tally, job: readonly Day[], data: FaultData): void {
	const before = new Map<string, { event: Event; day: string }>();
	for (const day of job)
		for (const [key, event] of walk(tally, day)) before.set(key, { event, day: day[0]?.at ?? '' });
	const asked = new Set<string>();
	let timeline: Timeline | null = null;
	for (const record of job.flat()) {
		if (record.type !== 'fault.seen' || !record.face || !record.coat) continue;
		const counts = faultTally(tally, record.fault);
		const laid = before.get(`${record.face}#${record.coat}`);
		counts.faces++;
		if (laid) counts.days.add(laid.day);
		if (laid) add(counts.after, laid.event);
		if (!laid || asked.has(record.fault) || !data.faults[record.fault]?.trace) continue;
		asked.add(record.fault);
		timeline ??= timelineOf(job);
		const question = { fault: record.fault, face: record.face, coat: record.coat };
		const first = likeliest(job, timeline, question, data);
		if (first) add(counts.causes, first);
	}
	tally.days += job.length;
	tally.jobs += 1;
}

const sorted = <Key>(counts: Map<Key, number>) => [...counts].sort(([, a], [, b]) => b - a);

/**
 * Puts the question of the trace to all days of a shop, one job at a time: its cost grows with the number of days,
 * and no more than one job is kept in memory.
 * @param jobs each the days of one job, oldest first
 */
export function acrossDays(jobs: Iterable<readonly Day[]>, data: FaultData): Across {
	const tally: Tally = { days: 0, jobs: 0, faults: new Map(), readings: new Map(), breaks: [] };
	for (const job of jobs) addJob(tally, job, data);
	return {
		days: tally.days,
		jobs: tally.jobs,
		faults: [...tally.faults]
			.map(([fault, { faces, days, after, causes }]) => ({
				fault,
				faces,
				days: days.size,
				after: sorted(after).map(([event, count]) => ({ event, faces: count })),
				causes: sorted(causes).map(([code, count]) => ({ code, jobs: count })),
			}))
			.sort((a, b) => b.faces - a.faces),
		readings: [...tally.readings].map(([feature, { first, differed }]) => ({
			feature,
			first,
			differed,
			warning: differed === 0 && first >= suspiciouslyMany,
		})),
		breaks: [...tally.breaks].flatMap((count, hour) => (count ? [{ hour, count }] : [])),
	};
}
