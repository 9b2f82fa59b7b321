import { builtWith } from '../one-change.ts';

/**
 * Changes of the rules of time in named files of `src/day`, each of which the days beside a true time must catch. They are
 * no conditions of a chart: no search of the machines meets them.
 */

export type TimeMutant = { file: string; what: string; from: string; to: string };

const mutant = (file: string, what: string, from: string, to: string): TimeMutant => ({
	file,
	what,
	from,
	to,
});

export const timeMutants: readonly TimeMutant[] = [
	mutant(
		'passed.ts',
		'a sleep that is proved counts for nothing',
		'exactly(slept === undefined ? mono : Math.max(mono, wall))',
		'exactly(mono)',
	),
	mutant(
		'passed.ts',
		'a clock that went on by itself counts for no maximum',
		'{ least: known.least, most: wall }',
		'known',
	),
	mutant(
		'passed.ts',
		'a clock that went on by itself counts for a minimum',
		'{ least: known.least, most: wall }',
		'exactly(wall)',
	),
	mutant(
		'passed.ts',
		'a clock set back stops time',
		'return away < 0 ? known',
		'return away < 0 ? { least: Math.max(0, wall), most: known.most }',
	),
	mutant(
		'passed.ts',
		'behind after a restart, no time has passed at all',
		'return { least, most: unknown_ms };',
		'return exactly(least);',
	),
	mutant(
		'passed.ts',
		'after a restart the wall clock is believed, whatever the uptime says',
		'isBeside ? { least, most: wall } :',
		'isBeside && false ? { least, most: wall } :',
	),
	mutant(
		'instant.ts',
		'a minimum counts the longest that a gap can have been',
		'reduce((sum, { least }) => sum + least',
		'reduce((sum, { most }) => sum + most',
	),
	mutant(
		'instant.ts',
		'a maximum counts the shortest that a gap can have been',
		'reduce((sum, { most }) => sum + most',
		'reduce((sum, { least }) => sum + least',
	),
	mutant(
		'enter.ts',
		'a jump said to be a set clock is counted as a sleep',
		"jump === 'slept' ? gap.most : gap.least",
		"jump === 'set' ? gap.most : gap.least",
	),
	mutant(
		'asks/holding.ts',
		'hold counts to the instant that was written down when the wait began',
		'duration((next.due - moment.now.wall) / 1000)',
		"duration((Date.parse(moment.state.book.wait?.due ?? '') - moment.now.wall) / 1000)",
	),
	mutant(
		'allowed.ts',
		'pot life by the clock that counts less',
		'life_h * 3600 - atMost_s(',
		'life_h * 3600 - atLeast_s(',
	),
	mutant(
		'allowed.ts',
		'standing by the clock that counts more',
		'standing_min * 60 - atLeast_s(',
		'standing_min * 60 - atMost_s(',
	),
	mutant(
		'allowed.ts',
		'a window closes by the clock that counts less',
		'const most = atMost_s(last.ended',
		'const most = atLeast_s(last.ended',
	),
	mutant(
		'allowed.ts',
		'a window opens by the clock that counts more',
		'const least = atLeast_s(last.ended, moment.now);\n	const wait_s',
		'const least = atMost_s(last.ended, moment.now);\n	const wait_s',
	),
];

/** Days within which each is caught. */
export const daysToCatch = 150;

/**
 * The days played on a program with one mutant in it.
 * @throws Error where the text to be changed is not there just once
 */
export async function rightOnWith({
	file,
	from,
	to,
}: TimeMutant): Promise<typeof import('./days.ts').rightOn> {
	const change = { file: `src/day/${file}`, from, to };
	const days = await builtWith<typeof import('./days.ts')>('tests/model/right-clocks/days.ts', change);
	return days.rightOn;
}
