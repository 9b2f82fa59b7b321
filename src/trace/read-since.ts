import { takenBack_s } from '../trade/air.ts';
import { asColdPaint, asPaint, type Pot } from '../trade/paint-warmth.ts';
import { plausible } from '../trade/plausible.ts';
import { overAt_h, type ProcessClock } from '../trade/process-clock.ts';
import type { AirRead, DayLine, Timeline } from './timeline.ts';

/** A reading that the next one took back, nothing sprayed between, counts for no clock. */
function isTakenBack({ passes }: DayLine, { at }: AirRead, next: AirRead | undefined): boolean {
	if (!next || next.at - at > takenBack_s * 1000) return false;
	return !passes.some(({ began }) => began > at && began < next.at);
}

/**
 * How long a process lasts from one instant of a day on, ms, by what had been read until another: the day itself went by
 * the same.
 */
export function lasts_ms(
	{ job }: Timeline,
	line: DayLine | undefined,
	clock: ProcessClock,
	span: {
		from: number;
		until: number;
		of: 'airC' | 'surfaceC';
		pot?: Pot;
		standing?: Pick<Pot, 'read_C'>;
	},
): number {
	const airs = (line?.air ?? []).filter(({ at }) => at <= span.until);
	const counted = airs.filter((air, nth) => !line || !isTakenBack(line, air, airs[nth + 1]));
	const readings = counted.map(({ at, record }) => ({
		at_h: (at - span.from) / 3_600_000,
		C: record[span.of],
	}));
	const course = plausible(clock.kind, readings, job.shop.air_C);
	const { pot, standing } = span;
	const paint = standing ? asColdPaint(course, standing.read_C) : pot ? asPaint(course, pot) : course;
	return overAt_h(clock, paint) * 3_600_000;
}
