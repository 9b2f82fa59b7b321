import type { ClockKind, Stretch } from './process-clock.ts';

/** A temperature that was read, hours after a clock's start; below 0: before it. */
export type Reading = { at_h: number; C: number };

/** Nothing read before: the place may be off the shop's usual air by so much, K. This project's own choice. */
const unread_K = 5;
/** A reading holds for so long, and is then off by so much an hour, up to so much. This project's own choice. */
const drift = { after_h: 1, K_per_h: 1.5, most_K: 5 };

/** What lies after 0 h, with its temperature there. */
function afterStart({ from_h, to_h, from_C, to_C }: Stretch): Stretch[] {
	if (to_h <= 0 || to_h <= from_h) return [];
	if (from_h >= 0) return [{ from_h, to_h, from_C, to_C }];
	const share = from_C === to_C ? 0 : -from_h / (to_h - from_h);
	return [{ from_h: 0, to_h, from_C: from_C + share * (to_C - from_C), to_C }];
}

/** The last reading: it holds, then drifts, then stays. */
function afterLast({ at_h, C }: Reading, sign: 1 | -1): Stretch[] {
	const off_C = C + sign * drift.most_K;
	const drifts_h = at_h + drift.after_h;
	const stays_h = drifts_h + drift.most_K / drift.K_per_h;
	return [
		{ from_h: at_h, to_h: drifts_h, from_C: C, to_C: C },
		{ from_h: drifts_h, to_h: stays_h, from_C: C, to_C: off_C },
		{ from_h: stays_h, to_h: Number.POSITIVE_INFINITY, from_C: off_C, to_C: off_C },
	];
}

/**
 * The temperature by which a process is clocked: for a beginning the coldest that the readings leave plausible, for an end
 * the warmest. Between two readings it is the lower, or the higher, of the two.
 * @param readings in the order of their times
 * @param shop_C the shop's usual air, where nothing was read before
 * @returns stretches from 0 h on, without an end
 */
export function plausible(kind: ClockKind, readings: readonly Reading[], shop_C: number): Stretch[] {
	const sign = kind === 'end' ? 1 : -1;
	const worst = kind === 'end' ? Math.max : Math.min;
	const first = readings[0];
	const last = readings.at(-1);
	const unread_C = shop_C + sign * unread_K;
	const before: Stretch = {
		from_h: 0,
		to_h: first?.at_h ?? Number.POSITIVE_INFINITY,
		from_C: unread_C,
		to_C: unread_C,
	};
	const between = readings.slice(1).map(({ at_h, C }, nth): Stretch => {
		const earlier = readings[nth] ?? { at_h, C };
		const there_C = worst(earlier.C, C);
		return { from_h: earlier.at_h, to_h: at_h, from_C: there_C, to_C: there_C };
	});
	return [before, ...between, ...(last ? afterLast(last, sign) : [])].flatMap(afterStart);
}
