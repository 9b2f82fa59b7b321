import type { PlannedCoat } from '../job/job.ts';
import {
	type FlashEdges,
	flashClocks,
	lifeClock,
	livesOrNot_h,
	standingClock,
} from '../job/process-clocks.ts';
import { asColdPaint, asPaint, type Pot } from '../trade/paint-warmth.ts';
import { plausible, type Reading } from '../trade/plausible.ts';
import { type ClockKind, overAt_h, type Stretch } from '../trade/process-clock.ts';
import type { Held } from '../trade/recoat-clocks.ts';
import type { AirReading } from './air-readings.ts';
import type { Book, LaidCoat } from './book.ts';
import { atLeast_s, atMost_s, type Instant, isLater } from './instant.ts';

/** The clocks of processes by what was read on the day: a beginning by the coldest that it can have been, an end by the warmest. */

type Read = Pick<Book, 'airs' | 'opened'>;

/** Hours from one moment to a reading: what a beginning may count, or what an end must. */
function hoursTo(kind: ClockKind, from: Instant, at: Instant): number {
	if (isLater(from, at)) return -atMost_s(at, from) / 3600;
	return (kind === 'end' ? atMost_s(from, at) : atLeast_s(from, at)) / 3600;
}

function readFrom(
	{ airs }: Read,
	kind: ClockKind,
	from: Instant,
	temp_C: (air: AirReading) => number,
): Reading[] {
	return airs.map(air => ({ at_h: hoursTo(kind, from, air.at), C: temp_C(air) }));
}

/** The surface under a coat from some moment on; `carried_C`: the highest, or lowest, that an earlier day read there. */
function surfaceFrom(book: Read, kind: ClockKind, from: Instant, carried_C: number | null): Stretch[] {
	const { air_C } = book.opened.sheet.shop;
	const read = readFrom(book, kind, from, ({ surfaceC }) => surfaceC);
	if (carried_C === null) return plausible(kind, read, air_C);
	/** What was read there since, but for the highest of it, is not known any more. */
	const unread_C = plausible(kind, [], air_C)[0]?.from_C ?? air_C;
	const C = kind === 'end' ? Math.max(unread_C, carried_C) : Math.min(unread_C, carried_C);
	return plausible(kind, [{ at_h: 0, C }, ...read], air_C);
}

/** The warmest air read since a moment, the reading then in force included. */
function warmestFrom({ airs, opened }: Read, from: Instant): number {
	const inForce = airs.filter(({ at }) => !isLater(at, from)).at(-1);
	const counted = airs.filter(air => air === inForce || isLater(air.at, from)).map(({ airC }) => airC);
	return counted.length > 0 ? Math.max(...counted) : opened.sheet.shop.air_C;
}

/** What of a batch tells how long it lives. */
type Paint = Pot & { material: string };

/** Hours that a batch lives from its hardener on, by what has been read; 0 where the sheet cannot say. */
export function livesFrom_h(book: Read, batch: Paint, hardened: Instant): number {
	const paint = book.opened.sheet.materials[batch.material];
	const clock = paint && lifeClock(paint);
	if (!paint) return 0;
	if (!clock) return livesOrNot_h(paint, warmestFrom(book, hardened));
	const air = readFrom(book, 'end', hardened, ({ airC }) => airC);
	return overAt_h(clock, asPaint(plausible('end', air, book.opened.sheet.shop.air_C), batch));
}

/** Minutes that a batch stands from some moment on, by what has been read; Infinity where the sheet cannot say. */
export function standsFrom_min(
	book: Read,
	{ material, read_C }: Omit<Paint, 'make_mL'>,
	from: Instant,
): number {
	const paint = book.opened.sheet.materials[material];
	const clock = paint && standingClock(paint);
	if (!clock) return paint?.standing_min ?? 0;
	const air = readFrom(book, 'beginning', from, ({ airC }) => airC);
	return overAt_h(clock, asColdPaint(plausible('beginning', air, book.opened.sheet.shop.air_C), read_C)) * 60;
}

/** What the surface under a coat can have been since, by what was read; `highest_C`: the highest of it. */
export function surfaceHeld(book: Read, laid: LaidCoat, highest_C: number): Held {
	const { ended, began, carried_C, carriedLeast_C } = laid;
	return {
		coldest: surfaceFrom(book, 'beginning', ended, carriedLeast_C ?? carried_C),
		warmest: surfaceFrom(book, 'end', began ?? ended, carried_C),
		took_h: began ? atMost_s(began, ended) / 3600 : 0,
		highest_C,
	};
}

/** Least wait after a coat from some moment on, h; undefined: the sheet lists no points for it. */
export function leastFlash_h(
	book: Read,
	coat: PlannedCoat,
	{ since, carried_C }: { since: Instant; carried_C: number | null },
): number | undefined {
	const material = book.opened.sheet.materials[coat.material];
	const clocks = material && flashClocks(material, coat.kind);
	return clocks && overAt_h(clocks.least, surfaceFrom(book, 'beginning', since, carried_C));
}

/** Least and most wait after a coat, h from its end: the most counts from its start. Undefined: the sheet lists no points. */
export function flashEdges(book: Read, coat: PlannedCoat, laid: LaidCoat): FlashEdges | undefined {
	const { ended, began, carried_C } = laid;
	const least_h = leastFlash_h(book, coat, { since: ended, carried_C });
	if (least_h === undefined) return undefined;
	const material = book.opened.sheet.materials[coat.material];
	const most = material && flashClocks(material, coat.kind)?.most;
	if (!most) return { least_h, most_h: null };
	const from = began ?? ended;
	const over_h = overAt_h(most, surfaceFrom(book, 'end', from, carried_C));
	return { least_h, most_h: Math.max(0, over_h - atMost_s(from, ended) / 3600) };
}
