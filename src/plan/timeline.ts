import type { Job } from '../job/job.ts';
import { standsAt_min } from '../job/process-clocks.ts';
import { type Chunk, type Cup, lifeOf_s } from './batches.ts';
import { type GunState, gunFor, gunKey, type Pass } from './gun.ts';
import { type Pace, type Rates, sprayOf_s } from './pace.ts';
import type { Opening } from './windows.ts';

/** One thing done, or waited for. Seconds count from midnight of nothing: from the start of the first day. */
export type Step = {
	does: 'set-up' | 'mix' | 'load' | 'turn' | 'check' | 'move' | 'spray' | 'wait' | 'clean' | 'night';
	from_s: number;
	to_s: number;
	face?: string;
	coat?: number;
	batch?: number;
};

/** One face sprayed: when, and between what times it might have been begun (null: no bound). */
export type Laid = {
	face: string;
	part: string;
	coat: number;
	batch: number;
	from_s: number;
	to_s: number;
	opens_s: number | null;
	closes_s: number | null;
};

/** Something that cannot be kept. */
export type Missed = {
	face: string;
	coat: number;
	/** Its window has closed; no window ever opens; the face does not fit into a day; a fresh batch dies inside it. */
	why: 'window' | 'never' | 'day' | 'life';
	by_s: number;
	/** How much longer the day before would have had to be, where a night came between; s. */
	night_s: number | null;
};

export type Course = {
	steps: Step[];
	laid: Laid[];
	mixed: { batch: number; at_s: number; ready_s: number; dies_s: number }[];
	missed: Missed[];
	/** Passes before which the batch in the gun cannot go on: it dies, the gun must be flushed, or a night comes. */
	breaks: number[];
	/** Passes that a batch must be mixed for while everything else waits. */
	stalls: number[];
	end_s: number;
};

export type Walk = {
	job: Job;
	passes: readonly Pass[];
	chunks: readonly Chunk[];
	pace: Pace;
	rates: Rates;
	/** When the last coat of a face ended, s from the start; below 0: before it. */
	ends: Readonly<Record<string, number>>;
	/** Start of work, s from the start of the first day. */
	start_s: number;
	/** How the gun is set before the first pass, where known. */
	gun: GunState | null;
	/** Whether the day is under way: no set-up before the first pass. */
	begun: boolean;
	/** When a pass may be begun, in hours after the coat below it was finished. */
	opensFor(pass: Pass): readonly Opening[];
	/** What is in the gun's cup, where the first chunk is sprayed from it. */
	cup: Cup | null;
};

type Span = { opens: number; closes: number | null };
type Now = { at: number; day: number; gun: GunState | null; checked: number; ends: Map<string, number> };
type Piece = {
	index: number;
	pass: Pass;
	batch: number;
	/** Whether a batch is loaded for it, and those mixed for it. */
	begins: boolean;
	mixing: number[];
	mixOne_s: number;
	turn_s: number;
	spray_s: number;
	spans: Span[];
};
type When = { start: number; lead: number; span: Span | undefined; full: boolean };

const day_s = 86_400;
const always: Span = { opens: Number.NEGATIVE_INFINITY, closes: null };

/**
 * Walks through the work pass by pass. What does not fit is reported, and the walk goes on; it ends where a batch
 * must, since all that follows then changes.
 */
