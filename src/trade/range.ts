/**
 * Lets a value through only inside the range that a function is good for.
 * @param name what the value is, as the message says it
 * @param range lowest and highest, both allowed
 * @param unit of all three, for the message
 * @throws RangeError with the range in one line
 */
export function within(name: string, value: number, range: readonly [number, number], unit = ''): number {
	const [low, high] = range;
	if (value >= low && value <= high) return value;
	const tail = unit === '' ? '' : ` ${unit}`;
	throw new RangeError(`${name} must be ${low} to ${high}${tail}, not ${Number(value.toPrecision(6))}`);
}

/**
 * Lets a value through only above nought and finite.
 * @throws RangeError with the range in one line
 */
export function positive(name: string, value: number, unit = ''): number {
	if (value > 0 && Number.isFinite(value)) return value;
	const tail = unit === '' ? '' : ` ${unit}`;
	throw new RangeError(`${name} must be more than 0${tail}, not ${value}`);
}

/** A value known only to lie between two ends. */
export type Span = { low: number; high: number };
