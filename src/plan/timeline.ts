import type { Job } from '../job/job.ts';
import { standsAt_min } from '../job/process-clocks.ts';
import { letterOf } from './batch-letters.ts';
import { type Cup, lifeOf_s } from './batches.ts';
import { type GunState, gunFor, gunKey, type Pass } from './gun.ts';
import { type Pace, type Rates, sprayOf_s } from './pace.ts';
import { workOn_s } from './paint-rule.ts';
import {
	benchWith,
	checkDue,
	checkedFor,
	cleaned,
	cupDies_s,
	type Mixed,
	mixedInWait,
	type PaintDone,
	type PlayedBench,
	paintFor,
	sprayed,
	type ToCome,
} from './played-bench.ts';
import type { Opening } from './windows.ts';

/** One thing done, or waited for. Seconds count from midnight of nothing: from the start of the first day. */
export type Step = {
	does: 'set-up' | 'mix' | 'load' | 'turn' | 'check' | 'move' | 'spray' | 'wait' | 'clean' | 'night';
	from_s: number;
	to_s: number;
	face?: string;
	coat?: number;
	batch?: string;
};

/** One face sprayed: when, and between what times it might have been begun (null: no bound). */
export type Laid = {
	face: string;
	part: string;
	coat: number;
	/** Letters of the batches in the cup. */
	cup: readonly string[];
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
	/** Batches in the order in which they were mixed; the first may have been there before. */
	mixed: Mixed[];
	missed: Missed[];
	/** How often the cup is filled. */
	fills: number;
	end_s: number;
	/** As the last pass leaves it. */
	bench: PlayedBench;
};

export type Walk = {
	job: Job;
	passes: readonly Pass[];
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
	/** What is in the gun's cup before the first pass; or the bench as another stage of the day left it. */
	cup: Cup | null;
	pots: readonly Cup[];
	bench: PlayedBench | null;
	/** Letters used before on this job. */
	letters: number;
};

type Span = { opens: number; closes: number | null };
type Now = {
	at: number;
	day: number;
	gun: GunState | null;
	checked: number;
	ends: Map<string, number>;
	bench: PlayedBench;
};
type Piece = {
	index: number;
	pass: Pass;
	/** The rest of its coat, itself first. */
	toCome: ToCome;
	mixOne_s: number;
	turn_s: number;
	spray_s: number;
	spans: Span[];
};
/** When a pass is begun, and what is done before it. */
type When = {
	start: number;
	lead: number;
	span: Span | undefined;
	paint: PaintDone;
	/** Whether the gun is checked before it, and in full. */
	isChecked: boolean;
	isFull: boolean;
};

const day_s = 86_400;
const always: Span = { opens: Number.NEGATIVE_INFINITY, closes: null };