export function walk(given: Walk): Course {
	const { passes, pace } = given;
	const course: Course = {
		steps: [],
		laid: [],
		mixed: [],
		missed: [],
		breaks: [],
		stalls: [],
		end_s: given.start_s,
	};
	const now: Now = {
		at: given.start_s,
		day: Math.floor(given.start_s / day_s),
		gun: given.gun,
		checked: Number.NEGATIVE_INFINITY,
		ends: new Map(Object.entries(given.ends)),
	};
	if (given.cup && given.chunks[0]?.loaded)
		course.mixed.push({ batch: 0, at_s: now.at, ready_s: now.at, dies_s: given.cup.dies_s });
	if (!given.begun) put(course, now, 'set-up', pace.setUp_s);
	for (const [index, pass] of passes.entries()) {
		if (course.breaks.length > 0) break;
		const piece = pieceOf(given, now, index, pass);
		const first = whenOf(given, now, piece, false);
		const over = overDay_s(given, now, piece, first);
		const sleeps = over > 0 && now.at > now.day * day_s + pace.setUp_s;
		if (sleeps) night(given, course, now, piece, first);
		const when = sleeps ? whenOf(given, now, piece, true) : first;
		getReady(given, course, now, piece, when, sleeps);
		judge(given, course, now, piece, when, sleeps ? over : null);
		put(course, now, 'spray', piece.spray_s, { ...named(pass), batch: piece.batch });
		now.ends.set(pass.face.id, now.at);
		now.gun = gunFor(pass);
	}
	put(course, now, 'clean', pace.clean_s);
	course.end_s = now.at;
	return course;
}

const named = (pass: Pass) => ({ face: pass.face.id, coat: pass.count });

function put(
	course: Course,
	now: Now,
	does: Step['does'],
	seconds: number,
	more: Pick<Step, 'face' | 'coat' | 'batch'> = {},
): void {
	if (seconds <= 1e-6) return;
	course.steps.push({ does, from_s: now.at, to_s: now.at + seconds, ...more });
	now.at += seconds;
}

function pieceOf({ job, chunks, pace, rates, opensFor }: Walk, now: Now, index: number, pass: Pass): Piece {
	const batch = chunks.findLastIndex(chunk => chunk.first <= index);
	const begins = chunks[batch]?.first === index && !chunks[batch]?.loaded;
	const material = job.materials[pass.coat.material];
	const standing_s = material ? standsAt_min(material, job.shop.air_C) * 60 : 0;
	const mixing = begins && !chunks[batch]?.ahead ? [batch] : [];
	for (let next = batch + 1; mixing.length > 0 && chunks[next]?.ahead; next += 1) mixing.push(next);
	return {
		index,
		pass,
		batch,
		begins,
		mixing,
		mixOne_s: pace.mix_s + standing_s,
		turn_s: now.gun !== null && gunKey(now.gun) !== gunKey(gunFor(pass)) ? pace.turn_s : 0,
		spray_s: sprayOf_s(pass, rates),
		spans: spansOf(opensFor, now, pass),
	};
}

/** When a pass may be begun; without bounds on a bare face. */
function spansOf(opensFor: Walk['opensFor'], now: Now, pass: Pass): Span[] {
	const ended = now.ends.get(pass.face.id);
	if (ended === undefined || pass.count === 1) return [always];
	return opensFor(pass).map(({ from_h, until_h }) => ({
		opens: ended + from_h * 3600,
		closes: until_h === null ? null : ended + until_h * 3600,
	}));
}

/**
 * When a pass can be begun, and how long before it the painter must be at work for it. After a wait, with a new
 * batch and at the start of a day the check is full; after a turn, or when the last is old, short.
 */
function whenOf({ pace }: Walk, now: Now, piece: Piece, fresh: boolean): When {
	const { turn_s, spans } = piece;
	const full = benchOf_s(pace, piece) + turn_s + pace.fullCheck_s;
	const aged = now.at - now.checked > pace.checkAge_s;
	const lead = pace.move_s + turn_s + (turn_s > 0 || aged ? pace.shortCheck_s : 0);
	const span = spans.find(({ closes }) => closes === null || closes >= now.at + lead) ?? spans.at(-1);
	const opens = span?.opens ?? Number.NEGATIVE_INFINITY;
	if (!fresh && !piece.begins && Number.isFinite(now.checked) && now.at + lead >= opens)
		return { start: now.at + lead, lead, span, full: false };
	return { start: Math.max(opens, now.at + full), lead: full, span, full: true };
}

const benchOf_s = (pace: Pace, { mixing, mixOne_s, begins }: Piece): number =>
	mixing.length * mixOne_s + (begins ? pace.load_s : 0);

const length_s = ({ job }: Walk): number =>
	job.shop.hours === null ? Number.POSITIVE_INFINITY : job.shop.hours * 60;

