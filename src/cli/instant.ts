const form = /^(\d{4}-\d\d-\d\d)(?:T\d\d:\d\d(?::\d\d(?:\.\d{1,3})?)?(?:Z|[+-]\d\d:\d\d))?$/;

/**
 * An instant from a command line: a date, or a date and a time with its zone. Nothing is guessed: a time without a
 * zone, and a day that its month does not have, are none.
 * @returns wall clock, ms; null: it is no instant
 */
export function instantIn(text: string): number | null {
	const [, date] = form.exec(text) ?? [];
	const midnight = date === undefined ? Number.NaN : Date.parse(date);
	const at = Date.parse(text);
	if (Number.isNaN(midnight) || Number.isNaN(at)) return null;
	return new Date(midnight).toISOString().startsWith(date ?? '') ? at : null;
}
