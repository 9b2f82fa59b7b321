import type { FaceHistory } from '../day/records.ts';
import { type Face, type Job, leavesOut, type Prep, type Window } from '../job/job.ts';
import { isAt } from '../job/places.ts';
import type { RecoatWindow } from '../trade/recoat.ts';
import { timeAt_h } from '../trade/time.ts';
import { type Ground, type Outlook, outlook } from './outlook.ts';
import { windowsAfter } from './windows.ts';

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
		/** Its windows ask for work that the sheet does not plan; `from` null: none opens any more, and it is sanded. */
		| { may: 'sand'; coat: number; step: 'sand' | 'scuff'; from: number | null }
		| { may: 'nothing' }
		| { may: 'rework'; step: 'set-up' | 'sand' | 'clean' | 'respray'; from: number }
		/** Sound, and out of line until a face of its part is back from its own. */
		| { may: 'beside' };
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
		const next: FaceNow['next'] = its.aside.beside
			? { may: 'beside' }
			: reworkOf(job, face, coats, its, ended, surface_C);
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
	const steps = coat?.prep.map(each => each.step) ?? trailing(job, face);
	const due = steps.find((step, place) => !its.prep.some(each => isAt(each, step, place)));
	const cured = due === 'sand' ? sandFrom(job, face, coats, ended, surface_C) : ended;
	const worked = Math.max(cured, ended + (coat?.wait_h ?? 0) * hour_ms);
	const given = { wait_s: (worked - ended) / 1000, next: due ?? null, done };
	const next = coat && last ? outlookAt(windowsAfter(job, face, coats, surface_C), at - ended, given) : null;
	const instant = (seconds: number) => (Number.isFinite(seconds) ? Math.ceil(at + seconds * 1000) : null);
	const from = next ? instant(next.opens_s) : null;
	if (due !== undefined)
		return { may: 'prep', step: due, from: from ?? worked, for: coat ? coats + 1 : null };
	if (!coat) return { may: 'nothing' };
	const spray = { may: 'spray' as const, coat: coats + 1, material: coat.material };
	if (!last) return { ...spray, until: null };
	if (!next || from === null) return { may: 'sand', coat: coats + 1, step: 'sand', from: null };
	if (next.does !== 'spray') return { may: 'sand', coat: coats + 1, step: next.does, from };
	const until = instant(next.closes_s);
	return from <= at ? { ...spray, until } : { may: 'wait', coat: coats + 1, from, until };
}

/** What can be done next, so many ms after the last coat. */
function outlookAt(windows: readonly RecoatWindow[], gone_ms: number, ground: Ground): Outlook | null {
	const spells = windows.map(({ does, from_h, until_h }) => ({
		does,
		from_s: from_h * 3600,
		until_s: until_h === null ? Number.POSITIVE_INFINITY : until_h * 3600,
	}));
	return outlook(spells, { least_s: gone_ms / 1000, most_s: gone_ms / 1000 }, ground);
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
