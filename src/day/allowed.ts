import { type ReworkStep, reworkLeft, shutBy } from '../../machines/face.ts';
import { type Stop, stopsOf } from '../../machines/stops.ts';
import { type Face, type Job, type Material, type PlannedCoat, type Window, withGunOf } from '../job/job.ts';
import { type FlashEdges, flashAt_h, lifeClock, livesOrNot_h } from '../job/process-clocks.ts';
import { reducerFor } from '../plan/batches.ts';
import type { Shop } from '../plan/cup-count.ts';
import { type Outlook, outlook, type Spell } from '../plan/outlook.ts';
import { cupLevel_mL } from '../plan/paint-rule.ts';
import { windowsAfter } from '../plan/windows.ts';
import { airStale } from '../trade/air.ts';
import type { RecoatWindow } from '../trade/recoat.ts';
import type { Held } from '../trade/recoat-clocks.ts';
import type { WindowEdge } from '../words/window-edge.ts';
import type { Book } from './book.ts';
import { isInOtherGun, isOtherGun } from './guns.ts';
import { atLeast_s, atMost_s, type Instant } from './instant.ts';
import { judgedAir } from './judged-air.ts';
import {
	batchesIn,
	contextOf,
	faceBook,
	faceOf,
	faceState,
	facesIn,
	jobOf,
	laidOn,
	type Moment,
	materialOf,
	nextCoat,
	settingsOf,
} from './moment.ts';
import { hardening_s, hardens_s, plannedPrep, stepWait_s, waitsFor_s } from './prep.ts';
import { leastFlash_h, livesFrom_h, standsFrom_min } from './process.ts';
import type { EventOf, Facts } from './records.ts';
import { coldestSurface_C, rulingSurface_C } from './ruling-surface.ts';
import { takes } from './takes.ts';

/** What the clock and the readings say of a moment: the facts that guards take, and the instants that timers show. */

/** What a coat allows, in hours after it; only *wait* where the data sheet gives nothing for so cold or warm a surface. */
export function windowsOf(
	job: Job,
	face: Face,
	coat: number,
	surface_C: number,
	flash?: FlashEdges,
	held?: Held,
): RecoatWindow[] {
	try {
		return windowsAfter(job, face, coat, surface_C, flash, held);
	} catch (error) {
		if (error instanceof RangeError) return [{ does: 'wait', from_h: 0, until_h: null }];
		throw error;
	}
}

/** Seconds from the end of the last coat to each edge of its windows, as last worked out. */
function offsets(moment: Moment, id: string): Spell[] {
	const { windows, laid } = faceBook(moment, id);
	const ended = laid.at(-1)?.ended.wall ?? 0;
	const after = (iso: string | null) =>
		iso === null ? Number.POSITIVE_INFINITY : (Date.parse(iso) - ended) / 1000;
	return (windows?.windows ?? []).map(({ does, from, until }) => ({
		does,
		from_s: after(from),
		until_s: after(until),
	}));
}

/** Least wait that the sheet itself asks for before anything is done to the last coat, s. */
const sheetWait_s = (moment: Moment, id: string, ended: Instant) =>
	Math.max(waitsFor_s(moment, nextCoat(moment, id), ended), hardens_s(moment, id));

/** Least flash of a coat since some moment, s, by its points or on a surface; without end where its sheet cannot say. */
function flashes_s(
	moment: Moment,
	coat: PlannedCoat,
	from: { since: Instant; carried_C: number | null; surface_C: number },
): number {
	const byPoints_h = leastFlash_h(moment.state.book, coat, from);
	if (byPoints_h !== undefined) return byPoints_h * 3600;
	try {
		return flashAt_h(materialOf(moment, coat.material), coat, from.surface_C).least_h * 3600;
	} catch {
		return Number.POSITIVE_INFINITY;
	}
}

/** How long what is on of a coat broken off still flashes, past its wet edge, s. */
function flashLeft_s(moment: Moment, id: string): number {
	const { part, aside } = faceBook(moment, id);
	const since = part?.since ?? aside?.halfSince;
	if (!since) return 0;
	const surface_C = moment.state.book.airs.at(-1)?.surfaceC ?? jobOf(moment).shop.air_C;
	const flash_s = flashes_s(moment, nextCoat(moment, id), { since, carried_C: null, surface_C });
	return Math.max(0, flash_s - atLeast_s(since, moment.now));
}

