import type { DayRecord } from '../day/records.ts';
import { coatKey } from '../records/passes.ts';
import { sentence } from '../words/say.ts';
import { airSuspicion } from './air-thing.ts';
import { batchCodes, batchSuspicions } from './batch-things.ts';
import { jobAsked } from './chain.ts';
import { countThings } from './count-things.ts';
import { ownSuspicion } from './face-things.ts';
import { causesOf, type Fault, type FaultData } from './faults.ts';
import { gunSuspicion, gunThings } from './gun-things.ts';
import { inspectionOrder, type Spot } from './order.ts';
import { type Candidate, rank } from './rank.ts';
import { type Asked, dayOf, type Suspicion } from './suspicion.ts';
import { inOrder, type Pass, type Timeline, timelineOf } from './timeline.ts';

export type Question = { fault: string; face: string; coat: number };

/** One thing that was in doubt: how long, and how many faces were sprayed meanwhile. */
export type Doubt = { code: string; thing: string; from: string; to: string; exposed: Spot[] };

export type Trace = {
	/** Of the thing most likely wrong: last good reading to the evidence that ends the doubt. */
	bracket: { from: string; to: string };
	/** Every face and coat that may have got it too, by any cause in question, in the order sprayed. */
	exposed: Spot[];
	/** Those of them that the likeliest cause exposes. */
	likely: Spot[];
	/** Best first. */
	candidates: Candidate[];
	/** Which faces to look at, in order. */
	inspect: Spot[];
	/** The coat it was most likely put in with, on the face asked about. */
	put: Spot;
	/** The likeliest fault, once in, stays in: answers clear whole stretches. */
	stays: boolean;
	/** What was not recorded and would have settled it. */
	missing: string[];
	/** Whether the records speak for any cause at all. */
	told: boolean;
	doubts: Doubt[];
	/** Exposed faces without a verdict yet: none drops out. */
	open: Spot[];
};

/** A question that cannot be traced, with what to do. */
export class TraceError extends Error {
	override readonly name = 'TraceError';
}

function suspicionsOf(asked: Asked, code: string): Suspicion[] {
	const found: (Suspicion | null)[] = gunThings
		.filter(({ codes }) => codes.includes(code))
		.map(thing => gunSuspicion(asked, thing, code));
	if (batchCodes.includes(code)) found.push(...batchSuspicions(asked, code));
	if (code === 'air-out-of-limits') found.push(airSuspicion(asked));
	found.push(ownSuspicion(asked, code), countThings[code]?.(asked) ?? null);
	const known = found.filter(one => one !== null);
	return known.length > 0 || knownCode(code) ? known : [unrecorded(asked, code)];
}

const knownCode = (code: string): boolean =>
	batchCodes.includes(code) ||
	gunThings.some(({ codes }) => codes.includes(code)) ||
	['air-out-of-limits', 'coat-too-early', 'window-missed', ...Object.keys(countThings)].includes(code);

/** A cause of the shop's own that no record bears on: in doubt the whole day. */
function unrecorded({ timeline, pass }: Asked, code: string): Suspicion {
	const day = dayOf(timeline, pass);
	const explains = (one: Pass) => one.day === pass.day;
	return {
		code,
		thing: code,
		from: day.opened,
		to: day.closed,
		exposed: day.passes,
		clues: [{ kind: 'open', at: day.opened, size: 0, reason: 'no record bears on it', explains }],
		unread: `${code}: no record bears on it`,
		stays: false,
	};
}

/** The passes that a fault may have been put in with: its own coat, or that and the coats under it. */
function targets(timeline: Timeline, fault: Fault, { face, coat }: Question): Pass[] {
	return (timeline.faces.get(face) ?? []).filter(
		pass => pass.coat === coat || (fault.reach === 'under' && pass.coat < coat),
	);
}

const spotOf = ({ face, coat }: Pass): Spot => ({ face, coat });

/** Each face and coat once, in the order sprayed. */
function spotsOf(passes: Iterable<Pass>): Spot[] {
	const seen = new Map<string, Spot>();
	for (const pass of [...passes].sort(inOrder))
		if (!seen.has(coatKey(pass))) seen.set(coatKey(pass), spotOf(pass));
	return [...seen.values()];
}

/** Every doubt about the passes in question, by every cause the fault may have. */
function doubtsAbout(timeline: Timeline, fault: Fault, question: Question): Suspicion[] {
	return targets(timeline, fault, question).flatMap(pass =>
		causesOf(fault).flatMap(code => suspicionsOf({ timeline, pass }, code)),
	);
}

function knownFaces(timeline: Timeline, fault: Fault, question: Question) {
	const bad = new Map<string, Spot>([[coatKey(question), question]]);
	for (const { record } of timeline.seen)
		if (record.fault === question.fault && record.face && record.coat)
			bad.set(coatKey({ face: record.face, coat: record.coat }), { face: record.face, coat: record.coat });
	const good = new Set<string>();
	for (const { record } of timeline.judged) if (record.verdict === 'cleared') good.add(coatKey(record));
	return {
		bad: [...bad.values()].map(spot => targets(timeline, fault, { ...question, ...spot })),
		good: timeline.passes.filter(pass => good.has(coatKey(pass)) && !bad.has(coatKey(pass))),
	};
}