/** By how much a pass and the cleaning after it would go past the end of the day, s. */
const overDay_s = (given: Walk, now: Now, piece: Piece, when: When): number =>
	when.start + piece.spray_s + given.pace.clean_s - (now.day * day_s + length_s(given));

/** Cleans the gun, and comes back on the first day on which the pass can be laid. */
function night(given: Walk, course: Course, now: Now, piece: Piece, when: When): void {
	const { pace } = given;
	if (piece.index > 0) put(course, now, 'clean', pace.clean_s);
	const lead = when.lead + pace.setUp_s;
	const fits = (day: number) =>
		Math.max(when.span?.opens ?? 0, day * day_s + lead) + piece.spray_s + pace.clean_s <=
		day * day_s + length_s(given);
	let day = now.day + 1;
	while (!fits(day) && day * day_s < (when.span?.opens ?? 0)) day += 1;
	now.day = day;
	const morning = Math.max(day * day_s, (when.span?.opens ?? 0) - lead);
	put(course, now, 'night', morning - now.at);
	put(course, now, 'set-up', pace.setUp_s);
	if (!piece.begins) course.breaks.push(piece.index);
}

/** The wait, the mixing, the gun and the check before a pass; the wait is used for what can be done in it. */
function getReady(given: Walk, course: Course, now: Now, piece: Piece, when: When, slept: boolean): void {
	const { job, pace } = given;
	const { pass, index, begins, mixing, mixOne_s, turn_s } = piece;
	const names = named(pass);
	const idle = when.start - when.lead - now.at;
	const flush_s = (job.materials[pass.coat.material]?.flush_min ?? 0) * 60;
	if (when.full && !begins && !slept && idle + when.lead > flush_s) course.breaks.push(index);
	if (mixing.length > 0 && idle <= 0 && !slept) course.stalls.push(index);
	put(course, now, 'wait', idle, names);
	for (const batch of mixing) {
		const times = { at_s: now.at, ready_s: now.at + mixOne_s };
		course.mixed.push({ batch, ...times, dies_s: now.at + lifeOf_s(job, pass.coat.material) });
		put(course, now, 'mix', mixOne_s, { batch });
	}
	if (begins) put(course, now, 'load', pace.load_s, { batch: piece.batch });
	if (!when.full) put(course, now, 'move', pace.move_s, names);
	put(course, now, 'turn', turn_s, names);
	const check = when.start - now.at;
	put(course, now, 'check', check, names);
	if (check > 0) now.checked = now.at;
	now.at = when.start;
}

/** Notes the pass, and what of it cannot be kept. */
function judge(
	given: Walk,
	course: Course,
	now: Now,
	piece: Piece,
	{ span, start }: When,
	night_s: number | null,
): void {
	const { pass, index, batch, begins, spray_s } = piece;
	const names = named(pass);
	const finite = (value: number | null | undefined) =>
		value === null || value === undefined || !Number.isFinite(value) ? null : value;
	const closes_s = finite(span?.closes);
	const times = { from_s: start, to_s: start + spray_s, opens_s: finite(span?.opens), closes_s };
	course.laid.push({ ...names, part: pass.face.part, batch, ...times });
	if (piece.spans.length === 0) course.missed.push({ ...names, why: 'never', by_s: 0, night_s });
	if (closes_s !== null && start > closes_s)
		course.missed.push({ ...names, why: 'window', by_s: start - closes_s, night_s });
	const over = start + spray_s + given.pace.clean_s - (now.day * day_s + length_s(given));
	if (over > 1e-6) course.missed.push({ ...names, why: 'day', by_s: over, night_s: null });
	const dies_s = course.mixed.find(each => each.batch === batch)?.dies_s ?? Number.POSITIVE_INFINITY;
	if (start + spray_s <= dies_s) return;
	if (begins && piece.mixing.length === 1)
		course.missed.push({ ...names, why: 'life', by_s: start + spray_s - dies_s, night_s: null });
	else course.breaks.push(index);
}
