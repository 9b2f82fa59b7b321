import { clock } from '../words/clock.ts';

/** A wait that a sheet asks for after a coat or a step: hours, and a time of day that has to come first, in minutes from midnight. */
type SheetWait = {
	wait_h?: number | undefined;
	then_h?: number | undefined;
	until_min?: number | undefined;
};

const day_min = 1440;

function minuteOf(ms: number, zone: string): number {
	const [hour = 0, minute = 0] = clock(ms, zone).split(':').map(Number);
	return hour * 60 + minute;
}

/** The first moment after another at which a clock in a zone shows a time of day, ms; where clocks are put forward over it, the hour after. */
function firstAt(until_min: number, from_ms: number, zone: string): number {
	const ahead = (until_min - minuteOf(from_ms, zone) + day_min) % day_min || day_min;
	const there = Math.floor(from_ms / 60_000) * 60_000 + ahead * 60_000;
	const off = ((until_min - minuteOf(there, zone) + day_min * 1.5) % day_min) - day_min / 2;
	const put = there + off * 60_000;
	return minuteOf(put, zone) === until_min ? put : Math.max(there, put);
}

/** How long a wait is that began at an instant, s. */
export const waits_s = ({ wait_h, then_h, until_min }: SheetWait, from_ms: number, zone: string): number =>
	Math.max(
		(wait_h ?? then_h ?? 0) * 3600,
		until_min === undefined ? 0 : (firstAt(until_min, from_ms, zone) - from_ms) / 1000,
	);
