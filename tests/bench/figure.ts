/**
 * One line of the table: what was measured, what it is measured against in the same run, and their ratio. Where the
 * limit is a plain number (milliseconds, megabytes), it is measured against that number, and the ratio may be 1.
 * Each benchmark is a file that exports `measure`, which finds its figures.
 */
export type Figure = {
	name: string;
	unit: string;
	ours: number;
	against: { what: string; value: number };
	/** Median of the ratios of interleaved pairs, where there were pairs; ours ÷ against. */
	ratio: number;
	limit: number;
	/** What is wanted, where the limit had to be set above it. */
	goal?: number;
};

export const median = (values: readonly number[]): number =>
	[...values].sort((one, other) => one - other)[Math.floor(values.length / 2)] ?? Number.NaN;

/** Milliseconds that a piece of work takes. */
export function time_ms(work: () => unknown): number {
	const from = performance.now();
	work();
	return performance.now() - from;
}

/** Milliseconds of processor: what else the machine does does not count. */
export function cpu_ms(work: () => unknown): number {
	const from = process.cpuUsage();
	work();
	return process.cpuUsage(from).user / 1000;
}

type Found = { bare: number; ours: number; ratio: number };
type Measure = (pair: number) => number | Promise<number>;

/**
 * Measures two things in turn, each pair in the other order than the one before, so that whatever else the machine
 * does falls on both.
 */
export async function inPairs(pairs: number, bare: Measure, ours: Measure): Promise<Found> {
	const found: [bare: number, ours: number][] = [];
	for (let pair = 0; pair < pairs; pair++) {
		const first = await (pair % 2 ? ours : bare)(pair);
		const second = await (pair % 2 ? bare : ours)(pair);
		found.push(pair % 2 ? [second, first] : [first, second]);
	}
	return {
		bare: median(found.map(([value]) => value)),
		ours: median(found.map(([, value]) => value)),
		ratio: median(found.map(([plain, value]) => value / plain)),
	};
}

/** A figure measured in pairs with its bare counterpart. */
export const beside = (
	name: string,
	unit: string,
	what: string,
	{ bare, ours, ratio }: Found,
	limit: number,
): Figure => ({ name, unit, ours, against: { what, value: bare }, ratio, limit });

/** A figure measured against a number that it must stay under. */
export const under = (name: string, unit: string, ours: number, most: number): Figure => ({
	name,
	unit,
	ours,
	against: { what: 'the most allowed', value: most },
	ratio: ours / most,
	limit: 1,
});