/** Longest that a coat counts as wet where its sheet gives no flash for so cold or warm a surface, s. */
const wetAtMost_s = 24 * 3600;

/** Until when a coat is wet in the area, wall clock ms: until its flash is over; null: none is. */
export function wetUntil(moment: Moment): number | null {
	const lefts = jobOf(moment).faces.map(({ id, coats }) => {
		const last = faceBook(moment, id).laid.at(-1);
		const coat = last && coats[last.coat - 1];
		const partly_s = flashLeft_s(moment, id);
		if (!last || !coat) return partly_s;
		const { ended: since, carried_C } = last;
		const surface_C = rulingSurface_C(moment, last, since);
		const flash_s = flashes_s(moment, coat, { since, carried_C, surface_C });
		return Math.max(partly_s, Math.min(wetAtMost_s, flash_s) - atLeast_s(last.ended, moment.now));
	});
	const left_s = Math.min(wetAtMost_s, Math.max(0, ...lefts));
	return left_s > 0 ? moment.now.wall + left_s * 1000 : null;
}

/** A face broken off that waiting does not help any more: the coat under it takes no paint now. */
export const isShutPart = (moment: Moment, id: string): boolean =>
	faceState(moment, id).matches('part') &&
	!isWet(moment, id) &&
	flashLeft_s(moment, id) === 0 &&
	shutBy(faceState(moment, id).context) !== null;

/**
 * The recoat window that a face has come to be in by the clock, of the coat under it where some of the next is on, and
 * how long it stays, s: it opens by the clock that counts less, and closes by the one that counts more.
 */
export function windowByClock(
	moment: Moment,
	id: string,
): { to: EventOf<'window.moved'>['to']; left_s: number } {
	const { laid } = faceBook(moment, id);
	const flash_s = flashLeft_s(moment, id);
	if (flash_s > 0) return { to: 'wait', left_s: flash_s };
	const last = laid.at(-1);
	const step_s = stepWait_s(moment, id);
	if (!last) return step_s > 0 ? { to: 'wait', left_s: step_s } : { to: 'bare', left_s: Infinity };
	const least = atLeast_s(last.ended, moment.now);
	const wait_s = Math.max(step_s, sheetWait_s(moment, id, last.ended) - least);
	if (wait_s > 0) return { to: 'wait', left_s: wait_s };
	const most = atMost_s(last.ended, moment.now);
	const spell = offsets(moment, id).find(({ from_s, until_s }) => least >= from_s && most < until_s);
	const { does: to, until_s } = spell ?? { does: 'wait', until_s: Number.POSITIVE_INFINITY };
	return { to, left_s: until_s - (to === 'wait' ? least : most) };
}

/** A window opened and shut unseen since a face came into its wait: this is another wait. */
function openedUnseen(moment: Moment, id: string): boolean {
	const { laid, movedAt } = faceBook(moment, id);
	const last = laid.at(-1);
	if (!last || !movedAt) return false;
	const entered_s = atLeast_s(last.ended, movedAt);
	const least = atLeast_s(last.ended, moment.now);
	return offsets(moment, id).some(
		({ does, from_s }) => does !== 'wait' && from_s > entered_s && from_s <= least,
	);
}

/** The recoat windows that faces in line have come into since their charts were told of one. */
export const windowsMoved = (moment: Moment): EventOf<'window.moved'>[] =>
	facesIn(moment, 'open', 'part').flatMap(face => {
		const { to } = windowByClock(moment, face);
		const stands = windowNow(moment, face) === to && !(to === 'wait' && openedUnseen(moment, face));
		return stands ? [] : [{ type: 'window.moved', face, coat: laidOn(moment, face) + 1, to }];
	});

/** The recoat window that a face is in. */
export const windowNow = (moment: Moment, id: string) => faceState(moment, id).context.window.value;

/** … where it lets nothing on by itself. */
export function shutWindow(moment: Moment, id: string): Exclude<Window, 'spray'> | undefined {
	const window = windowNow(moment, id);
	return window === 'wait' || window === 'scuff' || window === 'sand' ? window : undefined;
}

