/** Edits (insert, delete, replace a letter) that turn one word into the other. */
export function editDistance(from: string, to: string): number {
	let row = Array.from({ length: to.length + 1 }, (_, index) => index);
	for (const [at, letter] of [...from].entries()) {
		const next = [at + 1];
		for (const [index, other] of [...to].entries()) {
			const replaced = (row[index] ?? 0) + (letter === other ? 0 : 1);
			next.push(Math.min(replaced, (row[index + 1] ?? 0) + 1, (next[index] ?? 0) + 1));
		}
		row = next;
	}
	return row.at(-1) ?? 0;
}

/**
 * The word of a list that is written most like the one given; the first of equals.
 * @returns undefined only for an empty list
 */
export function nearest(word: string, words: readonly string[]): string | undefined {
	let best: string | undefined;
	let least = Number.POSITIVE_INFINITY;
	for (const candidate of words) {
		const distance = editDistance(word.toLowerCase(), candidate.toLowerCase());
		if (distance < least) {
			least = distance;
			best = candidate;
		}
	}
	return best;
}
