import type { DayRecord } from '../day/records.ts';
import { coatKey } from '../records/passes.ts';
import { sentence } from '../words/say.ts';
import { airExtents } from './air-extents.ts';
import { ageExtents, batchCodes, batchExtents } from './batch-extents.ts';
import { jobAsked } from './chain.ts';
import type { Fault, FaultData } from './faults.ts';
import type { Ground } from './ground.ts';
import { gunCodes, gunExtents } from './gun-extents.ts';
import { isIsNot } from './is-is-not.ts';
import { Sights } from './marks.ts';
import { bracketed, exposure, words } from './numbers.ts';
import { passExtents } from './pass-extents.ts';
import { type Cause, causesIn, none } from './prior.ts';
import { reasonsOf } from './reasons.ts';
import { ableOn, markingIn, type Question, sceneOf, targets } from './scene.ts';
import { habitsOf } from './soft.ts';
import { inOrder, type Pass, type Timeline, timelineOf } from './timeline.ts';
import { faceDo, type Look, walkOf } from './walk.ts';
import {
	byCode,
	type Explanation,
	nowhere,
	twoAtOnce,
	type Weighed,
	type Word,
	weigh,
	wordFor,
} from './weigh.ts';

export type { Question } from './scene.ts';
export type Spot = { face: string; coat: number };

/** One cause, with its heaviest form and extent. */
export type Candidate = {
	code: string;
	/** In what way: `low`, `thick`; null: there is but one. */
	form: string | null;
	/** To three digits; never shown on a screen. */
	weight: number;
	/** The passes that it reached, in words. */
	extent: string;
	at: string;
	for: string[];
	against: string[];
	/** All of them, what speaks against it marked so. */
	reasons: string[];
	/** Whether a record says it, or only marks and keys. */
	told: boolean;
};

/** A face that may have got it too, once: its top coat, what lies under it, whether it likely did, what to do there. */
export type ExposedFace = Spot & { under: string | null; likely: boolean; do: string };

export type Trace = {
	/** What may be claimed of the first candidate. */
	word: Word;
	/** What all bad faces have and no sound one has. */
	isIsNot: string;
	/** Where the likeliest cause began, nearly surely. */
	bracket: { from: string; to: string };
	/** Every face and coat that may have got it too, in the order sprayed. */
	exposed: Spot[];
	/** Those of them that likely did. */
	likely: Spot[];
	/** The same by face, its top coat. */
	faces: ExposedFace[];
	/** Best first. */
	candidates: Candidate[];
	/** Codes of two causes that are far likelier together than one alone. */
	two: [string, string] | null;
	/** Nothing in the table may have done it, as likely as not. */
	none: boolean;
	/** Faces to look at, in order, each as its top coat. */
	inspect: Spot[];
	/** All looks worth making, at faces and at the bench, in order. */
	walk: Look[];
	/** What was not recorded and would have settled it. */
	missing: string[];
	/** Whether anything may be claimed at all. */
	told: boolean;
	/** Exposed coats without a verdict yet. */
	open: Spot[];
};

/** A question that cannot be traced, with what to do. */
export class TraceError extends Error {
	override readonly name = 'TraceError';
}

const spotOf = ({ face, coat }: Pass): Spot => ({ face, coat });
const iso = (ms: number) => new Date(ms).toISOString();

/** Each face and coat once, in the order sprayed. */
function spotsOf(passes: Iterable<Pass>): Spot[] {
	const seen = new Map<string, Spot>();
	for (const pass of [...passes].sort(inOrder))
		seen.set(coatKey(pass), seen.get(coatKey(pass)) ?? spotOf(pass));
	return [...seen.values()];
}

function extentsOf(ground: Ground, cause: Cause): Explanation[] {
	if (gunCodes.includes(cause.code)) return gunExtents(ground, cause);
	if (batchCodes.includes(cause.code)) return batchExtents(ground, cause);
	if (cause.code === 'batch-too-old') return ageExtents(ground, cause);
	return cause.code === 'air-out-of-limits' ? airExtents(ground, cause) : passExtents(ground, cause);
}

/** What this shop's first readings show of how it keys them. */
function habitsIn(days: readonly (readonly DayRecord[])[]) {
	let [first, differed] = [0, 0];
	for (const record of days.flat())
		if (record.type === 'reading.taken' && record.attempt === 1) {
			first++;
			if (!record.matched) differed++;
		}
	return habitsOf(first, differed);
}

type Weighing = { timeline: Timeline; ground: Ground; sights: Sights; weighed: Weighed[] };

