import { daysIn, explain, type Ground, inGaps, notRead } from './ground.ts';
import { againRight, ends } from './numbers.ts';
import type { Cause } from './prior.ts';
import { measuredOdds, type Soft } from './soft.ts';
import type { AirRead, DayLine } from './timeline.ts';
import type { Explanation } from './weigh.ts';

const measures: Readonly<Record<string, (reading: AirRead['record']) => number>> = {
	humid: ({ humidity }) => humidity,
	cold: ({ airC, surfaceC }) => Math.min(airC, surfaceC),
	warm: ({ airC, surfaceC }) => Math.max(airC, surfaceC),
};

/** In words: what was measured, and that it lies outside its limits, where it does. */
function saysOf({ record }: AirRead, form: string): string {
	const read =
		form === 'humid' ? `humidity ${Math.round(record.humidity * 100)}%` : `${Math.round(record.airC)} °C`;
	if (record.spray) return `the air read ${read}`;
	return `the air was outside its limits (${record.reasons.join(', ') || 'not fit to spray'})`;
}

function softOf(ground: Ground, reading: AirRead, form: string | null): Soft[] {
	const measure = form === null ? undefined : measures[form];
	if (form === null || !measure) return [];
	const odds = measuredOdds(form, measure(reading.record), ground.habits.number);
	const isRecord = !reading.record.spray && odds > 1;
	return [{ odds, isRight: odds < 1, isRecord, says: () => saysOf(reading, form) }];
}

/** Hours between the passes of a day, from its opening to its closing; a moment at the least. */
function hoursOf({ opened, closed, passes }: DayLine): number[] {
	const from = [opened, ...passes.map(({ ended }) => ended)];
	const to = [...passes.map(({ began }) => began), closed];
	return from.map((start, nth) => Math.max(1e-3, ((to[nth] ?? start) - start) / 3_600_000));
}

/** What readings inside an interval come to: those that speak against it as any keys, of those for it the strongest. */
type Taken = { against: number; isSecond: boolean; strongest: number };

function taken(known: Taken, softs: readonly Soft[]): Taken {
	let { against, isSecond, strongest } = known;
	for (const { odds } of softs) {
		strongest = Math.max(strongest, odds);
		if (odds < 1) {
			against *= isSecond ? Math.max(odds, againRight) : odds;
			isSecond = true;
		}
	}
	return { against, isSecond, strongest };
}

/** Of the air: any interval, by the hours before and after it; a reading that forbids spraying ends it. */
export function airExtents(ground: Ground, cause: Cause): Explanation[] {
	const days = ground.timeline.days.map(day => ({ day, hours: hoursOf(day) }));
	const whole = days.reduce(
		(sum, { day, hours }) => sum + hours.slice(0, day.passes.length).reduce((all, one) => all + one, 0),
		0,
	);
	return daysIn(ground).flatMap(day => {
		const hours = hoursOf(day);
		const gaps = inGaps(day.passes, day.air);
		const softs = gaps.map(gap => gap.flatMap(reading => softOf(ground, reading, cause.form)));
		const stops = gaps.map(gap => (gap.some(({ record }) => !record.spray) ? 1 - ends.differs : 1));
		unread(ground, cause, day, gaps);
		return day.passes.flatMap((_, from) =>
			fromPass({ ground, cause, day, hours, softs, stops, whole }, from),
		);
	});
}

type Laid = {
	ground: Ground;
	cause: Cause;
	day: DayLine;
	hours: readonly number[];
	softs: readonly Soft[][];
	stops: readonly number[];
	whole: number;
};

function fromPass({ ground, cause, day, hours, softs, stops, whole }: Laid, from: number): Explanation[] {
	const { passes } = day;
	const found: { to: number; weight: number }[] = [];
	let goesOn = 1;
	for (let to = from; to < passes.length; to++) {
		if (to > from) goesOn *= stops[to] ?? 1;
		found.push({ to, weight: goesOn * (hours[to + 1] ?? 0) });
	}
	const all = found.reduce((sum, { weight }) => sum + weight, 0);
	const nothing: Taken = { against: 1, isSecond: false, strongest: 1 };
	let within = nothing;
	let wider = taken(nothing, softs[from] ?? []);
	return found.flatMap(({ to, weight }) => {
		const more = to === from ? [] : (softs[to] ?? []);
		within = taken(within, more);
		wider = taken(wider, more);
		const odds = (within.against * within.strongest + wider.against * wider.strongest) / 2;
		return explain(ground, cause, passes.slice(from, to + 1), {
			...{ share: ((hours[from] ?? 0) / whole) * (weight / all), odds },
			softs: () => softs.slice(from, to + 1).flat(),
		});
	});
}

function unread(ground: Ground, { code }: Cause, { passes }: DayLine, gaps: readonly AirRead[][]): void {
	for (const pass of ground.asked) {
		const at = passes.indexOf(pass);
		if (at >= 0 && !gaps.slice(at + 1).some(gap => gap.length > 0))
			notRead(ground, code, `air: no reading after ${pass.face}`);
	}
}