/** What can be done next over the last coat of a face; null: none is on, or no window opens by waiting. */
export function outlookOf(moment: Moment, id: string): Outlook | null {
	const last = faceBook(moment, id).laid.at(-1);
	if (!last) return null;
	const { done, window } = faceState(moment, id).context;
	const age = { least_s: atLeast_s(last.ended, moment.now), most_s: atMost_s(last.ended, moment.now) };
	return outlook(offsets(moment, id), age, {
		wait_s: Math.max(sheetWait_s(moment, id, last.ended), age.least_s + stepWait_s(moment, id)),
		next: plannedPrep(moment, id)?.step ?? null,
		done: [...done, ...window.context.reasons],
	});
}

/** The next edge of the recoat windows of a face; null: there is none, or half a coat is on. */
export function windowEdge(moment: Moment, id: string): WindowEdge | null {
	const next = faceBook(moment, id).part ? null : outlookOf(moment, id);
	if (!next) return null;
	const { does, follows, opens_s, closes_s } = next;
	const due = (seconds: number) => moment.now.wall + seconds * 1000;
	if (opens_s > 0) return { code: 'opens', due: due(opens_s), does, follows };
	return Number.isFinite(closes_s) ? { code: 'closes', due: due(closes_s), does, follows } : null;
}

/** The recoat window of a face let its next coat on, shut before it, and nobody has said yet what now. */
export function isMissed(moment: Moment, id: string): boolean {
	const { laid, left } = faceBook(moment, id);
	const last = laid.at(-1);
	const face = faceState(moment, id);
	if (!last || !face.matches('open') || shutBy(face.context) === null) return false;
	const { prep } = nextCoat(moment, id);
	const isPlanned = prep.some(({ step }) => step === 'sand' || step === 'scuff');
	const age_s = atMost_s(last.ended, moment.now);
	const hasShut = offsets(moment, id).some(({ does, until_s }) => does === 'spray' && until_s <= age_s);
	return !isPlanned && hasShut && left !== last.coat + 1 && outlookOf(moment, id)?.does !== 'spray';
}

/** When a face that must wait may be worked on again, wall clock ms; null: never by waiting. */
export function waitEnds(moment: Moment, id: string): number | null {
	const { part, laid } = faceBook(moment, id);
	if (!part && laid.length === 0) return moment.now.wall + stepWait_s(moment, id) * 1000;
	const left_s = part
		? flashLeft_s(moment, id)
		: (outlookOf(moment, id)?.opens_s ?? Number.POSITIVE_INFINITY);
	return Number.isFinite(left_s) ? moment.now.wall + left_s * 1000 : null;
}

/** Pot life of a batch that is left, s; below 0: it is dead. Where the sheet cannot say, none is left. */
export function lifeLeft_s(moment: Moment, letter: string): number {
	const batch = moment.state.book.batches.get(letter);
	if (!batch?.hardened) return Number.POSITIVE_INFINITY;
	const life_h = livesFrom_h(moment.state.book, batch, batch.hardened);
	return life_h === 0 ? 0 : life_h * 3600 - atMost_s(batch.hardened, moment.now);
}

/** Straining, filling and the walk between a batch that has stood and the first stroke, s. This project's own choice. */
const toFirstStroke_s = 120;

/** Hours that a batch of a material mixed now lives. */
export const livesNow_h = ({ state, now }: Moment, material: Material): number =>
	lifeClock(material)
		? livesFrom_h(state.book, { material: material.id, make_mL: Infinity, read_C: null }, now)
		: livesOrNot_h(material, state.book.air?.airC ?? state.book.opened.sheet.shop.air_C);

/** Minutes that a batch of a material mixed now stands. */
export const standsNow_min = ({ state, now }: Moment, { id }: Material): number =>
	Math.min(forever_s / 60, standsFrom_min(state.book, { material: id, read_C: null }, now));

/**
 * Life of a batch mixed now for a face, in the air as last read, and what it needs of it, s: it stands, is strained and
 * filled in, and the face is sprayed; null: it lives long enough.
 */
export function diesBefore(moment: Moment, id: string): { life_s: number; needs_s: number } | null {
	const material = materialOf(moment, nextCoat(moment, id).material);
	const life_s = livesNow_h(moment, material) * 3600;
	const needs_s = standsNow_min(moment, material) * 60 + toFirstStroke_s + wantedFor(moment, id).spray_s;
	return life_s > needs_s ? null : { life_s, needs_s };
}

