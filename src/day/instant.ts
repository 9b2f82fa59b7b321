import { type Passed, passed, type Shown } from './passed.ts';

/**
 * A moment of the day. `sure`: what had passed since the day was opened, ms, but for the gaps: stretches of which the
 * clocks tell no more than bounds.
 */
export type Instant = Shown & { sure: number; gaps: readonly Passed[] };

/** The instant that clocks show, after one of the same day; null: it is the first. */
export function instantAfter(before: Instant | null, shown: Shown): Instant {
	if (!before) return { ...shown, sure: 0, gaps: [] };
	const { least, most } = passed(before, shown);
	const { sure, gaps } = before;
	return least === most
		? { ...shown, sure: sure + least, gaps }
		: { ...shown, sure, gaps: [...gaps, { least, most }] };
}

/** Another moment of the same stretch, of which the wall clock's time is known, ms. */
export const sameClocks = (known: Instant, wall: number): Instant => ({
	...known,
	wall,
	mono: known.mono + (wall - known.wall),
	up: known.up === undefined ? undefined : known.up + (wall - known.wall),
	sure: known.sure + (wall - known.wall),
});

/** What the clocks showed when a record was made. */
export const shownBy = (stamp: {
	at: string;
	mono: number;
	up?: number | undefined;
	run: number;
}): Shown => ({
	wall: Date.parse(stamp.at),
	mono: stamp.mono,
	up: stamp.up,
	run: stamp.run,
});

export const isoAt = (wall: number): string => new Date(wall).toISOString();

/** Whatever the clocks showed: which of two moments of a day is the later one. */
export const isLater = (one: Instant, other: Instant): boolean =>
	one.gaps.length === other.gaps.length ? one.sure > other.sure : one.gaps.length > other.gaps.length;

/** Gaps between two moments, as the later of them knows them. */
const gapsBetween = (from: Instant, to: Instant) => to.gaps.slice(from.gaps.length);

/** Seconds that have passed at the least: what a minimum wait may count. */
export const atLeast_s = (from: Instant, to: Instant): number =>
	Math.max(
		0,
		gapsBetween(from, to).reduce((sum, { least }) => sum + least, to.sure - from.sure),
	) / 1000;

/** Seconds that have passed at the most: what a maximum must count. */
export const atMost_s = (from: Instant, to: Instant): number =>
	Math.max(
		0,
		gapsBetween(from, to).reduce((sum, { most }) => sum + most, to.sure - from.sure),
	) / 1000;
