/** What the clocks show, ms; the monotonic one means nothing from one run of the program to the next. */
export type Shown = { wall: number; mono: number; run: number };

/**
 * A moment on both clocks. `ahead`: how far the wall clock has gone ahead of the monotonic one since the day was opened,
 * while the program ran, ms: it was set forward, or the machine slept; below 0, it was set back.
 */
export type Instant = Shown & { ahead: number };

/** The instant that clocks show, after one of the same day; null: it is the first. */
export function instantAfter(before: Instant | null, shown: Shown): Instant {
	const apart = before?.run === shown.run ? shown.wall - before.wall - (shown.mono - before.mono) : 0;
	return { ...shown, ahead: (before?.ahead ?? 0) + apart };
}

/** What the clocks showed when a record was made. */
export const shownBy = (stamp: { at: string; mono: number; run: number }): Shown => ({
	wall: Date.parse(stamp.at),
	mono: stamp.mono,
	run: stamp.run,
});

export const isoAt = (wall: number): string => new Date(wall).toISOString();

/** ms by the wall clock, and by the one that nobody sets; below 0 where a clock went back between two runs. */
const gone = (from: Instant, to: Instant): [number, number] => [
	to.wall - from.wall,
	from.run === to.run ? to.mono - from.mono : to.wall - to.ahead - (from.wall - from.ahead),
];

/** Seconds that have passed at the least: what a minimum wait may count. */
export const atLeast_s = (from: Instant, to: Instant): number =>
	Math.max(0, Math.min(...gone(from, to))) / 1000;

/** Seconds that have passed at the most: what a maximum must count. Nobody knows after a restart with the clock behind. */
export function atMost_s(from: Instant, to: Instant): number {
	const most = Math.max(...gone(from, to));
	return from.run !== to.run && most < 0 ? Number.POSITIVE_INFINITY : Math.max(0, most) / 1000;
}