/** The cup's oldest batch counts. */
export const cupLife_s = (moment: Moment): number =>
	Math.min(...contextOf(moment).cup.map(letter => lifeLeft_s(moment, letter)));

/** Paint that a face still wants, mL, and the time it should still take, s. */
export function wantedFor(moment: Moment, id: string): { volume_mL: number; spray_s: number } {
	const { volume_mL, spray_s } = takes(moment.state.book.opened, nextCoat(moment, id));
	const share = 1 - (faceBook(moment, id).part?.share ?? 0);
	return { volume_mL: volume_mL * share, spray_s: spray_s * share };
}

/** The sheet of a day with the gun of a coat, and what its shop had learned before it. */
export const shopOf = ({ opened }: Pick<Book, 'opened'>, { stage }: Pick<PlannedCoat, 'stage'>): Shop => ({
	job: withGunOf(opened.sheet, stage),
	rates: opened.rates ?? {},
});

/** Paint, by the count of the cup, from which some faces of one coat may be sprayed, in their order. */
export function levelFor_mL(moment: Moment, [first, ...more]: readonly [string, ...string[]]): number {
	const { book } = moment.state;
	const pass = {
		face: faceOf(moment, first),
		coat: nextCoat(moment, first),
		count: laidOn(moment, first) + 1,
	};
	const wants_mL = [first, ...more].map(id => wantedFor(moment, id).volume_mL);
	return cupLevel_mL(shopOf(book, pass.coat), book, pass, wants_mL);
}

/** Whether the air wants reading, before anything is sprayed in it. */
export function airAged(moment: Moment): 'none' | 'stale' | null {
	const { air, longestHold_s } = moment.state.book;
	const { airAge_h, airHold_min } = settingsOf(moment);
	if (!air) return 'none';
	const ages = { age_h: atMost_s(air.at, moment.now) / 3600, hold_min: longestHold_s / 60 };
	return airStale(ages, { age_h: airAge_h, hold_min: airHold_min }) ? 'stale' : null;
}

/** The air reading in force, by what was sprayed next when it was taken and by what the face gets now. */
export function airNow(moment: Moment, id: string): NonNullable<Facts['air']> {
	const aged = airAged(moment);
	const { air } = moment.state.book;
	if (aged || !air) return aged ?? 'none';
	return air.spray && judgedAir(moment, air, [nextCoat(moment, id).material]).spray ? 'ok' : 'out';
}

/** Nobody measured how long the edge of its next coat stays wet: nothing is joined by a usual figure. */
export const isEdgeUsual = (moment: Moment, id: string): boolean =>
	materialOf(moment, nextCoat(moment, id).material).assumed?.includes('wet edge') ?? false;

/** How long the edge of a face broken off stays wet, s; below 0: it is dry, or not known to be wet; null: no half coat is on. */
export function wetLeft_s(moment: Moment, id: string): number | null {
	const { part } = faceBook(moment, id);
	const { wetEdge_s } = materialOf(moment, nextCoat(moment, id).material);
	if (part && isEdgeUsual(moment, id)) return -1;
	return part && wetEdge_s - atMost_s(part.wetSince, moment.now);
}

/** A face broken off is still inside its wet edge. */
export const isWet = (moment: Moment, id: string): boolean => (wetLeft_s(moment, id) ?? -1) >= 0;

export const checkAged = (moment: Moment): boolean => {
	const { checked } = moment.state.book;
	return !checked || atMost_s(checked.at, moment.now) > settingsOf(moment).checkAge_min * 60;
};

/** Everything a guard wants to know before a face is started. */
export function factsForFace(moment: Moment, id: string): Facts {
	const { spray_s } = wantedFor(moment, id);
	const life = cupLife_s(moment);
	const coat = nextCoat(moment, id);
	const clock = gunClock(moment);
	return {
		air: airNow(moment, id),
		alive: life > 0,
		thinned:
			!isInOtherGun(moment, coat) && contextOf(moment).cup.every(letter => isMixedFor(moment, letter, coat)),
		fresh: clock === null || clock.flush > moment.now.wall,
		lasts: life > spray_s,
		enough: moment.state.book.cup_mL + 1e-6 >= levelFor_mL(moment, [id]),
		aged: checkAged(moment) || isOtherGun(moment, id),
		wet: isWet(moment, id),
	};
}