/**
 * Lays out every explanation of what is marked on a job's days, and weighs them.
 * @param days of one job, oldest first
 * @param ask the fault asked about, on a coat that was laid
 */
export function weighing(
	days: readonly (readonly DayRecord[])[],
	timeline: Timeline,
	ask: Question,
	data: FaultData,
): Weighing {
	const scene = sceneOf(timeline, data, ask);
	const sights = new Sights(scene);
	const marking = markingIn(timeline, scene);
	const [opened] = days[0] ?? [];
	const ground: Ground = {
		timeline,
		zone: opened?.type === 'day.opened' ? opened.zone : 'UTC',
		habits: habitsIn(days),
		days: [...new Set(marking.map(({ day }) => day))],
		marking: new Set(marking),
		faces: new Map(scene.faces.map(({ id }, at) => [id, at])),
		asked: targets(timeline, data, ask),
		missing: new Map(),
	};
	// A cause that does none of the kinds marked explains none of them, wherever it was.
	const explanations = causesIn(data).flatMap(cause =>
		sights.doesAny(cause) ? extentsOf(ground, cause) : [nowhere(sights, cause, marking[0]?.began)],
	);
	return { timeline, ground, sights, weighed: weigh(explanations, sights) };
}

function faultAsked(data: FaultData, { fault: name }: Question): Fault {
	const fault = data.faults[name];
	if (!fault)
		throw new TraceError(`fault "${name}" is not known: one of ${Object.keys(data.faults).join(', ')}`);
	if (!fault.trace)
		throw new TraceError(`${fault.say} has nothing to do with the spraying: mark it, and trace nothing`);
	return fault;
}

/**
 * Works back from a fault to where it may have begun, and sideways to what else may have got it.
 * @param ask.days day files, oldest first; the job in question is found among them
 * @param ask.face `part/face`; `coat` as counted per face
 * @param data fault kinds in force
 * @throws TraceError for an unknown fault, one that starts no trace, or a coat that no day laid
 */
export function trace(ask: { days: readonly (readonly DayRecord[])[] } & Question, data: FaultData): Trace {
	faultAsked(data, ask);
	const days = jobAsked(ask.days, ask);
	const timeline = days && timelineOf(days);
	if (!timeline || targets(timeline, data, ask).length === 0)
		throw new TraceError(
			`coat ${ask.coat} on ${ask.face} was laid on none of these days: look at fanwise log`,
		);
	return answer(weighing(days, timeline, ask, data), ask, data);
}

/**
 * The likeliest cause alone, on days already sorted: for questions put very many times.
 * @returns null where the coat was not laid, or the records cannot tell
 */
export function likeliest(
	days: readonly (readonly DayRecord[])[],
	timeline: Timeline,
	ask: Question,
	data: FaultData,
): string | null {
	if (!data.faults[ask.fault]?.trace || targets(timeline, data, ask).length === 0) return null;
	const { weighed } = weighing(days, timeline, ask, data);
	const [first] = byCode(weighed).filter(({ code }) => code !== none.code);
	return first && first.weight >= words.perhaps ? first.code : null;
}

/** Weight of each pass: of the explanations down to nearly all of the weight, those that reach it. */
function exposedIn({ weighed }: Weighing): Map<Pass, number> {
	const sum = new Map<Pass, number>();
	let taken = 0;
	for (const { passes, weight } of weighed) {
		if (taken >= exposure.taken) break;
		taken += weight;
		for (const pass of passes) sum.set(pass, (sum.get(pass) ?? 0) + weight);
	}
	return new Map([...sum].filter(([, weight]) => weight >= exposure.least));
}

function facesOf({ timeline }: Weighing, exposed: ReadonlyMap<Pass, number>, kind: string): ExposedFace[] {
	const faces = new Map<string, { passes: Pass[]; weight: number }>();
	for (const [pass, weight] of [...exposed].sort(([a], [b]) => inOrder(a, b))) {
		const known = faces.get(pass.face) ?? { passes: [], weight: 0 };
		faces.set(pass.face, { passes: [...known.passes, pass], weight: Math.max(known.weight, weight) });
	}
	return [...faces].map(([face, { passes, weight }]) => {
		const top = Math.max(...(timeline.faces.get(face) ?? passes).map(({ coat }) => coat));
		const last = passes.at(-1);
		const isUnder = last !== undefined && passes.every(({ coat }) => coat < top);
		const cup = last?.start.cup.join(' and ') ?? '';
		const under = isUnder ? `over a coat ${last.coat} from batch ${cup}` : null;
		return { face, coat: top, under, likely: weight > exposure.likely, do: faceDo(kind) };
	});
}

