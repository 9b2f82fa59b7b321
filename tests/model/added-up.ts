/** A whole number as it is told. */
export const count = (value: number): string => value.toLocaleString('en');

/** What a share of a play counted and found: numbers, and lists of what was wrong. */
type Share = { [name: string]: number | unknown[] };

/** Several shares as one: numbers are added up, lists put one behind the other. Without a share, what `nothing` counts. */
export function addedUp<Counted extends Share>(nothing: Counted, shares: readonly Counted[]): Counted {
	const sum: Share = { ...nothing };
	for (const share of shares)
		for (const [name, counted] of Object.entries(share)) {
			const before = sum[name];
			if (typeof counted === 'number') sum[name] = (typeof before === 'number' ? before : 0) + counted;
			else sum[name] = [...(Array.isArray(before) ? before : []), ...counted];
		}
	return sum as Counted;
}
