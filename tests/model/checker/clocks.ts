/**
 * How much time a day's clocks leave between two of its records, written from the rules and not from the program: the
 * steady clock is never ahead of the truth; an uptime that ran on beside it tells of a sleep; a wall clock further on than
 * both may have been set, or be right; one that is behind was set.
 */

/** What a record shows of the clocks, ms; `up` null where the machine does not say. */
export type Clocks = { t: number; mono: number; up: number | null; run: number };
export type Bounds = { least: number; most: number };

const close_ms = 2000;
const second_ms = 1000;
/** So long at the most where nobody can tell, ms. */
export const ages_ms = 1e12;

const isClose = (one: number, other: number) => Math.abs(one - other) <= close_ms;

function inOneRun(wall: number, steady: number, up: number | null): Bounds {
	const isAsleep = up !== null && up > steady + close_ms;
	if (!isAsleep) {
		const isSound = isClose(wall, steady) || wall < steady;
		return { least: steady, most: isSound ? steady : wall };
	}
	if (isClose(wall, up)) return { least: Math.max(wall, steady), most: Math.max(wall, steady) };
	return { least: Math.max(steady, up - second_ms), most: Math.max(wall, up + second_ms) };
}

function acrossRuns(wall: number, from: Clocks, to: Clocks): Bounds {
	const both = from.up !== null && to.up !== null;
	const isSameStart = both && (to.up ?? 0) >= (from.up ?? 0);
	const ran = !both ? 0 : isSameStart ? (to.up ?? 0) - (from.up ?? 0) : (to.up ?? 0);
	if (ran - wall > close_ms) return { least: Math.max(0, ran - second_ms), most: ages_ms };
	if (isSameStart && wall - ran > close_ms) return { least: Math.max(0, ran - second_ms), most: wall };
	return { least: Math.max(0, wall), most: Math.max(0, wall) };
}

/** Time between one record and the next. */
export const between = (from: Clocks, to: Clocks): Bounds =>
	from.run === to.run
		? inOneRun(
				to.t - from.t,
				to.mono - from.mono,
				from.up === null || to.up === null ? null : to.up - from.up,
			)
		: acrossRuns(to.t - from.t, from, to);

/** What the painter said of a jump: all of it counts, or none of it. */
export function told({ least, most }: Bounds, jump: unknown): Bounds {
	const isOpen = most - least > close_ms && most < ages_ms;
	if (!isOpen || (jump !== 'set' && jump !== 'slept')) return { least, most };
	return jump === 'slept' ? { least: most, most } : { least, most: least };
}
