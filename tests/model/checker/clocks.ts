/**
 * How much time a day's clocks leave between two of its records, from the rules and from nothing else. Steady clock and uptime
 * are never ahead of the truth; of a wall clock it is known only whether it agrees with them.
 */

/** What a record shows of the clocks, ms; `up` null where the machine does not say. */
export type Clocks = { t: number; mono: number; up: number | null; run: number };
/** The least and the most that can have passed, ms. */
export type Bounds = { least: number; most: number };

/** Clocks no further apart than this are one clock. */
const close_ms = 2000;
/** An uptime may be told in whole seconds. */
const grain_ms = 1000;
/** So long at the most where nobody can tell, ms. */
export const ages_ms = 1e12;

/** How long an uptime says that a machine ran between two looks at it: one that is lower was begun anew. */
function ranBetween(from: Clocks, to: Clocks): { ms: number; isAnew: boolean } | null {
	if (from.up === null || to.up === null) return null;
	const isAnew = to.up < from.up;
	return { ms: isAnew ? to.up : to.up - from.up, isAnew };
}

/**
 * An uptime that ran on beside the steady clock tells of a sleep, and how long it was; where it did not, it may stand still in
 * sleep too. A wall clock that went on further was set, or is right; one that is behind was set.
 */
function inOneRun(from: Clocks, to: Clocks): Bounds {
	const steady = to.mono - from.mono;
	const wall = to.t - from.t;
	const ran = ranBetween(from, to);
	if (!ran || ran.isAnew || ran.ms - steady <= close_ms)
		return { least: steady, most: Math.max(steady, wall) };
	if (Math.abs(wall - ran.ms) <= close_ms) return { least: wall, most: wall };
	return { least: Math.max(steady, ran.ms - grain_ms), most: Math.max(wall, ran.ms + grain_ms) };
}

/**
 * While no program ran there are only wall clock and uptime. A wall clock behind what surely passed tells nothing of the rest;
 * one further on than a machine that ran all the while was set, or that machine slept. By how much a wall clock was set while
 * the machine was off, no clock shows.
 */
function acrossRuns(from: Clocks, to: Clocks): Bounds {
	const wall = to.t - from.t;
	const ran = ranBetween(from, to);
	const sure = ran?.ms ?? 0;
	const least = Math.max(0, sure - grain_ms);
	if (wall < sure - close_ms) return { least, most: ages_ms };
	if (ran && !ran.isAnew && wall > sure + close_ms) return { least, most: wall };
	return { least: Math.max(0, wall), most: Math.max(0, wall) };
}

/** Time between one record and the next. */
export const between = (from: Clocks, to: Clocks): Bounds =>
	from.run === to.run ? inOneRun(from, to) : acrossRuns(from, to);

/** What the painter said of a clock that went on by itself: it is right and all of it counts, or it was set and none of it does. */
export function told({ least, most }: Bounds, jump: unknown): Bounds {
	if (most - least <= close_ms || most === ages_ms) return { least, most };
	if (jump === 'slept') return { least: most, most };
	return jump === 'set' ? { least, most: least } : { least, most };
}
