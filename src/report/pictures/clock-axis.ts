import { scaleUtc } from 'd3-scale';
import type { Piece } from '../page/markup.ts';
import type { Times } from '../times.ts';
import { label, narrowest_px, rule } from './picture.ts';

export type ClockAxis = {
	at(iso: string): number;
	/** Its ends, percent, and the room left of it for the names of rows on the narrowest screen, px. */
	first: number;
	last: number;
	label_px: number;
	/** … and of the hours themselves. */
	row_px: number;
	ticks: { x: number; says: string }[];
};

/** Places across for the hours; left of them the rows have their names. */
const reach: [number, number] = [28, 96];
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
		at: iso => Math.min(100, Math.max(reach[0], scale(local(iso)))),
		...{ first: reach[0], last: reach[1], label_px: (narrowest_px * reach[0]) / 100 - 6 },
		row_px: (narrowest_px * (100 - reach[0])) / 100,
		ticks: scale.ticks(5).map(tick => ({
			x: scale(tick),
			says: times.clock(new Date(tick.getTime() - shift).toISOString()),
		})),
	};
}

/** Hours at a height, lines from there down to `foot`. */
export function clockMarks({ ticks }: ClockAxis, y: number, foot: number): Piece {
	let last = Number.NEGATIVE_INFINITY;
	return ticks.map(({ x, says }) => {
		const room = x - last >= apart;
		if (room) last = x;
		return [
			rule(x, y + 5, foot, 'grid'),
			room ? label(says, { x, y, anchor: 'middle', kind: 'tick' }) : null,
		];
	});
}