/** From where to where the lead nearly surely began. */
function bracketOf({ weighed }: Weighing, code: string, weight: number): { from: string; to: string } {
	let [from, to, taken] = [Number.POSITIVE_INFINITY, 0, 0];
	for (const one of weighed) {
		if (one.cause.code !== code) continue;
		const start = one.start();
		from = Math.min(from, start.from);
		to = Math.max(to, start.to);
		taken += one.weight;
		if (taken >= bracketed * weight) break;
	}
	return { from: iso(from), to: iso(Math.max(from, to)) };
}

const isRecorded = ({ softs }: Weighed): boolean => softs().some(one => one.isRecord);

function candidateOf({ sights }: Weighing, code: string, weight: number, lead: Weighed): Candidate {
	const why = reasonsOf(lead, sights);
	return {
		code,
		form: lead.cause.form,
		weight: Math.round(weight * 1000) / 1000,
		extent: lead.extent(),
		at: iso(lead.start().to),
		...why,
		reasons: [...why.for, ...why.against.map(says => `against it: ${says}`)],
		told: isRecorded(lead),
	};
}

/** Weights below this are no candidates: three digits of nought. */
const nought = 0.0005;

function answer(found: Weighing, ask: Question, data: FaultData): Trace {
	const { timeline, ground, sights, weighed } = found;
	const codes = byCode(weighed);
	const nothing = codes.find(({ code }) => code === none.code)?.weight ?? 0;
	const ranked = codes.filter(({ code, weight }, at) => code !== none.code && (at < 3 || weight >= nought));
	const [first] = ranked;
	const weights = exposedIn(found);
	const exposed = spotsOf(weights.keys());
	const faces = facesOf(found, weights, ask.fault);
	const walk = walkOf(
		weighed,
		sights,
		{ kind: ask.fault, face: ask.face },
		ableOn(timeline, ground.asked, sights.scene.asked),
	);
	const judged = new Set(timeline.judged.map(({ record }) => coatKey(record)));
	const word = first ? wordFor(first.weight, isRecorded(first.lead)) : 'cannot tell';
	const two = twoAtOnce(weighed, sights);
	return {
		word,
		isIsNot: isIsNot(timeline, sights.scene, ground.zone, first?.lead.extent() ?? ''),
		bracket: first ? bracketOf(found, first.code, first.weight) : bracketOf(found, none.code, 1),
		exposed,
		likely: spotsOf([...weights].filter(([, weight]) => weight > exposure.likely).map(([pass]) => pass)),
		faces,
		candidates: ranked.map(({ code, weight, lead }) => candidateOf(found, code, weight, lead)),
		two: two ? [two[0].cause.code, two[1].cause.code] : null,
		none: nothing >= words.none || fewReached(found, first?.lead),
		inspect: lookAt(walk, faces, ask),
		walk,
		missing: missingOf(ground, data, word),
		told: word !== 'cannot tell',
		open: exposed.filter(spot => !judged.has(coatKey(spot))),
	};
}

/** Whether an explanation reaches fewer than half of the marks. */
function fewReached({ sights }: Weighing, lead: Weighed | undefined): boolean {
	const marked = sights.marked.length;
	const reached = sights.marked.filter(at => (lead?.reach[at] ?? 0) !== 0).length;
	return 2 * reached < marked;
}

/** First the faces that tell most, then every other that is exposed: none drops out. */
function lookAt(walk: readonly Look[], faces: readonly ExposedFace[], asked: Spot): Spot[] {
	const worth = walk.flatMap(({ face, coat }) => (face !== null && coat !== null ? [{ face, coat }] : []));
	const likelyFirst = faces.toSorted((a, b) => Number(b.likely) - Number(a.likely));
	const all = new Map<string, Spot>();
	for (const { face, coat } of [...worth, ...likelyFirst])
		if (face !== asked.face && !all.has(face)) all.set(face, { face, coat });
	return [...all.values()];
}

function missingOf({ missing }: Ground, data: FaultData, word: Word): string[] {
	const lines = [...missing.values()].map(({ code, says }) => {
		const check = sentence(data.causes[code]?.check ?? 'a check of it');
		return `${sentence(says)}. ${check} would have settled it.`;
	});
	return [
		...(word === 'cannot tell' ? ['The records cannot tell one cause from the others.'] : []),
		...lines,
	];
}
