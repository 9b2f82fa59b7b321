/** A moment on both clocks. The monotonic one means nothing from one run of the program to the next. */
export type Instant = { wall: number; mono: number; run: number };

/** The instant of a record. */
export const instantOf = (stamp: { at: string; mono: number; run: number }): Instant => ({
	wall: Date.parse(stamp.at),
	mono: stamp.mono,
	run: stamp.run,
});

export const isoAt = (wall: number): string => new Date(wall).toISOString();

function elapsed(from: Instant, to: Instant): [number, number] {
	const wall = Math.max(0, to.wall - from.wall);
	const mono = from.run === to.run ? Math.max(0, to.mono - from.mono) : wall;
	return [wall, mono];
}

/** Seconds that have passed at the least: what a minimum wait may count. */
export const atLeast_s = (from: Instant, to: Instant): number => Math.min(...elapsed(from, to)) / 1000;

/** Seconds that have passed at the most: what a maximum must count. Nobody knows after a restart with the clock behind. */
export const atMost_s = (from: Instant, to: Instant): number =>
	from.run !== to.run && to.wall < from.wall
		? Number.POSITIVE_INFINITY
		: Math.max(...elapsed(from, to)) / 1000;