/** Everything that stands between a face and its next coat now. */
export const stopsAt = (moment: Moment, id: string): readonly Stop[] =>
	stopsOf(contextOf(moment), faceState(moment, id), factsForFace(moment, id));

/** When the least time since the painter came back is over, wall clock ms. */
export function settledAt(moment: Moment): number {
	const { backSince } = moment.state.book;
	const left = backSince ? settingsOf(moment).settle_s - atLeast_s(backSince, moment.now) : 0;
	return moment.now.wall + Math.max(0, left) * 1000;
}
export const isSettled = (moment: Moment): boolean => settledAt(moment) <= moment.now.wall;

/** When a batch has stood as long as the data sheet asks, wall clock ms. */
export function stoodAt(moment: Moment, letter: string): number {
	const batch = moment.state.book.batches.get(letter);
	if (!batch?.standing) return moment.now.wall;
	const standing_min = standsFrom_min(moment.state.book, batch, batch.standing);
	const left = standing_min * 60 - atLeast_s(batch.standing, moment.now);
	return moment.now.wall + Math.min(forever_s, Math.max(0, left)) * 1000;
}

/** Seconds after which a face or stretch is late; `timed`: how long it takes was learned in this shop. */
export const lateAfter_s = (spray_s: number, timed: boolean): number =>
	spray_s + (timed ? 1 : 2) * Math.min(60, Math.max(15, 0.5 * spray_s));

/** What nobody can tell the length of has been for so long at the most, s. */
const forever_s = 30 * 86_400;

/** Since when mixed paint has stood in the gun, and until when. */
export function gunClock(moment: Moment): { wet: number; flush: number } | null {
	const { gunWetSince } = moment.state.book;
	const letter = contextOf(moment).cup[0];
	const batch = letter === undefined ? undefined : moment.state.book.batches.get(letter);
	if (!gunWetSince || !batch) return null;
	const { wetTip_min, flush_min } = materialOf(moment, batch.material);
	const gone = atMost_s(gunWetSince, moment.now);
	const at = (minutes: number) => moment.now.wall + Math.max(-forever_s, minutes * 60 - gone) * 1000;
	return { wet: at(wetTip_min), flush: at(flush_min) };
}

/** Whether a batch is of a coat's material, thinned as that coat wants it. */
export function isMixedFor(moment: Moment, letter: string, coat: PlannedCoat): boolean {
	const batch = moment.state.book.batches.get(letter);
	return batch?.material === coat.material && batch.ratio.reducer === reducerFor(jobOf(moment), coat);
}

/** Paint for a coat that is mixed and alive, outside the gun. */
export const potsOf = (moment: Moment, coat: PlannedCoat): string[] =>
	batchesIn(moment, 'ready', 'inCup').filter(letter => {
		const left_mL = moment.state.book.batches.get(letter)?.pot_mL ?? 0;
		return left_mL > 0.5 && isMixedFor(moment, letter, coat) && lifeLeft_s(moment, letter) > 0;
	});

/** After so long a face found soft is pressed again, s. This project's own choice. */
const softFor_s = 3600;

/** A rework line's next step, and when it is due, wall clock ms (null: not by waiting). */
export function reworkDue(moment: Moment, id: string): { step: ReworkStep; due: number | null } {
	const { aside, laid } = faceBook(moment, id);
	const step = reworkLeft(faceState(moment, id).context.rework) ?? 'clean';
	if (step !== 'set-up' || !aside) return { step, due: moment.now.wall };
	const { material } = faceOf(moment, id).coats[Math.max(0, aside.coat - 1)] ?? nextCoat(moment, id);
	const surface_C = coldestSurface_C(moment, laid.at(-1) ?? null, aside.since);
	const hard_s = hardening_s(materialOf(moment, material), surface_C) ?? 24 * 3600;
	const again_s = aside.softAt ? softFor_s - atLeast_s(aside.softAt, moment.now) : 0;
	const left_s = Math.max(0, again_s, hard_s - atLeast_s(aside.since, moment.now));
	return { step, due: Number.isFinite(left_s) ? moment.now.wall + left_s * 1000 : null };
}

export const overridesOn = (moment: Moment, id: string): readonly string[] =>
	faceState(moment, id).context.overrides;