/** Walks through the work pass by pass, its paint by the rule that the day asks by. What does not fit is reported. */
export function walk(given: Walk): Course {
	const { passes, pace } = given;
	const bench = given.bench ?? benchWith(given.cup, given.pots, passes[0], given.start_s);
	const course: Course = {
		...{ steps: [], laid: [], mixed: given.bench ? [] : [...bench.batches], missed: [], fills: 0 },
		...{ end_s: given.start_s, bench },
	};
	const now: Now = {
		at: given.start_s,
		day: Math.floor(given.start_s / day_s),
		gun: given.gun,
		checked: Number.NEGATIVE_INFINITY,
		ends: new Map(Object.entries(given.ends)),
		bench,
	};
	if (!given.begun) put(course, now, 'set-up', pace.setUp_s);
	for (const [index, pass] of passes.entries()) {
		const piece = pieceOf(given, now, index, pass);
		const first = whenOf(given, course, now, piece);
		const over = overDay_s(given, now, piece, first);
		const sleeps = over > 0 && now.at > now.day * day_s + pace.setUp_s;
		if (sleeps) night(given, course, now, piece, first);
		const when = sleeps ? whenOf(given, course, now, piece) : first;
		getReady(given, course, now, piece, when);
		judge(given, course, now, piece, when, sleeps ? over : null);
		put(course, now, 'spray', piece.spray_s, named(pass));
		now.bench = sprayed(given, now.bench, pass, now.at);
		now.ends.set(pass.face.id, now.at);
		now.gun = gunFor(pass);
	}
	put(course, now, 'clean', pace.clean_s);
	course.end_s = now.at;
	course.bench = now.bench;
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

const isSameCoat = ({ coat: one }: Pass, { coat: other }: Pass): boolean =>
	one.stage === other.stage && one.ofStage[0] === other.ofStage[0];

function pieceOf({ job, passes, pace, rates, opensFor }: Walk, now: Now, index: number, pass: Pass): Piece {
	const material = job.materials[pass.coat.material];
	const standing_s = material ? standsAt_min(material, job.shop.air_C) * 60 : 0;
	const others = passes.slice(index + 1).filter(other => isSameCoat(pass, other));
	const behind = passes.slice(index + 1 + others.length);
	const isBegun = passes.slice(0, index).some(other => isSameCoat(pass, other));
	return {
		...{ index, pass, toCome: { coming: [pass, ...others], isBegun, behind } },
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
 * When a pass can be begun, and how long before it the painter must be at work for it. After a wait, with a new batch and at the
 * start of a day the check is full; after a turn, or when the last is old, short. Its paint is judged as it is then.
 */
function whenOf(given: Walk, course: Course, now: Now, piece: Piece): When {
	const { pace } = given;
	const { turn_s, spans, pass, toCome, mixOne_s } = piece;
	const soon = now.at + pace.move_s + turn_s;
	const span = spans.find(({ closes }) => closes === null || closes >= soon) ?? spans.at(-1);
	const opens = opensWithOthers(given, now, toCome, span?.opens ?? Number.NEGATIVE_INFINITY);
	const isAged = now.at - now.checked > pace.checkAge_s;
	/** After a wait the gun is checked: what opens meanwhile is not waited for. */
	const waits = opens - now.at > pace.fullCheck_s;
	const waited = waits ? { ...now.bench, check: 'full' as const } : now.bench;
	const due = checkDue(given, waited, pass, isAged);
	const letter = (nth: number) => letterOf(given.letters + lettersIn(given, course) + nth + 1);
	/** The stage before it on the same day ended in a wait, for its flash or a turning: what is mixed is begun in that. */
	const afterStage = piece.index === 0 && given.bench !== null;
	const inWait =
		waits || afterStage
			? mixedInWait(given, due, toCome, Math.max(now.at, opens - mixOne_s), letter(0))
			: { bench: due, mixed: [], fills: 0 };
	const playedAt = (at_s: number): When => {
		const { paint, checks } = paintAndCheck(given, inWait, piece, at_s, letter);
		const isFull = checks.includes('full');
		const check_s = checks.reduce(
			(sum, one) => sum + (one === 'full' ? pace.fullCheck_s : pace.shortCheck_s),
			0,
		);
		const bench_s = paint.mixed.length * mixOne_s + paint.fills * pace.load_s;
		const lead = bench_s + turn_s + check_s + (isFull ? 0 : pace.move_s);
		return { start: Math.max(opens, now.at + lead), lead, span, paint, isFull, isChecked: checks.length > 0 };
	};
	const when = playedAt(Math.max(opens, soon + inWait.mixed.length * mixOne_s));
	const isDead = when.paint.mixed.length === 0 && cupDies_s(when.paint.bench) < when.start + piece.spray_s;
	return isDead ? playedAt(when.start) : when;
}

/** Where work comes before a coat it is done on all its faces at once: the first waits for those that are due by their turn. */
function opensWithOthers(
	{ opensFor, rates }: Walk,
	now: Now,
	{ coming, isBegun }: ToCome,
	own: number,
): number {
	const [first] = coming;
	if (isBegun || first.coat.prep.length === 0) return own;
	let turn = Math.max(now.at, own);
	return coming.reduce((latest, pass) => {
		const opens = spansOf(opensFor, now, pass)[0]?.opens ?? latest;
		const isDue = opens <= turn;
		turn += workOn_s({ spray_s: sprayOf_s(pass, rates) });
		return isDue ? Math.max(latest, opens) : latest;
	}, own);
}

/** The paint of a pass and the check of the gun; where its bursts take what the cup held too much, it is filled up and checked again. */
function paintAndCheck(
	given: Walk,
	before: PaintDone,
	{ pass, toCome, mixOne_s }: Piece,
	at_s: number,
	letter: (nth: number) => string,
): { paint: PaintDone; checks: ('full' | 'short')[] } {
	let paint = before;
	const checks: ('full' | 'short')[] = [];
	for (let round = 0; round < 2; round++) {
		const mixed = paint.mixed.length;
		const so = { ...paint, ...(round > 0 && { mixed: [], fills: 0 }) };
		const from_s = at_s + (mixed - before.mixed.length) * mixOne_s;
		const done = paintFor(given, so, toCome, from_s, mixOne_s, nth => letter(round > 0 ? mixed + nth : nth));
		if (done.bench.check) checks.push(done.bench.check);
		paint = {
			bench: checkedFor(given, done.bench, pass),
			mixed: round > 0 ? [...paint.mixed, ...done.mixed] : done.mixed,
			fills: round > 0 ? paint.fills + done.fills : done.fills,
		};
	}
	return { paint, checks };
}

/** Letters that the plan has given to batches of its own. */
const lettersIn = ({ start_s, bench, cup, pots }: Walk, { mixed }: Course): number =>
	mixed.length - (bench ? 0 : benchWith(cup, pots, mixed[0]?.pass, start_s).batches.length);

const length_s = ({ job }: Walk): number =>
	job.shop.hours === null ? Number.POSITIVE_INFINITY : job.shop.hours * 60;

/** By how much a pass and the cleaning after it would go past the end of the day, s. */
const overDay_s = (given: Walk, now: Now, piece: Piece, when: When): number =>
	when.start + piece.spray_s + given.pace.clean_s - (now.day * day_s + length_s(given));

/** Cleans the gun, and comes back on the first day on which the pass can be laid. */
function night(given: Walk, course: Course, now: Now, piece: Piece, when: When): void {
	const { pace } = given;
	if (piece.index > 0) put(course, now, 'clean', pace.clean_s);
	now.bench = cleaned(now.bench);
	const opens = when.span?.opens ?? 0;
	/** Next morning a batch is mixed and the gun checked in full. */
	const lead = piece.mixOne_s + pace.load_s + piece.turn_s + pace.fullCheck_s + pace.setUp_s;
	const fits = (day: number) =>
		Math.max(opens, day * day_s + lead) + piece.spray_s + pace.clean_s <= day * day_s + length_s(given);
	let day = now.day + 1;
	while (!fits(day) && day * day_s < opens) day += 1;
	now.day = day;
	put(course, now, 'night', Math.max(day * day_s, opens - lead) - now.at);
	put(course, now, 'set-up', pace.setUp_s);
}

/** The wait, the mixing, the gun and the check before a pass; the wait is used for what can be done in it. */
function getReady(given: Walk, course: Course, now: Now, piece: Piece, when: When): void {
	const { job, pace } = given;
	const { pass, mixOne_s, turn_s } = piece;
	const { bench, mixed, fills } = when.paint;
	const names = named(pass);
	put(course, now, 'wait', when.start - when.lead - now.at, names);
	const begun = mixed.map((batch, nth) => {
		const mix_s = now.at + nth * mixOne_s;
		return { ...batch, mix_s, dies_s: mix_s + lifeOf_s(job, pass.coat.material) };
	});
	course.mixed.push(...begun);
	course.fills += fills;
	for (const { letter } of begun) put(course, now, 'mix', mixOne_s, { batch: letter });
	for (let nth = 0; nth < fills; nth++)
		put(course, now, 'load', pace.load_s, { batch: bench.letters.at(-1) ?? '' });
	if (!when.isFull) put(course, now, 'move', pace.move_s, names);
	put(course, now, 'turn', turn_s, names);
	put(course, now, 'check', when.start - now.at, names);
	if (when.isChecked) now.checked = now.at;
	now.at = when.start;
	const batches = bench.batches.map(one => {
		const fresh = begun.find(({ letter }) => letter === one.letter);
		return fresh ? { ...one, mix_s: fresh.mix_s, dies_s: fresh.dies_s } : one;
	});
	now.bench = { ...bench, batches };
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
	const { pass, spray_s } = piece;
	const names = named(pass);
	const finite = (value: number | null | undefined) =>
		value === null || value === undefined || !Number.isFinite(value) ? null : value;
	const closes_s = finite(span?.closes);
	const times = { from_s: start, to_s: start + spray_s, opens_s: finite(span?.opens), closes_s };
	course.laid.push({ ...names, part: pass.face.part, cup: now.bench.letters, ...times });
	if (piece.spans.length === 0) course.missed.push({ ...names, why: 'never', by_s: 0, night_s });
	if (closes_s !== null && start > closes_s)
		course.missed.push({ ...names, why: 'window', by_s: start - closes_s, night_s });
	const over = start + spray_s + given.pace.clean_s - (now.day * day_s + length_s(given));
	if (over > 1e-6) course.missed.push({ ...names, why: 'day', by_s: over, night_s: null });
	const by_s = start + spray_s - cupDies_s(now.bench);
	if (by_s > 0) course.missed.push({ ...names, why: 'life', by_s, night_s: null });
}
