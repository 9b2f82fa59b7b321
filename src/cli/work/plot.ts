const eighths = [' ', '▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];

/** One cell of a bar: how much of the row from `floor` up it fills. */
function cell(value: number, floor: number, row: number): string {
	const filled = Math.round((8 * (value - floor)) / row);
	return eighths[Math.min(8, Math.max(0, filled))] ?? ' ';
}

/**
 * A curve as text: a column for each value, heights as a share of the mean, an eighth of a row fine.
 * @param values film at even distances
 * @param mean the value that counts as 100%
 * @param rows rows of the plot, each a tenth to a half of the mean
 */
export function plot(values: readonly number[], mean: number, rows = 8): string[] {
	const row = Math.max(mean, ...values) / rows;
	return Array.from({ length: rows }, (_, index) => {
		const floor = row * (rows - 1 - index);
		const label = `${Math.round((100 * floor) / mean)}%`.padStart(5);
		return `${label} |${values.map(value => cell(value, floor, row)).join('')}`.trimEnd();
	});
}

/**
 * A long list as so many columns, each the value in the middle of its run.
 * @param count columns, at most as many as there are values
 */
export const columns = (values: readonly number[], count: number): number[] =>
	Array.from(
		{ length: count },
		(_, index) => values[Math.floor(((index + 0.5) * values.length) / count)] ?? 0,
	);
