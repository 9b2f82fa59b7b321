import { scaleUtc } from 'd3-scale';
import type { Piece } from '../page/markup.ts';
import type { Times } from '../times.ts';
import { label, rule } from './picture.ts';

export type ClockAxis = { at(iso: string): number; ticks: { x: number; says: string }[] };

/** Places across on which bars and their numbers find room. */
const reach: [number, number] = [6, 95];
/** Least way between two hours written, percent. */
const apart = 14;

/**
 * Places across for the instants of a day, with marks at full hours of its zone.
 * @param from its first instant; `to` its last
 */
export function clockAxis(from: string, to: string, times: Times): ClockAxis {
	const shift = times.ahead_min(from) * 60_000;
	const local = (iso: string) => new Date(Date.parse(iso) + shift);
	const least = local(from).getTime() + 10 * 60_000;
	const scale = scaleUtc()
		.domain([local(from), new Date(Math.max(local(to).getTime(), least))])
		.range(reach);
	return {
		at: iso => scale(local(iso)),
		ticks: scale.ticks(5).map(tick => ({
			x: scale(tick),
			says: times.clock(new Date(tick.getTime() - shift).toISOString()),
		})),
	};
}

/** Marks with their hours along the top, lines down to `foot`. */
export function clockMarks({ ticks }: ClockAxis, foot: number): Piece {
	let last = Number.NEGATIVE_INFINITY;
	return ticks.map(({ x, says }) => {
		const room = x - last >= apart;
		if (room) last = x;
		return [
			rule(x, 18, foot, 'grid'),
			room ? label(says, { x, y: 12, anchor: 'middle', kind: 'tick' }) : null,
		];
	});
}
