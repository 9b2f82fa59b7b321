/**
 * What the clocks show, ms. `mono` may stand still while the machine sleeps, and means nothing from one run of the program
 * to the next. `up`: how long the machine has run, its sleep counted in; undefined: it cannot tell.
 */
export type Shown = { wall: number; mono: number; up?: number | undefined; run: number };

/** Time that passed between two looks at the clocks, ms: at the least, and at the most. */
export type Passed = { least: number; most: number };

/** Clocks that differ by no more than this agree, ms: the standard of `clockSlip_s`. */
const agree_ms = 2000;

/** An uptime may be told in whole seconds, ms. */
const upTo_ms = 1000;

/** Nobody knows how long: longer than anything lasts that a day counts to its end, ms. */
export const unknown_ms = 1e12;

/** The wall clock went on by at least so much of a gap that nobody can settle. */
export const isUnsettled = ({ least, most }: Passed): boolean => most - least > agree_ms && most < unknown_ms;

const exactly = (ms: number): Passed => ({ least: ms, most: ms });

/**
 * Within one run. The monotonic clock never goes on faster than time does. An uptime that went on further proves a sleep,
 * and where the wall clock went as far, that it is sound; it never proves that there was none: a machine that somebody
 * else's machine pretends to be is stopped, uptime and all. A wall clock further on than both was set, or slept so.
 */
function withinRun(wall: number, mono: number, up: number | undefined): Passed {
	const slept = up !== undefined && up - mono > agree_ms ? up : undefined;
	const away = wall - (slept ?? mono);
	if (Math.abs(away) <= agree_ms) return exactly(slept === undefined ? mono : Math.max(mono, wall));
	const known =
		slept === undefined
			? exactly(mono)
			: { least: Math.max(mono, slept - upTo_ms), most: Math.max(mono, slept + upTo_ms) };
	return away < 0 ? known : { least: known.least, most: wall };
}

/**
 * From one run to the next the wall clock counts, as far as the uptime does not gainsay it. An uptime that is smaller than
 * before is that of a machine started anew.
 */
function overRestart(wall: number, up: number | undefined, upNow: number | undefined): Passed {
	const ran = up === undefined || upNow === undefined ? 0 : up < 0 ? upNow : up;
	const least = Math.max(0, ran - (ran > 0 ? upTo_ms : 0));
	if (wall < ran - agree_ms) return { least, most: unknown_ms };
	const isBeside = up !== undefined && up >= 0 && wall > up + agree_ms;
	return isBeside ? { least, most: wall } : exactly(Math.max(0, wall));
}

/** What passed between two looks at the clocks of one day. */
export function passed(from: Shown, to: Shown): Passed {
	const wall = to.wall - from.wall;
	const up = from.up === undefined || to.up === undefined ? undefined : to.up - from.up;
	return from.run === to.run
		? withinRun(wall, Math.max(0, to.mono - from.mono), up)
		: overRestart(wall, up, to.up);
}
