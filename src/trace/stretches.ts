import { ends } from './numbers.ts';
import { type Soft, together } from './soft.ts';

/** A reading between two passes; `ends`: it differed and named the thing, which was then put right. */
export type InGap = Soft & { ends: boolean };

/**
 * What lies before a pass, or after the last: how likely something began here, against the other gaps; its readings in
 * order; how surely something that lasted until here ends here.
 */
export type Gap = { unease: number; readings: readonly InGap[]; ends: number };

/** From one pass to another, both reached: its share of the cause, and the odds of what was read in it. */
export type Stretch = { from: number; to: number; share: number; odds: number; softs: () => Soft[] };

/** How surely a thing ends in a gap: at a reading that differed and was put right, at a new setting, or unnoticed. */
export function endsIn(readings: readonly InGap[], isSet: boolean): number {
	if (readings.some(one => one.ends)) return ends.differs;
	return isSet ? ends.set : ends.unnoticed;
}

type Run = { chance: number; odds: number; right: boolean };

function read(run: Run, readings: readonly InGap[]): Run {
	if (readings.length === 0) return run;
	let { odds, right } = run;
	for (const one of readings) {
		odds *= right && one.isRight ? together([{ odds: 1, isRight: true }, one]) : one.odds;
		right ||= one.isRight;
	}
	return { ...run, odds, right };
}

/** Begun before any of the readings of a gap or after the last, each as likely; one that put it right lets little on. */
function begun({ readings }: Gap): Run[] {
	const first = readings.findIndex(one => one.odds > 1 && !one.ends);
	const places = first < 0 ? readings.length + 1 : first + 1;
	return Array.from({ length: places }, (_, place) => {
		const after = readings.slice(place);
		const lets = after.some(one => one.ends) ? 1 - ends.differs : 1;
		return read({ chance: lets / places, odds: 1, right: false }, after);
	});
}

/** The odds of the readings of the gap in which something ended: up to the one that ended it, else up to any of them. */
function ended(run: Run, { readings }: Gap): number {
	const at = readings.findIndex(one => one.ends);
	if (at >= 0) return read(run, readings.slice(0, at + 1)).odds;
	const places = readings.map((_, place) => read(run, readings.slice(0, place)).odds);
	return [...places, read(run, readings).odds].reduce((sum, odds) => sum + odds / (places.length + 1), 0);
}

/**
 * Every stretch of passes that something which stays until it is noticed may have lasted over; shares sum to the unease
 * of these gaps ÷ that of all.
 * @param gaps one before each pass, and one after the last
 * @param unease of all gaps that the cause may have begun in
 */
export function stretches(gaps: readonly Gap[], unease: number): Stretch[] {
	const found: Stretch[] = [];
	const last = gaps.length - 2;
	for (let from = 0; from <= last; from++) {
		const start = gaps[from];
		if (!start) continue;
		let runs = begun(start);
		let goesOn = start.unease / unease;
		for (let to = from; to <= last; to++) {
			const next = gaps[to + 1];
			if (!next) break;
			const onward = runs.map(run => read(run, next.readings));
			const stops = runs.reduce((sum, run) => sum + run.chance * ended(run, next), 0);
			const stays = onward.reduce((sum, run) => sum + run.chance * run.odds, 0);
			const odds = to < last ? stops : next.ends * stops + (1 - next.ends) * stays;
			const softs = () => gaps.slice(from, to + 2).flatMap(gap => gap.readings);
			found.push({ from, to, share: goesOn * (to < last ? next.ends : 1), odds, softs });
			goesOn *= 1 - next.ends;
			runs = onward;
		}
	}
	return found;
}
