import type { FaceHistory } from '../day/records.ts';
import { type Face, type Job, leavesOut, type Prep, type Window } from '../job/job.ts';
import { timeAt_h } from '../trade/time.ts';
import { openings, windowsAfter } from './windows.ts';

/** Where one face stands at an instant, and what may be done to it next. Instants in ms. */
export type FaceNow = {
	face: string;
	coats: number;
	planned: number;
	/** The recoat window that its last coat is in, and until when; null: bare, done, or the sheet gives none. */
	window: Window | null;
	until: number | null;
	next:
		| { may: 'spray'; coat: number; material: string; until: number | null }
		| { may: 'prep'; step: Prep; from: number; for: number | null }
		| { may: 'wait'; coat: number; from: number; until: number | null }
		/** No window of the next coat opens any more: it must be sanded first. */
		| { may: 'sand'; coat: number }
		| { may: 'nothing' }
		| { may: 'rework'; step: 'set-up' | 'sand' | 'clean' | 'respray'; from: number };
	/** Why it was set aside, where it was. */
	aside: string | null;
};

export type NowInput = {
	job: Job;
	history: Readonly<Record<string, FaceHistory>>;
	/** ms since 1970. */
	at: number;
};

/**
 * What can be done to each face at an instant, in the order of the sheet.
 * @throws RangeError where a material has no times for the temperature it was held at
 */
export const faceNows = (input: NowInput): FaceNow[] => input.job.faces.map(face => faceNow(input, face));

const blank: FaceHistory = { coats: [], prep: [], aside: null };

function faceNow({ job, history, at }: NowInput, face: Face): FaceNow {
	const its = history[face.id] ?? blank;
	const coats = Math.max(0, ...its.coats.map(each => each.coat));
	const last = its.coats.at(-1);
	const ended = last ? Date.parse(last.ended) : 0;
	const surface_C = last?.surfaceC ?? job.shop.air_C;
	const here = { face: face.id, coats, planned: face.coats.length };
	const span = last
		? windowsAfter(job, face, coats, surface_C).find(inside((at - ended) / hour_ms))
		: undefined;
	const window = { window: span?.does ?? null, until: after(ended, span?.until_h ?? null) };
	if (its.aside) {
		const next = reworkOf(job, face, coats, its, ended, surface_C);
		return { ...here, window: null, until: null, next, aside: its.aside.why };
	}
	return { ...here, ...window, next: nextOf(job, face, coats, its, at), aside: null };
}

const hour_ms = 3_600_000;
const after = (from: number, hours: number | null): number | null =>
	hours === null ? null : from + hours * hour_ms;
const inside = (hours: number) => (span: { from_h: number; until_h: number | null }) =>
	hours >= span.from_h && (span.until_h === null || hours < span.until_h);

function nextOf(job: Job, face: Face, coats: number, its: FaceHistory, at: number): FaceNow['next'] {
	const coat = face.coats[coats];
	const last = its.coats.at(-1);
	const ended = last ? Date.parse(last.ended) : at;
	const surface_C = last?.surfaceC ?? job.shop.air_C;
	const done = its.prep.map(each => each.step);
	const due = prepLeft(coat?.prep.map(each => each.step) ?? trailing(job, face), done)[0];
	if (due !== undefined) {
		const cured = due === 'sand' ? sandFrom(job, face, coats, ended, surface_C) : ended;
		const from = Math.max(cured, ended + (coat?.wait_h ?? 0) * hour_ms);
		return { may: 'prep', step: due, from, for: coat ? coats + 1 : null };
	}
	if (!coat) return { may: 'nothing' };
	const spray = { may: 'spray' as const, coat: coats + 1, material: coat.material };
	if (!last) return { ...spray, until: null };
	const gone = (at - ended) / hour_ms;
	const spans = openings(job, face, coats, surface_C);
	const now = spans.find(inside(gone));
	if (now) return { ...spray, until: after(ended, now.until_h) };
	const later = spans.find(span => span.from_h > gone);
	if (!later) return { may: 'sand', coat: coats + 1 };
	const from = ended + later.from_h * hour_ms;
	return { may: 'wait', coat: coats + 1, from, until: after(ended, later.until_h) };
}

/** Steps still to be done: those after the longest run of them that was done in order. */
function prepLeft(wanted: readonly Prep[], done: readonly Prep[]): Prep[] {
	const left = [...wanted];
	for (const step of done) if (left[0] === step) left.shift();
	return left;
}

/** Work that the sheet asks for after the last coat of a face. */
function trailing(job: Job, face: Face): Prep[] {
	const last = face.coats.at(-1)?.stage ?? -1;
	const later = job.stages.slice(last + 1).filter(stage => !leavesOut(stage, face.id));
	const sprayed = later.some(stage => stage.kind === 'coats');
	return sprayed ? [] : later.flatMap(stage => (stage.kind === 'prep' ? [stage.step] : []));
}

/** When a coat has cured enough to be sanded. */
function sandFrom(job: Job, face: Face, coats: number, ended: number, surface_C: number): number {
	const material = job.materials[face.coats[coats - 1]?.material ?? ''];
	if (!material || material.sandAfter.length === 0) return ended;
	return ended + timeAt_h(material.sandAfter, surface_C, material.factorPer10C) * hour_ms;
}

const line = ['set-up', 'sand', 'clean', 'respray'] as const;

/** A part set aside has its own line: set up hard, sanded flat, cleaned, resprayed. */
function reworkOf(
	job: Job,
	face: Face,
	coats: number,
	its: FaceHistory,
	ended: number,
	surface_C: number,
): FaceNow['next'] {
	const since = its.aside ? Date.parse(its.aside.at) : ended;
	const step = line.find(each => !its.aside?.done.includes(each)) ?? 'respray';
	const from =
		step === 'set-up'
			? sandFrom(job, face, its.aside?.coat ?? coats, Math.max(since, ended), surface_C)
			: since;
	return { may: 'rework', step, from };
}