function missingOf(suspicions: readonly Suspicion[], data: FaultData, told: boolean): string[] {
	const lines = new Map<string, string>();
	for (const { unread, code } of suspicions) {
		if (!unread || lines.has(unread)) continue;
		const check = sentence(data.causes[code]?.check ?? 'a check of it');
		lines.set(unread, `${sentence(unread)}. ${check} would have settled it.`);
	}
	return [
		...(told ? [] : ['The records cannot tell: no change and no departure lies in them.']),
		...lines.values(),
	];
}

/**
 * Works back from a fault to where it may have begun, and sideways to what else may have got it.
 * @param ask.days day files, oldest first; the job in question is found among them
 * @param ask.face `part/face`; `coat` as counted per face
 * @param data fault kinds in force
 * @throws TraceError for an unknown fault, one that starts no trace, or a coat that no day laid
 */
export function trace(ask: { days: readonly (readonly DayRecord[])[] } & Question, data: FaultData): Trace {
	const fault = data.faults[ask.fault];
	if (!fault)
		throw new TraceError(`fault "${ask.fault}" is not known: one of ${Object.keys(data.faults).join(', ')}`);
	if (!fault.trace)
		throw new TraceError(`${fault.say} has nothing to do with the spraying: mark it, and trace nothing`);
	const days = jobAsked(ask.days, ask);
	const timeline = days && timelineOf(days);
	if (!timeline || targets(timeline, fault, ask).length === 0)
		throw new TraceError(
			`coat ${ask.coat} on ${ask.face} was laid on none of these days: look at fanwise log`,
		);
	return answer(timeline, fault, ask, data, zoneOf(days));
}

/**
 * The likeliest cause alone, on days already sorted: for questions put very many times.
 * @returns null where the coat was not laid, or the records speak for no cause
 */
export function likeliest(timeline: Timeline, question: Question, data: FaultData): string | null {
	const fault = data.faults[question.fault];
	if (!fault?.trace || targets(timeline, fault, question).length === 0) return null;
	const known = { ...knownFaces(timeline, fault, question), order: causesOf(fault) };
	const first = rank(doubtsAbout(timeline, fault, question), known, 'UTC')[0]?.candidate;
	return first?.told ? first.code : null;
}

const zoneOf = (days: readonly (readonly DayRecord[])[]): string => {
	const first = days[0]?.[0];
	return first?.type === 'day.opened' ? first.zone : 'UTC';
};

const iso = (ms: number) => new Date(ms).toISOString();

function answer(timeline: Timeline, fault: Fault, ask: Question, data: FaultData, zone: string): Trace {
	const mine = targets(timeline, fault, ask);
	const suspicions = doubtsAbout(timeline, fault, ask);
	const known = { ...knownFaces(timeline, fault, ask), order: causesOf(fault) };
	const ranked = rank(suspicions, known, zone);
	const first = ranked[0];
	const exposed = spotsOf(new Set([...mine, ...suspicions.flatMap(one => one.exposed)]));
	const told = first?.candidate.told === true;
	const judged = new Set(timeline.judged.map(({ record }) => coatKey(record)));
	const from = first?.suspicion.from ?? mine[0]?.began ?? 0;
	const within = mine.find(one => first?.suspicion.exposed.includes(one)) ?? mine.at(-1);
	const put = within ? spotOf(within) : { face: ask.face, coat: ask.coat };
	const to = first?.suspicion.to ?? mine[0]?.ended ?? 0;
	return {
		bracket: { from: iso(from), to: iso(to) },
		exposed,
		likely: first ? spotsOf(first.suspicion.exposed) : [],
		candidates: ranked.map(({ candidate }) => candidate),
		stays: first?.suspicion.stays ?? false,
		inspect: lookAt(exposed, first?.suspicion, put, ask),
		put,
		missing: missingOf(suspicions, data, told),
		told,
		doubts: suspicions.map(one => ({
			code: one.code,
			thing: one.thing,
			from: iso(one.from),
			to: iso(one.to),
			exposed: spotsOf(one.exposed),
		})),
		open: exposed.filter(spot => !judged.has(coatKey(spot))),
	};
}

/** First the faces that the likeliest cause exposes, in its own order; then the others, nearest in time. */
function lookAt(exposed: Spot[], first: Suspicion | undefined, put: Spot, asked: Spot): Spot[] {
	const leading = first ? spotsOf(first.exposed) : [];
	const order = inspectionOrder(leading, put, first?.stays ?? false).filter(
		spot => coatKey(spot) !== coatKey(put),
	);
	const taken = new Set([...order, asked].map(coatKey));
	const rest = [put, ...inspectionOrder(exposed, put, false)].filter(spot => !taken.has(coatKey(spot)));
	return [
		...order.filter(spot => coatKey(spot) !== coatKey(asked)),
		...new Map(rest.map(spot => [coatKey(spot), spot])).values(),
	];
}
